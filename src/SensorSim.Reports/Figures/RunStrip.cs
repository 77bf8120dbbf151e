// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Reports.Figures;

/// <summary>Takes the strip of a run from its first seconds.</summary>
public static class RunStrip
{
    /// <summary>The strip, or null when the stream has no ECG.</summary>
    /// <param name="first">The first seconds, from 0 to at most <see cref="StripPanel.LongestS"/>.</param>
    public static StripPanel? Of(FirstSeconds first)
    {
        ArgumentNullException.ThrowIfNull(first);
        int ecg = first.Format.IndexOf(ChannelName.Ecg);
        if (ecg < 0)
        {
            return null;
        }

        int light = first.Format.IndexOf(ChannelName.Infrared);
        return new StripPanel
        {
            EndS = first.EndSeconds,
            EcgTimesS = Times(first, ecg),
            EcgMv = [.. first.Values(ecg)],
            LightTimesS = light < 0 ? [] : Times(first, light),
            Light = light < 0 ? [] : [.. first.Values(light)],
            Beats = [.. Rows(first, ecg, MarkKind.RPeak).Select(row => new StripBeat(Seconds(first, ecg, row), row.Label))],
            BlockedPTimesS =
                [.. Rows(first, ecg, MarkKind.PPeak).Where(row => row.Label == BeatClass.Blocked).Select(row => Seconds(first, ecg, row))],
            SpikeTimesS = [.. Rows(first, ecg, MarkKind.PacingSpike).Select(row => Seconds(first, ecg, row))],
            FootTimesS = [.. Rows(first, light, MarkKind.PulseFootTangent).Select(row => Seconds(first, light, row))],
            NoPulseTimesS = [.. Rows(first, light, MarkKind.NoPulse).Select(row => Seconds(first, light, row))],
        };
    }

    private static IEnumerable<TruthEvent> Rows(FirstSeconds first, int channel, MarkKind kind) => channel < 0
        ? []
        : first.Truth.Where(row => row.Kind == kind && row.Channel == first.Format.Channels[channel].Name);

    // Truth is in body time, samples are in nominal device time: the declared delay lies between.
    private static double Seconds(FirstSeconds first, int channel, TruthEvent row) =>
        (row.TimeNs + first.Format.Channels[channel].DeclaredDelayNs) * 1e-9;

    private static double[] Times(FirstSeconds first, int channel)
    {
        double[] times = new double[first.Values(channel).Count];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = first.Seconds(channel, i);
        }

        return times;
    }
}
