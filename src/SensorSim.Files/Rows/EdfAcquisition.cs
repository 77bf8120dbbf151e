// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Files.Recordings;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Rows;

/// <summary>What the acquisition did, as it stands in the annotations of EDF+ and BDF+ files that were written here.</summary>
/// <remarks>
/// Formats, clocks, gaps, late packets, settings and stretches that are not usable; the levels of what disturbs a scenario stand in its
/// <c>acquisition.csv</c> only. The files of a recording are read one after another, each in the order of its annotations. Constant memory.
/// </remarks>
public sealed class EdfAcquisition : IRowReader<AcquisitionRow>
{
    private static readonly int s_channels = Enum.GetValues<ChannelName>().Length;

    private readonly Queue<AcquisitionRow> _ready = new();
    private readonly SharedWords _items = new();
    private readonly Queue<string> _files;
    private readonly StreamFormat _format;
    private readonly long _endTick;
    private readonly long _endNs;
    private readonly ChannelClock?[] _clocks = new ChannelClock?[s_channels];
    private readonly AcquisitionRow?[] _gaps = new AcquisitionRow?[s_channels];
    private readonly AcquisitionRow?[] _settings = new AcquisitionRow?[s_channels * AcquisitionItems.Settings.Count];
    private EdfAnnotationReader? _reader;

    private EdfAcquisition(IEnumerable<string> files, StreamFormat format, long endTick)
    {
        _files = new Queue<string>(files);
        _format = format;
        _endTick = endTick;
        _endNs = format.Clock.Nanoseconds(endTick);
        foreach (ChannelFormat channel in format.Channels)
        {
            foreach (AcquisitionRow row in AcquisitionRow.Of(channel))
            {
                _ready.Enqueue(row);
            }
        }
    }

    /// <summary>Opens it.</summary>
    /// <param name="path">Path of a file, or of a folder whose EDF and BDF files belong together.</param>
    /// <returns>The rows; null when a file is somebody else's, which says nothing of this kind.</returns>
    /// <exception cref="InputFileException">A file is not what it should be.</exception>
    public static EdfAcquisition? Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        string[] files = Directory.Exists(path) ? [.. RecordingKinds.EdfFiles(path)] : [path];
        foreach (string file in files)
        {
            using var header = new EdfAnnotationReader(file);
            if (EdfSignalMap.Own(header.Header) is null)
            {
                return null;
            }
        }

        using var recording = new EdfRecordingReader(files);
        return new EdfAcquisition(files, recording.Format, recording.EndTick);
    }

    /// <inheritdoc/>
    public bool TryRead(out AcquisitionRow row)
    {
        while (!_ready.TryDequeue(out row))
        {
            if (_reader is not null && _reader.TryReadNote(out EdfNote note))
            {
                Take(note);
            }
            else if (_files.TryDequeue(out string? file))
            {
                _reader?.Dispose();
                _reader = new EdfAnnotationReader(file);
            }
            else if (_reader is not null)
            {
                _reader.Dispose();
                _reader = null;
                Complete();
            }
            else
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public void Dispose() => _reader?.Dispose();

    private void Take(in EdfNote note)
    {
        if (EdfTexts.TryClock(note.Text, out ChannelClock clock))
        {
            _clocks[(int)clock.Channel] = clock;
        }
        else if (EdfTexts.TryAcquisition(note, _items, out AcquisitionRow row))
        {
            Take(row);
        }
        else
        {
            TakeGaps(note.Text);
        }
    }

    private void Take(in AcquisitionRow row)
    {
        int setting = AcquisitionItems.Settings.IndexOf(row.Item);
        if (setting < 0)
        {
            _ready.Enqueue(row with { EndNs = Math.Max(row.BeginNs, Math.Min(row.EndNs ?? _endNs, _endNs)) });
            return;
        }

        // It held until the next one.
        ref AcquisitionRow? before = ref _settings[((int)row.Channel * AcquisitionItems.Settings.Count) + setting];
        if (before is AcquisitionRow ended)
        {
            _ready.Enqueue(ended with { EndNs = Math.Max(ended.BeginNs, row.BeginNs) });
        }

        before = row;
    }

    // Those that a second divides are one.
    private void TakeGaps(ReadOnlySpan<byte> text)
    {
        var words = new EdfWords(text);
        if (!words.Takes(EdfChangeTexts.Gap) || !words.TryChannel(out ChannelName name) || _format.IndexOf(name) is not (>= 0 and int channel))
        {
            return;
        }

        long samples = _format.FirstSampleAtOrAfter(channel, _endTick);
        ReadOnlySpan<byte> list = words.Rest;
        for (long sample = 0; EdfChangeTexts.TryTake(ref list, sample, out EdfChange change) && change.Sample >= sample && change.Sample <= samples;)
        {
            sample = change.Sample;
            long begin = Ns(sample);
            long end = Ns(Math.Min(samples, sample + change.Value));
            ref AcquisitionRow? open = ref _gaps[(int)name];
            if (open is AcquisitionRow before && before.EndNs == begin)
            {
                open = before with { EndNs = end, Value = before.Value + change.Value };
                continue;
            }

            if (open is AcquisitionRow ended)
            {
                _ready.Enqueue(ended);
            }

            open = new AcquisitionRow(name, AcquisitionItems.Gap, begin, end, change.Value, AcquisitionItems.UnitOf(AcquisitionItems.Gap), "");
        }

        long Ns(long sample) => Math.Min(_endNs, _format.DeviceTimeNs(channel, sample, 0));
    }

    private void Complete()
    {
        foreach (ChannelFormat channel in _format.Channels)
        {
            ChannelClock clock = _clocks[(int)channel.Name] ?? new ChannelClock(channel.Name, 0, 0);
            _ready.Enqueue(new AcquisitionRow(channel.Name, AcquisitionItems.ClockSegmentPpm, 0, _endNs, clock.Ppm, "ppm", ""));
            _ready.Enqueue(new AcquisitionRow(channel.Name, AcquisitionItems.ClockOffsetNs, 0, _endNs, clock.OffsetNs, "ns", ""));
        }

        foreach (AcquisitionRow? row in _gaps.Concat(_settings.Select(s => s is AcquisitionRow last ? last with { EndNs = Math.Max(last.BeginNs, _endNs) } : s)))
        {
            if (row is AcquisitionRow last)
            {
                _ready.Enqueue(last);
            }
        }
    }
}
