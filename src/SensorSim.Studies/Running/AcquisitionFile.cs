// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios;
using SensorSim.Signals.Streams;
using SensorSim.Signals.Time;

namespace SensorSim.Studies.Running;

/// <summary>Writes <c>acquisition.csv</c> of a run: what is known before it, then what happens, joined into stretches.</summary>
/// <remarks>
/// Pieces of a channel and kind that touch become one row; a setting has a row for as long as it held. Rows stand in order of their ends, then of channel,
/// kind and begin, whatever blocks the run is read in: a row is written when all that ended before it must have been told. So memory holds what
/// ended within some seconds, and does not grow with the length of the run.
/// </remarks>
public sealed class AcquisitionFile : IRunSink, IDisposable
{
    // How far behind what has been read everything has been told: a stretch is decided within 0.35 s of its samples, the rest with the block that holds it.
    private const long ToldWithinNs = 2_000_000_000;

    private static readonly int s_kinds = Enum.GetValues<AcquisitionKind>().Length;
    private static readonly int s_settings = Enum.GetValues<Signals.Detectors.SensorSetting>().Length;

    private readonly AcquisitionCsvWriter _writer;
    private readonly AcquisitionEvent?[] _open;
    private readonly PriorityQueue<AcquisitionEvent, (long EndNs, int Item, long BeginNs)> _ended = new();
    private readonly TickClock _clock;
    private readonly long _endNs;

    /// <summary>Starts the file.</summary>
    /// <param name="stream">Receives the text; closed by <see cref="Complete"/> and <see cref="Dispose"/>.</param>
    /// <param name="scenario">The scenario.</param>
    /// <param name="format">Format of its stream.</param>
    public AcquisitionFile(Stream stream, Scenario scenario, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(format);
        _writer = new AcquisitionCsvWriter(stream);
        _open = new AcquisitionEvent?[Enum.GetValues<ChannelName>().Length * (s_kinds + s_settings)];
        _clock = format.Clock;
        _endNs = format.Clock.Nanoseconds(format.Clock.TickAtOrAfter(scenario.DurationS));
        AcquisitionRows.Write(scenario, format, _writer);
    }

    /// <summary>Rows that have ended and wait for their turn.</summary>
    internal int WaitingCount => _ended.Count;

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // What happened in this block comes after it, what happened before it has come.
        ArgumentNullException.ThrowIfNull(block);
        long settledNs = _clock.Nanoseconds(block.BeginTick) - ToldWithinNs;
        for (int i = 0; i < _open.Length; i++)
        {
            if (_open[i] is AcquisitionEvent open && open.Kind != AcquisitionKind.Setting && open.EndNs <= settledNs)
            {
                End(open);
                _open[i] = null;
            }
        }

        Write(settledNs);
    }

    /// <inheritdoc/>
    public void OnTruth(in Signals.Marks.TruthEvent truth)
    {
        // Truth has its own file.
    }

    /// <inheritdoc/>
    public void OnMark(in Signals.Marks.Mark mark)
    {
        // So have marks.
    }

    /// <inheritdoc/>
    public void OnAcquisition(in AcquisitionEvent happened)
    {
        if (happened.Kind == AcquisitionKind.LatePacket)
        {
            End(happened);
            return;
        }

        bool isSetting = happened.Kind == AcquisitionKind.Setting;
        ref AcquisitionEvent? open = ref _open[Item(happened)];
        if (open is not AcquisitionEvent before)
        {
            open = happened;
        }
        else if (!isSetting && happened.BeginNs <= before.EndNs)
        {
            // Only a gap has a value to add: samples.
            open = before with { EndNs = Math.Max(before.EndNs, happened.EndNs), Value = before.Value + happened.Value };
        }
        else
        {
            End(isSetting ? before with { EndNs = happened.BeginNs } : before);
            open = happened;
        }
    }

    /// <summary>Writes what was still going on, and closes the file.</summary>
    public void Complete()
    {
        for (int i = 0; i < _open.Length; i++)
        {
            if (_open[i] is AcquisitionEvent last)
            {
                End(last.Kind == AcquisitionKind.Setting ? last with { EndNs = _endNs } : last);
                _open[i] = null;
            }
        }

        Write(long.MaxValue);
        Dispose();
    }

    /// <inheritdoc/>
    public void Dispose() => _writer.Dispose();

    private static int Item(in AcquisitionEvent happened) => ((int)happened.Channel * (s_kinds + s_settings))
        + (happened.Kind == AcquisitionKind.Setting ? s_kinds + (int)happened.Setting : (int)happened.Kind);

    // The last sample of a record may stand for a little more than the record has left.
    private void End(in AcquisitionEvent happened)
    {
        AcquisitionEvent ended = happened with { EndNs = Math.Max(happened.BeginNs, Math.Min(happened.EndNs, _endNs)) };
        _ended.Enqueue(ended, (ended.EndNs, Item(ended), ended.BeginNs));
    }

    private void Write(long untilNs)
    {
        while (_ended.TryPeek(out AcquisitionEvent row, out _) && row.EndNs <= untilNs)
        {
            _ended.Dequeue();
            (string item, string unit) = AcquisitionItems.Of(row);
            _writer.Write(new AcquisitionRow(row.Channel, item, row.BeginNs, row.EndNs, row.Value, unit, ""));
        }
    }
}
