// SPDX-License-Identifier: MIT
using System.Buffers.Binary;

namespace SensorSim.Links.Bluetooth;

/// <summary>Puts the fields of a characteristic one behind the other.</summary>
internal ref struct ValueWriter(Span<byte> value)
{
    private readonly Span<byte> _value = value;

    public int Length { get; private set; }

    public void Byte(int number) => _value[Length++] = (byte)number;

    public void Word(int number)
    {
        BinaryPrimitives.WriteUInt16LittleEndian(_value[Length..], (ushort)number);
        Length += 2;
    }

    public void Number(SFloat number) => Word(number.Raw);

    public void Number(SFloat? number)
    {
        if (number is SFloat n)
        {
            Word(n.Raw);
        }
    }

    public void Word(ushort? number)
    {
        if (number is ushort n)
        {
            Word((int)n);
        }
    }

    public void Time(DeviceTime? time)
    {
        if (time is DeviceTime t)
        {
            t.Write(_value[Length..]);
            Length += DeviceTime.Bytes;
        }
    }

    public void ThreeBytes(int? number)
    {
        if (number is int n)
        {
            Word(n & 0xFFFF);
            Byte(n >> 16);
        }
    }
}
