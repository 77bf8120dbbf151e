// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>The file of one device while it is written: gathers a second, then writes it.</summary>
/// <remarks>A full second waits until more comes or the recording ends, because the true end is annotated in the last record.</remarks>
internal sealed class EdfDeviceFile : IDisposable
{
    // Room that no change may take: the true end, with the largest numbers.
    private const int EndRoom = 80;
    private const int ScratchBytes = 512;
    private readonly StreamFormat _format;
    private readonly EdfFileWriter _writer;
    private readonly EdfWriterTrack[] _tracks;
    private readonly IReadOnlyList<ChannelClock> _clocks;
    private readonly EdfAnnotationQueue _queue = new();
    private readonly byte[] _scratch = new byte[ScratchBytes];
    private readonly long _ticks;
    private long _record;

    public EdfDeviceFile(Stream stream, StreamFormat format, string device, bool isBdf, EdfWriteOptions options)
    {
        _format = format;
        _ticks = format.Clock.TicksPerSecond;
        _writer = new EdfFileWriter(stream, EdfPlan.Header(format, device, isBdf, options));
        _tracks = [.. Enumerable.Range(0, format.Channels.Count)
            .Where(c => string.Equals(format.Channels[c].Device, device, StringComparison.Ordinal)).Select(c => new EdfWriterTrack(format, c))];
        _clocks = [.. options.Clocks.Where(k => _tracks.Any(t => t.Name == k.Channel) && (k.OffsetNs != 0 || k.Ppm != 0))];
        WriteClocks();
    }

    /// <summary>Annotations that found no room.</summary>
    public long AnnotationsLost => _queue.Lost;

    public void Write(SampleBlock block)
    {
        foreach (EdfWriterTrack track in _tracks)
        {
            track.BeginBlock();
        }

        while (true)
        {
            foreach (EdfWriterTrack track in _tracks)
            {
                track.Take(block.Channels[track.Channel]);
            }

            if (block.EndTick <= (_record + 1) * _ticks)
            {
                return;
            }

            foreach (EdfWriterTrack track in _tracks)
            {
                track.FillGap(track.RecordEnd);
            }

            WriteChanges();
            _queue.Drain(_writer, EndRoom);
            WriteRecord();
        }
    }

    /// <summary>A builder for an annotation that waits for room.</summary>
    public EdfTalBuilder Builder(long onsetNs) => new(_scratch, onsetNs);

    /// <summary>Keeps an annotation until there is room for it.</summary>
    public void Keep(in EdfTalBuilder tal) => _queue.Add(tal.IsFull ? [] : _scratch.AsSpan(0, tal.Length));

    public void Complete(long endTick)
    {
        for (int i = 0; i < _tracks.Length; i++)
        {
            _tracks[i].FillGap(_format.FirstSampleAtOrAfter(_tracks[i].Channel, endTick));
            _tracks[i].FillRest();
        }

        WriteChanges();
        WriteEnd(endTick);
        _queue.Drain(_writer, 0);
        _queue.LoseRest();
        WriteRecord();
        _writer.Complete();
    }

    public void Dispose() => _writer.Dispose();

    private void WriteRecord()
    {
        for (int i = 0; i < _tracks.Length; i++)
        {
            _writer.Samples(i, _tracks[i].Codes);
            _tracks[i].NextRecord();
        }

        _writer.EndRecord();
        _record++;
    }

    // One annotation for each change, for those who look at them; where that is too much, lists.
    private void WriteChanges()
    {
        int mark = _writer.AnnotationMark;
        if (TryWriteChanges(isList: false))
        {
            return;
        }

        _writer.Rewind(mark);
        if (!TryWriteChanges(isList: true))
        {
            throw new EdfRefusedException(string.Create(
                CultureInfo.InvariantCulture,
                $"second {_record} has more gaps and changes of status than its annotations hold; give more bytes to annotations, or write the recording as CSV or Parquet."));
        }
    }

    private bool TryWriteChanges(bool isList)
    {
        foreach (EdfWriterTrack track in _tracks)
        {
            if (!EdfChangeTexts.TryWrite(_writer, _format, track, EdfChangeTexts.Status, track.Changes, isList)
                || !EdfChangeTexts.TryWrite(_writer, _format, track, EdfChangeTexts.Gap, track.Gaps, isList))
            {
                return false;
            }
        }

        return _writer.AnnotationRoom >= EndRoom;
    }

    private void WriteEnd(long endTick)
    {
        EdfTalBuilder tal = _writer.Builder(_format.Clock.Nanoseconds(endTick));
        tal.Duration(_format.Clock.Nanoseconds(((_record + 1) * _ticks) - endTick));
        EdfTexts.End(ref tal, endTick, _ticks);
        if (!_writer.Take(tal))
        {
            throw new InvalidOperationException("There is no room for the end of the recording.");
        }
    }

    private void WriteClocks()
    {
        foreach (ChannelClock clock in _clocks)
        {
            EdfTalBuilder tal = _writer.Builder(0);
            EdfTexts.Clock(ref tal, clock);
            if (!_writer.Take(tal))
            {
                throw new EdfRefusedException("the clocks of the channels do not fit into the annotations of the first second; give more bytes to annotations.");
            }
        }
    }
}
