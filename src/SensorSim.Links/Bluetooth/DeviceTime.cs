// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Bluetooth;

/// <summary>Local date and time of a measurement, as the Bluetooth Date Time characteristic has them; 0 in year, month or day: not known.</summary>
/// <param name="Year">1582 to 9999, or 0.</param>
/// <param name="Month">1 to 12, or 0.</param>
/// <param name="Day">1 to 31, or 0.</param>
/// <param name="Hour">0 to 23.</param>
/// <param name="Minute">0 to 59.</param>
/// <param name="Second">0 to 59.</param>
public readonly record struct DeviceTime(int Year, int Month, int Day, int Hour, int Minute, int Second)
{
    internal const int Bytes = 7;

    /// <summary>Whether every field is within its range.</summary>
    public bool IsValid => Year is 0 or (>= 1582 and <= 9999) && Month is >= 0 and <= 12 && Day is >= 0 and <= 31
        && Hour is >= 0 and <= 23 && Minute is >= 0 and <= 59 && Second is >= 0 and <= 59;

    internal static DeviceTime Read(ReadOnlySpan<byte> bytes)
        => new(BinaryPrimitives.ReadUInt16LittleEndian(bytes), bytes[2], bytes[3], bytes[4], bytes[5], bytes[6]);

    internal void Write(Span<byte> bytes)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)Year);
        bytes[2] = (byte)Month;
        bytes[3] = (byte)Day;
        bytes[4] = (byte)Hour;
        bytes[5] = (byte)Minute;
        bytes[6] = (byte)Second;
    }
}
