// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>One file of a recording that is read: which record comes when, and what its annotations say of the samples.</summary>
internal sealed class EdfReaderFile : IDisposable
{
    private const long TimeNs = 1_000_000_000;

    // A file that claims to last longer is damaged; whoever reads it second by second would not come to an end.
    private const long LongestNs = 366L * 86_400 * 1_000_000_000;
    private readonly EdfFileReader _file;
    private readonly bool _isOwn;
    private readonly EdfReaderTrack[] _tracks;
    private long _ticks;
    private long _recordTicks;
    private long _recordBegin;
    private long _beginNs;
    private long _record = -1;
    private long _toleranceNs;

    public EdfReaderFile(string path, EdfReadOptions options, List<string> notes)
    {
        _file = new EdfFileReader(path);
        try
        {
            IReadOnlyList<EdfMapped>? own = options.IsEmpty ? EdfSignalMap.Own(_file.Header) : null;
            _isOwn = own is not null;
            Mapped = own ?? EdfSignalMap.Foreign(_file, options, notes);
            _tracks = [.. Mapped.Select(m => new EdfReaderTrack(_file, m, _isOwn))];
            if (_file.LeftOverBytes > 0)
            {
                notes.Add(FormattableString.Invariant($"{path}: the file was never closed by its writer; {_file.LeftOverBytes} bytes after its last whole record are left out."));
            }

            CheckRates();
        }
        catch
        {
            _file.Dispose();
            throw;
        }
    }

    public IReadOnlyList<EdfMapped> Mapped { get; }

    public EdfFileReader Reader => _file;

    /// <summary>Puts the file on the clock of the stream.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <returns>First tick after the file.</returns>
    public long Place(StreamFormat format)
    {
        if (_tracks.Length == 0)
        {
            return 0;
        }

        _ticks = format.Clock.TicksPerSecond;
        foreach (EdfReaderTrack track in _tracks)
        {
            track.Channel = format.IndexOf(track.Name);
        }

        _toleranceNs = TimeNs / (2L * _tracks.Max(t => t.RateHz));
        _recordTicks = _tracks[0].SamplesPerRecord * format.TicksPerSample(_tracks[0].Channel);
        if (_file.RecordCount == 0)
        {
            return 0;
        }

        if ((Int128)_recordTicks * _file.RecordCount * TimeNs > (Int128)LongestNs * _ticks)
        {
            throw _file.Error("the records last longer than 366 days; the header must be damaged.");
        }

        return _isOwn ? OwnEnd() : _file.Header.Continuity == EdfContinuity.Discontinuous ? LastEnd() : _file.RecordCount * _recordTicks;
    }

    /// <summary>Appends everything before a tick.</summary>
    public void Read(StreamFormat format, SampleBlock block, long untilTick)
    {
        if (_tracks.Length == 0)
        {
            return;
        }

        while (true)
        {
            if (_record >= 0)
            {
                foreach (EdfReaderTrack track in _tracks)
                {
                    track.Read(block.Channels[track.Channel], format.FirstSampleAtOrAfter(track.Channel, untilTick));
                }
            }

            long nextBegin = _record < 0 ? 0 : _recordBegin + _recordTicks;
            if (nextBegin >= untilTick || _record + 1 >= _file.RecordCount)
            {
                return;
            }

            Begin(format, _record + 1);
        }
    }

    public void Dispose() => _file.Dispose();

    // All signals of a record last equally long, so their whole rates must say so too.
    private void CheckRates()
    {
        foreach (EdfReaderTrack track in _tracks)
        {
            if ((long)track.SamplesPerRecord * _tracks[0].RateHz != (long)_tracks[0].SamplesPerRecord * track.RateHz)
            {
                throw _file.Error(FormattableString.Invariant(
                    $"{track.Name.Text()} and {_tracks[0].Name.Text()} have {track.SamplesPerRecord} and {_tracks[0].SamplesPerRecord} samples in a record of {_file.Header.RecordDurationS} s; with whole rates these do not last equally long."));
            }
        }
    }

    private void Begin(StreamFormat format, long record)
    {
        _file.Load(record);
        Advance(record);
        foreach (EdfReaderTrack track in _tracks)
        {
            track.BeginRecord(format.FirstSampleAtOrAfter(track.Channel, _recordBegin));
        }

        if (_isOwn)
        {
            TakeChanges();
        }
    }

