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
        List<StripBeat> beats = [];
        List<double> blocked = [];
        List<double> spikes = [];
        List<double> feet = [];
        List<double> silent = [];
        foreach (TruthEvent row in first.Truth)
        {
            if (row.Channel is not (ChannelName.Ecg or ChannelName.Infrared))
            {
                continue;
            }

            // Truth is in body time, samples are in nominal device time: the delay of the chain lies between.
            int channel = row.Channel == ChannelName.Ecg ? ecg : light;
            double time = channel < 0 ? double.NaN : first.DeviceSeconds(channel, row.TimeNs);
            switch (row.Channel, row.Kind)
            {
                case (ChannelName.Ecg, MarkKind.RPeak):
                    beats.Add(new StripBeat(time, row.Label));
                    break;
                case (ChannelName.Ecg, MarkKind.PPeak) when row.Label == BeatClass.Blocked:
                    blocked.Add(time);
                    break;
                case (ChannelName.Ecg, MarkKind.PacingSpike):
                    spikes.Add(time);
                    break;
                case (ChannelName.Infrared, MarkKind.PulseFootTangent):
                    feet.Add(time);
                    break;
                case (ChannelName.Infrared, MarkKind.NoPulse):
                    silent.Add(time);
                    break;
                default:
                    break;
            }
        }

        return new StripPanel
        {
            EndS = first.EndSeconds,
            EcgTimesS = Times(first, ecg),
            EcgMv = Values(first, ecg),
            LightTimesS = light < 0 ? [] : Times(first, light),
            Light = light < 0 ? [] : Values(first, light),
            Beats = [.. beats],
            BlockedPTimesS = [.. blocked],
            SpikeTimesS = [.. spikes],
            FootTimesS = [.. feet],
            NoPulseTimesS = [.. silent],
        };
    }

    private static double[] Values(FirstSeconds first, int channel) => [.. first.Values(channel)];

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
