// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Bluetooth;

/// <summary>Takes the fields of a characteristic one after the other; once the bytes do not reach, everything is 0 and it is not whole.</summary>
internal ref struct ValueReader(ReadOnlySpan<byte> value)
{
    private ReadOnlySpan<byte> _rest = value;
    private bool _isShort;

    /// <summary>Bytes that are left.</summary>
    public readonly int Left => _rest.Length;

    /// <summary>Whether all fields were there and nothing is left.</summary>
    public readonly bool IsWhole => !_isShort && _rest.IsEmpty;

    public int Byte()
    {
        ReadOnlySpan<byte> field = Take(1);
        return field.IsEmpty ? 0 : field[0];
    }

    public ushort Word()
    {
        ReadOnlySpan<byte> field = Take(2);
        return field.IsEmpty ? (ushort)0 : BinaryPrimitives.ReadUInt16LittleEndian(field);
    }

    public SFloat Number() => new(Word());

    public SFloat? NumberIf(bool isThere) => isThere ? Number() : null;

    public ushort? WordIf(bool isThere) => isThere ? Word() : null;

    public int? ThreeBytesIf(bool isThere) => isThere ? Word() | (Byte() << 16) : null;

    public DeviceTime? TimeIf(bool isThere)
    {
        ReadOnlySpan<byte> field = isThere ? Take(DeviceTime.Bytes) : default;
        return isThere ? field.IsEmpty ? default(DeviceTime) : DeviceTime.Read(field) : null;
    }

    private ReadOnlySpan<byte> Take(int count)
    {
        if (_rest.Length < count)
        {
            _isShort = true;
            _rest = default;
            return default;
        }

        ReadOnlySpan<byte> field = _rest[..count];
        _rest = _rest[count..];
        return field;
    }
}