    // Where the loaded record begins. A step back or a small one forward is the rounding of the times; the records follow each other then.
    private void Advance(long record)
    {
        if (_file.Header.Continuity != EdfContinuity.Discontinuous)
        {
            _recordBegin = record * _recordTicks;
            _record = record;
            return;
        }

        long begin = _file.RecordBeginNs();
        if (record == 0)
        {
            _recordBegin = 0;
        }
        else
        {
            long duration = (long)((Int128)_recordTicks * TimeNs / _ticks);
            long late = begin - _beginNs - duration;
            if (late < -_toleranceNs)
            {
                throw _file.Error(record, FormattableString.Invariant(
                    $"it begins at {begin / 1e9:0.######} s, before the end of the one before at {(_beginNs + duration) / 1e9:0.######} s"));
            }

            long gap = late <= _toleranceNs ? 0 : (long)(((Int128)late * _ticks + (TimeNs / 2)) / TimeNs);
            _recordBegin += _recordTicks + gap;
            if ((Int128)_recordBegin * TimeNs > (Int128)LongestNs * _ticks)
            {
                throw _file.Error(record, FormattableString.Invariant($"it begins at {begin / 1e9:0.######} s, more than 366 days after the first; its time must be damaged"));
            }
        }

        _beginNs = begin;
        _record = record;
    }

    private long LastEnd()
    {
        for (long r = 0; r < _file.RecordCount; r++)
        {
            _file.Load(r);
            Advance(r);
        }

        long end = _recordBegin + _recordTicks;
        _record = -1;
        _recordBegin = 0;
        return end;
    }

    private long OwnEnd()
    {
        long last = _file.RecordCount - 1;
        _file.Load(last);
        var notes = new EdfTalReader(_file.Bytes(_file.FirstAnnotations));
        while (notes.TryNext(out EdfTal tal))
        {
            ReadOnlySpan<byte> texts = tal.Texts;
            while (EdfTal.TryTakeText(ref texts, out ReadOnlySpan<byte> text))
            {
                if (text.StartsWith("end "u8))
                {
                    return End(text, last);
                }
            }
        }

        // The recording was cut by another program: it ends with its last record.
        return notes.IsBroken ? throw _file.Error(last, "its annotations cannot be read") : _file.RecordCount * _recordTicks;
    }

    private long End(ReadOnlySpan<byte> text, long last)
    {
        if (EdfTexts.TryEnd(text, out long tick, out long ticksPerSecond) && ticksPerSecond is >= 1 and <= TimeNs)
        {
            // Rounded up: as many samples of every channel lie before it on either clock.
            Int128 end = (((Int128)tick * _ticks) + ticksPerSecond - 1) / ticksPerSecond;
            if (end <= (Int128)(last + 1) * _recordTicks && (end > (Int128)last * _recordTicks || last == 0))
            {
                return (long)end;
            }
        }

        throw _file.Error(last, $"the annotation {Text.InputFiles.Quote(System.Text.Encoding.UTF8.GetString(text))} must name a tick within the last record");
    }

    private void TakeChanges()
    {
        var notes = new EdfTalReader(_file.Bytes(_file.FirstAnnotations));
        while (notes.TryNext(out EdfTal tal))
        {
            ReadOnlySpan<byte> texts = tal.Texts;
            while (EdfTal.TryTakeText(ref texts, out ReadOnlySpan<byte> text))
            {
                bool isGap = StartsWith(text, EdfChangeTexts.Gap);
                if ((isGap || StartsWith(text, EdfChangeTexts.Status)) && !TryTakeChanges(text, isGap))
                {
                    throw _file.Error(_record, $"the annotation {Text.InputFiles.Quote(System.Text.Encoding.UTF8.GetString(text))} does not fit the samples of its record");
                }
            }
        }

        if (notes.IsBroken)
        {
            throw _file.Error(_record, "its annotations cannot be read");
        }
    }

    private bool TryTakeChanges(ReadOnlySpan<byte> text, bool isGap)
    {
        ReadOnlySpan<byte> words = text[(text.IndexOf((byte)' ') + 1)..];
        int space = words.IndexOf((byte)' ');
        if (space < 0)
        {
            return false;
        }

        EdfReaderTrack? track = TrackOf(words[..space]);
        words = words[(space + 1)..];
        long before = 0;
        int count = 0;
        for (; EdfChangeTexts.TryTake(ref words, before, out EdfChange change); count++)
        {
            before = change.Sample;
            if (track is null || !track.TryTake(isGap, change))
            {
                return false;
            }
        }

        // What follows are words for those who read them.
        return count > 0 && (words.IsEmpty || words[0] is >= (byte)'a' and <= (byte)'z');
    }

    private EdfReaderTrack? TrackOf(ReadOnlySpan<byte> name)
    {
        Span<byte> text = stackalloc byte[16];
        foreach (EdfReaderTrack track in _tracks)
        {
            int length = System.Text.Encoding.ASCII.GetBytes(track.Name.Text(), text);
            if (name.SequenceEqual(text[..length]))
            {
                return track;
            }
        }

        return null;
    }

    private static bool StartsWith(ReadOnlySpan<byte> text, ReadOnlySpan<byte> word) =>
        text.Length > word.Length && text[word.Length] == (byte)' ' && text.StartsWith(word);
}
