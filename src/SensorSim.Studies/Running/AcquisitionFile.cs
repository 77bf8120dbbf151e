// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Running;

/// <summary>Writes <c>acquisition.csv</c> of a run: what is known before it, then what happens, joined into stretches.</summary>
/// <remarks>
/// Pieces of a channel and kind that touch become one row, written when the stretch has ended; a setting has a row for as long as it held.
/// So rows of one item are in order, and those of different items roughly. Memory does not grow with the length of the run.
/// </remarks>
public sealed class AcquisitionFile : IRunSink, IDisposable
{
    private static readonly int s_kinds = Enum.GetValues<AcquisitionKind>().Length;
    private static readonly int s_settings = Enum.GetValues<Signals.Detectors.SensorSetting>().Length;

    private readonly AcquisitionCsvWriter _writer;
    private readonly AcquisitionEvent?[] _open;
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
        _endNs = format.Clock.Nanoseconds(format.Clock.TickAtOrAfter(scenario.DurationS));
        AcquisitionRows.Write(scenario, format, _writer);
    }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        // What happened comes as events.
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
            Write(happened);
            return;
        }

        bool isSetting = happened.Kind == AcquisitionKind.Setting;
        ref AcquisitionEvent? open = ref _open[
            ((int)happened.Channel * (s_kinds + s_settings)) + (isSetting ? s_kinds + (int)happened.Setting : (int)happened.Kind)];
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
            Write(isSetting ? before with { EndNs = happened.BeginNs } : before);
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
                Write(last.Kind == AcquisitionKind.Setting ? last with { EndNs = _endNs } : last);
                _open[i] = null;
            }
        }

        Dispose();
    }

    /// <inheritdoc/>
    public void Dispose() => _writer.Dispose();

    // The last sample of a record may stand for a little more than the record has left.
    private void Write(in AcquisitionEvent happened)
    {
        (string item, string unit) = AcquisitionItems.Of(happened);
        long endNs = Math.Max(happened.BeginNs, Math.Min(happened.EndNs, _endNs));
        _writer.Write(new AcquisitionRow(happened.Channel, item, happened.BeginNs, endNs, happened.Value, unit, ""));
    }
}
