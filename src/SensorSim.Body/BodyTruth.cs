// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body;

/// <summary>Writes the truth rows of one beat, in order of kind; only what lies at or after time 0.</summary>
internal static class BodyTruth
{
    /// <summary>Rows of one beat.</summary>
    /// <param name="rows">Takes the rows.</param>
    /// <param name="beat">The finished beat.</param>
    /// <param name="previousRSeconds">True R peak of the beat before [s]; NaN when there is none.</param>
    public static void Add(EventRing<TruthEvent> rows, in BeatView beat, double previousRSeconds)
    {
        TruthFlags flags = beat.R.IsAmbiguous ? TruthFlags.Ambiguous : TruthFlags.None;
        double r = beat.R.Seconds;
        Row(rows, beat, ChannelName.Ecg, MarkKind.RPeak, r, beat.R.Millivolts, flags);
        Wave(rows, beat, EcgBeat.P, MarkKind.POnset, MarkKind.PPeak, MarkKind.PEnd);
        Row(rows, beat, ChannelName.Ecg, MarkKind.QrsOnset, beat.Ecg[EcgBeat.Q].OnsetSeconds, double.NaN, TruthFlags.None);
        Row(rows, beat, ChannelName.Ecg, MarkKind.QrsEnd, beat.Ecg[EcgBeat.S].EndSeconds, double.NaN, TruthFlags.None);
        Wave(rows, beat, EcgBeat.T, MarkKind.TOnset, MarkKind.TPeak, MarkKind.TEnd);
        if (!double.IsNaN(previousRSeconds))
        {
            double rr = r - previousRSeconds;
            Row(rows, beat, ChannelName.Ecg, MarkKind.RrMs, r, rr * 1e3, TruthFlags.None);
            Row(rows, beat, ChannelName.Ecg, MarkKind.HeartRateBpm, r, 60 / rr, TruthFlags.None);
        }

        PulseLandmarks pulse = beat.Landmarks;
        double arrivalMs = (pulse.FootTangentSeconds - r) * 1e3;
        for (ChannelName channel = ChannelName.Red; channel <= ChannelName.Infrared; channel++)
        {
            if (!pulse.HasFoot)
            {
                Row(rows, beat, channel, MarkKind.NoPulse, r, double.NaN, TruthFlags.None);
                continue;
            }

            Row(rows, beat, channel, MarkKind.PulseFootMinimum, pulse.FootMinimumSeconds, double.NaN, TruthFlags.None);
            Row(rows, beat, channel, MarkKind.PulseFootTangent, pulse.FootTangentSeconds, double.NaN, TruthFlags.None);
            Row(rows, beat, channel, MarkKind.PulseFootSecondDerivative, pulse.FootSecondDerivativeSeconds, double.NaN, TruthFlags.None);
            Row(rows, beat, channel, MarkKind.SteepestPoint, pulse.SteepestSeconds, double.NaN, TruthFlags.None);
            Row(rows, beat, channel, MarkKind.SystolicPeak, pulse.SystolicPeakSeconds, double.NaN, TruthFlags.None);
            Row(rows, beat, channel, MarkKind.PatMs, pulse.FootTangentSeconds, arrivalMs, TruthFlags.None);
        }
    }

    private static void Wave(EventRing<TruthEvent> rows, in BeatView beat, int index, MarkKind onset, MarkKind peak, MarkKind end)
    {
        EcgWave wave = beat.Ecg[index];
        if (wave.Millivolts == 0)
        {
            return;
        }

        Row(rows, beat, ChannelName.Ecg, onset, wave.OnsetSeconds, double.NaN, TruthFlags.None);
        Row(rows, beat, ChannelName.Ecg, peak, wave.CentreSeconds, wave.Millivolts, TruthFlags.None);
        Row(rows, beat, ChannelName.Ecg, end, wave.EndSeconds, double.NaN, TruthFlags.None);
    }

    private static void Row(
        EventRing<TruthEvent> rows, in BeatView beat, ChannelName channel, MarkKind kind, double seconds, double value, TruthFlags flags)
    {
        if (seconds >= 0)
        {
            long ns = (long)Math.Round(seconds * 1e9);
            rows.Add(new TruthEvent(channel, kind, ns, value, beat.Id, BeatClass.Normal, flags));
        }
    }
}
