// SPDX-License-Identifier: MIT
using System.Text;

namespace SensorSim.Files.Text;

/// <summary>Hands out the lines of a UTF-8 file one by one from a buffer of fixed size, without an object per line.</summary>
internal sealed class LineReader : IDisposable
{
    private const int LongestLine = 4096;
    private readonly StreamReader _reader;
    private readonly char[] _buffer = new char[LongestLine * 4];
    private int _begin;
    private int _end;
    private int _lineBegin;
    private int _lineLength;
    private bool _isAtEnd;

    public LineReader(Stream stream, string fileName)
    {
        FileName = fileName;
        _reader = new StreamReader(stream, new UTF8Encoding(false, throwOnInvalidBytes: true), true, 1 << 14);
    }

    public string FileName { get; }

    /// <summary>Number of the line last read, counted from 1.</summary>
    public long LineNumber { get; private set; }

    /// <summary>Whether the line last read ends with a line feed.</summary>
    public bool IsTerminated { get; private set; }

    /// <summary>The line last read, without its line end; valid until the next one is read.</summary>
    public ReadOnlySpan<char> Line => _buffer.AsSpan(_lineBegin, _lineLength);

    public bool Read()
    {
        int searched = 0;
        while (true)
        {
            int length = _buffer.AsSpan(_begin + searched, _end - _begin - searched).IndexOf('\n');
            if (length >= 0)
            {
                Take(searched + length, isTerminated: true);
                return true;
            }

            searched = _end - _begin;
            if (_isAtEnd)
            {
                if (searched == 0)
                {
                    return false;
                }

                Take(searched, isTerminated: false);
                return true;
            }

            Fill();
        }
    }

    public InputFileException Error(int column, string message) => new(FileName, LineNumber, column, message);

    public void Dispose() => _reader.Dispose();

    private void Take(int length, bool isTerminated)
    {
        LineNumber++;
        IsTerminated = isTerminated;
        _lineBegin = _begin;
        _lineLength = length;
        _begin += length + (isTerminated ? 1 : 0);
        if (_lineLength > LongestLine)
        {
            throw Error(LongestLine, $"the line is longer than {LongestLine} characters; is this a text file with line ends?");
        }

        if (_lineLength > 0 && _buffer[_lineBegin + _lineLength - 1] == '\r')
        {
            _lineLength--;
        }
    }

    private void Fill()
    {
        if (_begin > 0)
        {
            Array.Copy(_buffer, _begin, _buffer, 0, _end - _begin);
            _end -= _begin;
            _begin = 0;
        }

        if (_end > LongestLine + 1)
        {
            LineNumber++;
            throw Error(LongestLine, $"the line is longer than {LongestLine} characters; is this a text file with line ends?");
        }

        try
        {
            int count = _reader.Read(_buffer, _end, _buffer.Length - _end);
            _isAtEnd = count == 0;
            _end += count;
        }
        catch (DecoderFallbackException e)
        {
            throw new InputFileException(FileName, LineNumber + 1, 0, "at or soon after this line the file is not UTF-8 text.", e);
        }
    }
}
