// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Signals.Detectors;

namespace SensorSim.Links.Frames.Payloads;

/// <summary>A setting of the sensor that has changed (<c>setting</c>), or that the board wishes to change (<c>request</c>).</summary>
/// <remarks>Whether the stream has the channel, and the channel the setting, is for the receiver to check.</remarks>
public static class SettingPayload
{
    private const int Bytes = 16;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>setting</c> or <c>request</c> frame.</param>
    /// <param name="setting">What it says.</param>
    /// <returns>Whether it is one, with a setting that is defined and a tick of 0 to 2^62.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, out SettingsRequest setting)
    {
        setting = default;
        if (payload.Length != Bytes)
        {
            return false;
        }

        setting = new SettingsRequest(
            payload[0],
            (SensorSetting)payload[1],
            BinaryPrimitives.ReadInt32LittleEndian(payload[4..]),
            BinaryPrimitives.ReadInt64LittleEndian(payload[8..]));
        return payload[1] < SensorSettings.All.Count && setting.EffectiveTick is >= 0 and <= TickPayload.MaximumTick;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="setting">The change.</param>
    /// <param name="payload">Receives it; at least 16 bytes.</param>
    /// <returns>Bytes written.</returns>
    public static int Write(in SettingsRequest setting, Span<byte> payload)
    {
        payload[0] = (byte)setting.Channel;
        payload[1] = (byte)setting.Setting;
        BinaryPrimitives.WriteUInt16LittleEndian(payload[2..], 0);
        BinaryPrimitives.WriteInt32LittleEndian(payload[4..], setting.ValueMilli);
        BinaryPrimitives.WriteInt64LittleEndian(payload[8..], setting.EffectiveTick);
        return Bytes;
    }
}
