// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Files.Text;

/// <summary>Writes a comma-separated table: UTF-8 without byte order mark, line feeds, invariant numbers, no object per row.</summary>
internal sealed class CsvWriter : IDisposable
{
    private readonly StreamWriter _writer;
    private readonly char[] _number = new char[32];
    private bool _isFirst = true;

    public CsvWriter(Stream stream, string header)
    {
        _writer = new StreamWriter(stream, new UTF8Encoding(false), 1 << 14) { NewLine = "\n" };
        _writer.Write(header);
        _writer.Write('\n');
    }

    public void Text(ReadOnlySpan<char> text)
    {
        if (text.IndexOfAny(",\"\r\n") >= 0)
        {
            throw new ArgumentException($"A field cannot hold {InputFiles.Quote(text)}: no comma, quotation mark or line end.", nameof(text));
        }

        Separate();
        _writer.Write(text);
    }

    public void Empty() => Separate();

    public void Integer(long value)
    {
        Separate();
        value.TryFormat(_number, out int length, default, CultureInfo.InvariantCulture);
        _writer.Write(_number, 0, length);
    }

    public void Integer(long? value)
    {
        if (value is long number)
        {
            Integer(number);
        }
        else
        {
            Empty();
        }
    }

    /// <summary>The shortest text that reads back as the same number; empty for NaN.</summary>
    public void Number(double value)
    {
        Separate();
        if (double.IsInfinity(value))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, "A file holds finite numbers only.");
        }

        if (!double.IsNaN(value))
        {
            value.TryFormat(_number, out int length, "R", CultureInfo.InvariantCulture);
            _writer.Write(_number, 0, length);
        }
    }

    /// <summary>A number of thousandths with all its three decimals.</summary>
    public void Milli(int thousandths)
    {
        Separate();
        long size = Math.Abs((long)thousandths);
        if (thousandths < 0)
        {
            _writer.Write('-');
        }

        (size / 1000).TryFormat(_number, out int length, default, CultureInfo.InvariantCulture);
        _writer.Write(_number, 0, length);
        _writer.Write('.');
        (size % 1000).TryFormat(_number, out length, "D3", CultureInfo.InvariantCulture);
        _writer.Write(_number, 0, length);
    }

    public void EndRow()
    {
        _writer.Write('\n');
        _isFirst = true;
    }

    /// <summary>Hands every finished row to the operating system, so that the end of this process loses none.</summary>
    public void Flush() => _writer.Flush();

    public void Dispose() => _writer.Dispose();

    private void Separate()
    {
        if (!_isFirst)
        {
            _writer.Write(',');
        }

        _isFirst = false;
    }
}
