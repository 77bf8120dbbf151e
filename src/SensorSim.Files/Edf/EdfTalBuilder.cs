// SPDX-License-Identifier: MIT
using System.Buffers;
using System.Buffers.Text;
using System.Text;

namespace SensorSim.Files.Edf;

/// <summary>Puts one list of annotations together in a buffer of the caller; takes nothing from the heap.</summary>
internal ref struct EdfTalBuilder
{
    private readonly Span<byte> _buffer;

    /// <summary>Begins a list with its onset.</summary>
    /// <param name="buffer">Takes the bytes.</param>
    /// <param name="onsetNs">Onset [ns from the start that the header gives].</param>
    public EdfTalBuilder(Span<byte> buffer, long onsetNs)
    {
        _buffer = buffer;
        Put(onsetNs < 0 ? (byte)'-' : (byte)'+');
        Seconds(Math.Abs(onsetNs));
    }

    /// <summary>Bytes so far.</summary>
    public int Length { get; private set; }

    /// <summary>Whether something did not fit.</summary>
    public bool IsFull { get; private set; }

    /// <summary>Puts the duration; before any text.</summary>
    public void Duration(long nanoseconds)
    {
        Put(EdfTal.DurationBegin);
        Seconds(nanoseconds);
    }

    /// <summary>Ends the times, or a text.</summary>
    public void EndText() => Put(EdfTal.TextEnd);

    /// <summary>Ends the list.</summary>
    public void End() => Put(0);

    public void Put(byte value)
    {
        if (Length < _buffer.Length)
        {
            _buffer[Length++] = value;
        }
        else
        {
            IsFull = true;
        }
    }

    public void Text(ReadOnlySpan<byte> utf8)
    {
        if (IsFull || !utf8.TryCopyTo(_buffer[Length..]))
        {
            IsFull = true;
            return;
        }

        Length += utf8.Length;
    }

    /// <summary>Text in UTF-8; what would end a text becomes a space.</summary>
    public void Text(ReadOnlySpan<char> text)
    {
        if (IsFull || !Encoding.UTF8.TryGetBytes(text, _buffer[Length..], out int count))
        {
            IsFull = true;
            return;
        }

        Span<byte> put = _buffer.Slice(Length, count);
        for (int i = 0; i < put.Length; i++)
        {
            put[i] = put[i] is 0 or EdfTal.TextEnd or EdfTal.DurationBegin ? (byte)' ' : put[i];
        }

        Length += count;
    }

    public void Integer(long value)
    {
        if (IsFull || !Utf8Formatter.TryFormat(value, _buffer[Length..], out int count))
        {
            IsFull = true;
            return;
        }

        Length += count;
    }

    /// <summary>The shortest text that reads back as the same number.</summary>
    public void Number(double value)
    {
        if (IsFull || !value.TryFormat(_buffer[Length..], out int count, "R", System.Globalization.CultureInfo.InvariantCulture))
        {
            IsFull = true;
            return;
        }

        Length += count;
    }

    private void Seconds(long nanoseconds)
    {
        (long whole, long rest) = Math.DivRem(nanoseconds, 1_000_000_000);
        Integer(whole);
        if (rest == 0)
        {
            return;
        }

        Put((byte)'.');
        for (long scale = 100_000_000; rest > 0; scale /= 10)
        {
            Put((byte)('0' + (rest / scale)));
            rest %= scale;
        }
    }
}
