// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.Recordings;
using SensorSim.Files.Rows;
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Replays;

/// <summary>A recording as a stream, with its truth and what its acquisition did, as far as they stand beside it or in it.</summary>
/// <remarks>Rows are read as the stream reaches them; only the stretches that are not usable are held from the start.</remarks>
public sealed class RecordedRun : IAcquiredStream, IDisposable
{
    private const string TruthName = "truth.csv";
    private const string AcquisitionName = "acquisition.csv";

    // Truth is handed out this far ahead of the samples [ns]: clocks may lag, and rows may stand a little out of order.
    private const long AheadNs = 5_000_000_000;

    private static readonly AcquisitionKind[] s_unusable = [.. Enum.GetValues<AcquisitionKind>().Where(k => k.IsUnusable())];

    private readonly ISampleStream _reader;
    private readonly IRowReader<TruthEvent>? _truth;
    private List<AcquisitionEvent> _events = [];
    private TruthEvent? _nextTruth;
    private int _nextEvent;

    /// <summary>Opens a folder.</summary>
    /// <param name="path">Path of the folder; <c>channels.csv</c> must be in it, <c>truth.csv</c> and <c>acquisition.csv</c> may be.</param>
    /// <exception cref="InputFileException">A file is not what it should be.</exception>
    public RecordedRun(string path)
        : this(new RecordingFolderReader(path), path)
    {
    }

    /// <summary>Puts a recording in any form together with the files that stand beside it.</summary>
    /// <param name="stream">The recording, at its start; closed with the run.</param>
    /// <param name="folder">Folder in which <c>truth.csv</c> and <c>acquisition.csv</c> may be.</param>
    /// <param name="within">Path of the recording when it may hold truth and acquisition itself; used where there is no <c>truth.csv</c>, and no <c>acquisition.csv</c>.</param>
    /// <exception cref="InputFileException">A file is not what it should be.</exception>
    public RecordedRun(ISampleStream stream, string folder, string? within = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(folder);
        _reader = stream;
        try
        {
            string acquisition = Path.Combine(folder, AcquisitionName);
            bool isBeside = File.Exists(acquisition) || within is null;
            List<AcquisitionRow> rows = ReadRows(isBeside ? acquisition : within!);
            PutInOrder();
            Clocks = [.. Format.Channels.Select(c => ClockOf(RecordClocks.DelayOf(c.Name, rows, isBeside ? acquisition : within!)))];
            ChangesRates = rows.Any(r => r.Item == RecordClocks.Decimation && r.Value > 1);
            string truth = Path.Combine(folder, TruthName);
            _truth = File.Exists(truth) ? new TruthCsvReader(truth) : within is null ? null : TruthFile.OpenWithin(within);
            if (_truth is not null)
            {
                Truth = new EventRing<TruthEvent>(1 << 16);
                NextTruth();
            }
        }
        catch
        {
            Dispose();
            throw;
        }
    }

    /// <summary>Truth, as far as the stream has been read and a little ahead; null when the folder holds none.</summary>
    public EventRing<TruthEvent>? Truth { get; }

    /// <summary>The recording itself.</summary>
    public ISampleStream Recording => _reader;

    /// <summary>Whether a channel changed its rate while it was recorded; a channel that was off did not.</summary>
    public bool ChangesRates { get; }

    /// <inheritdoc/>
    public EventRing<AcquisitionEvent> Acquisition { get; } = new(32768);

    /// <inheritdoc/>
    public IReadOnlyList<ChannelClock> Clocks { get; }

    /// <inheritdoc/>
    public StreamFormat Format => _reader.Format;

    /// <inheritdoc/>
    public long PositionTick => _reader.PositionTick;

    /// <inheritdoc/>
    public long EndTick => _reader.EndTick;

    /// <inheritdoc/>
    /// <exception cref="InputFileException">A row is not what it should be.</exception>
    public void Read(SampleBlock block, long untilTick)
    {
        _reader.Read(block, untilTick);
        long untilNs = Format.Clock.Nanoseconds(untilTick);
        for (; _nextEvent < _events.Count && _events[_nextEvent].BeginNs < untilNs; _nextEvent++)
        {
            Acquisition.Add(_events[_nextEvent]);
        }

        while (_nextTruth is TruthEvent row && row.TimeNs < untilNs + AheadNs)
        {
            Truth!.Add(row);
            NextTruth();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        (_reader as IDisposable)?.Dispose();
        _truth?.Dispose();
    }

    private void NextTruth() => _nextTruth = _truth!.TryRead(out TruthEvent row) ? row : null;

    // A day with lost packets has hundreds of thousands of stretches: they become events as they are read, and only the few other rows are held as such.
    private List<AcquisitionRow> ReadRows(string path)
    {
        var rows = new List<AcquisitionRow>();
        using IRowReader<AcquisitionRow>? reader = TruthFile.IsEdf(path) ? AcquisitionWithin.Open(path) : File.Exists(path) ? new AcquisitionCsvReader(path) : null;
        foreach (AcquisitionRow row in (reader?.ReadAll() ?? []).Where(RecordClocks.IsNeeded))
        {
            if (!row.IsUnusable)
            {
                rows.Add(row);
            }
            else if (Format.IndexOf(row.Channel) >= 0)
            {
                _events.Add(Event(row));
            }
        }

        return rows;
    }

    // Our own files have them in order already; a sorted copy is for others.
    private void PutInOrder()
    {
        for (int i = 1; i < _events.Count; i++)
        {
            if (_events[i].BeginNs < _events[i - 1].BeginNs)
            {
                _events = [.. _events.OrderBy(e => e.BeginNs)];
                return;
            }
        }
    }

    private static ChannelClock ClockOf(ChannelDelay delay) => new(delay.Channel, delay.ClockOffsetNs, delay.ClockPpm);

    // A reason that is not known here makes the stretch no more usable.
    private static AcquisitionEvent Event(AcquisitionRow row)
    {
        AcquisitionKind kind = s_unusable.FirstOrDefault(
            k => AcquisitionItems.Of(new AcquisitionEvent(row.Channel, k, 0, 0, 0)).Item == row.Item, AcquisitionKind.UnusableLost);
        return new AcquisitionEvent(row.Channel, kind, row.BeginNs, row.EndNs ?? long.MaxValue / 4, row.Value);
    }
}
