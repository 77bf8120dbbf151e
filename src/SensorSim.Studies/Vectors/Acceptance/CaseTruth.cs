// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Acceptance;

/// <summary>The rows of truth that acceptance rests on, by kind and channel, in order of time.</summary>
internal sealed class CaseTruth
{
    // Where no pulse has told it yet: from R peak to foot, as the scorer has it.
    private const long UsualArrivalNs = 250_000_000;
    private static readonly ChannelName[] s_order = [ChannelName.Ecg, ChannelName.Infrared, ChannelName.Green, ChannelName.Red];
    private readonly Dictionary<(MarkKind Kind, ChannelName Channel), List<TruthEvent>> _rows = [];

    /// <summary>Takes what is needed.</summary>
    /// <param name="truth">Every row of truth.</param>
    public CaseTruth(IEnumerable<TruthEvent> truth)
    {
        foreach (TruthEvent row in truth.Where(r => IsNeeded(r.Kind)))
        {
            if (!_rows.TryGetValue((row.Kind, row.Channel), out List<TruthEvent>? list))
            {
                list = [];
                _rows.Add((row.Kind, row.Channel), list);
            }

            list.Add(row);
        }

        foreach (List<TruthEvent> list in _rows.Values)
        {
            // Stable, so that equal times keep the order of the file.
            TruthEvent[] sorted = [.. list.OrderBy(r => r.TimeNs)];
            list.Clear();
            list.AddRange(sorted);
        }
    }

    /// <summary>Rows of a kind in a channel; null: the first channel that has them.</summary>
    public IReadOnlyList<TruthEvent> Of(MarkKind kind, ChannelName? channel) =>
        (channel ?? ChannelOf(kind)) is ChannelName own && _rows.TryGetValue((kind, own), out List<TruthEvent>? list) ? list : [];

    /// <summary>The first channel that has rows of a kind.</summary>
    public ChannelName? ChannelOf(MarkKind kind)
    {
        foreach (ChannelName channel in s_order)
        {
            if (_rows.ContainsKey((kind, channel)))
            {
                return channel;
            }
        }

        return null;
    }

    /// <summary>Heart beats as a channel shows them: R peaks on the ECG, feet by tangents in the light, a beat without pulse where its foot would stand.</summary>
    public IReadOnlyList<TruthEvent> Beats(ChannelName? channel)
    {
        if (channel is not ChannelName light || light == ChannelName.Ecg || Of(MarkKind.PulseFootTangent, light).Count == 0)
        {
            IReadOnlyList<TruthEvent> peaks = Of(MarkKind.RPeak, ChannelName.Ecg);
            return peaks.Count > 0 || channel is not null ? peaks : ChannelOf(MarkKind.PulseFootTangent) is ChannelName first ? Beats(first) : [];
        }

        var beats = new List<TruthEvent>(Of(MarkKind.PulseFootTangent, light));
        IReadOnlyList<TruthEvent> arrivals = Of(MarkKind.PatMs, light);
        foreach (TruthEvent silent in Of(MarkKind.NoPulse, light))
        {
            int before = LatestAt(arrivals, silent.TimeNs);
            long arrivalNs = before < 0 ? UsualArrivalNs : (long)(arrivals[before].Value * 1e6);
            beats.Add(silent with { TimeNs = silent.TimeNs + arrivalNs });
        }

        return [.. beats.OrderBy(b => b.TimeNs)];
    }

    /// <summary>Index of the latest row at or before a time; −1: none.</summary>
    public static int LatestAt(IReadOnlyList<TruthEvent> rows, long timeNs)
    {
        int low = 0;
        int high = rows.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (rows[middle].TimeNs <= timeNs)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low - 1;
    }

    private static bool IsNeeded(MarkKind kind) => kind is
        MarkKind.RPeak or (>= MarkKind.PulseFootMinimum and <= MarkKind.SystolicPeak) or MarkKind.NoPulse or MarkKind.PatMs or MarkKind.RrMs
        or MarkKind.Spo2Percent or MarkKind.PerfusionIndexPercent or MarkKind.SystolicMmhg or MarkKind.DiastolicMmhg or MarkKind.MeanMmhg;
}
