// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pulse;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Body;

/// <summary>Writes the truth rows of one event, in order of kind; only what lies at or after time 0.</summary>
internal static class BodyTruth
{
    /// <summary>Rows of one event.</summary>
    /// <param name="rows">Takes the rows.</param>
    /// <param name="ring">The events.</param>
    /// <param name="id">Number of the event.</param>
    /// <param name="finished">Number after that of the latest event that is finished.</param>
    /// <param name="lastLight">Lights from red to this one get rows.</param>
    public static void Add(EventRing<TruthEvent> rows, BeatRing ring, long id, long finished, ChannelName lastLight)
    {
        ref BeatView view = ref ring[id];
        if (view.IsBeat)
        {
            AddEcg(rows, view, PreviousRSeconds(ring, id));
            AddPulse(rows, view, NextPulseSeconds(ring, id, finished), lastLight);
        }
        else
        {
            AddP(rows, view);
        }
    }

    private static void AddEcg(EventRing<TruthEvent> rows, in BeatView view, double previousRSeconds)
    {
        double r = view.R.Seconds;
        Row(rows, view, ChannelName.Ecg, MarkKind.RPeak, r, view.R.Millivolts, view.R.IsAmbiguous ? TruthFlags.Ambiguous : TruthFlags.None);
        AddP(rows, view);
        Edge(rows, view, MarkKind.QrsOnset, view.Ecg[EcgBeat.Q].OnsetSeconds, EcgEdge.QrsOnset);
        Edge(rows, view, MarkKind.QrsEnd, view.Ecg[EcgBeat.S].EndSeconds, EcgEdge.QrsEnd);
        EcgWave t = view.Ecg[EcgBeat.T];
        if (t.Millivolts != 0)
        {
            Edge(rows, view, MarkKind.TOnset, t.OnsetSeconds, EcgEdge.TOnset);
            Row(rows, view, ChannelName.Ecg, MarkKind.TPeak, t.CentreSeconds, t.Millivolts, TruthFlags.None);
            Edge(rows, view, MarkKind.TEnd, t.EndSeconds, EcgEdge.TEnd);
            Edge(rows, view, MarkKind.TEndTangent, t.TangentEndSeconds, EcgEdge.TEndTangent);
        }

        for (int i = 0; i < PacingSpikes.Count; i++)
        {
            PacingSpike spike = view.Spikes[i];
            if (spike.WidthSeconds > 0)
            {
                Row(rows, view, ChannelName.Ecg, MarkKind.PacingSpike, spike.Seconds, spike.Millivolts, TruthFlags.None);
            }
        }

        if (!double.IsNaN(previousRSeconds))
        {
            double rr = r - previousRSeconds;
            Row(rows, view, ChannelName.Ecg, MarkKind.RrMs, r, rr * 1e3, TruthFlags.None);
            Row(rows, view, ChannelName.Ecg, MarkKind.HeartRateBpm, r, 60 / rr, TruthFlags.None);
        }
    }

    private static void AddP(EventRing<TruthEvent> rows, in BeatView view)
    {
        EcgWave p = view.Ecg[EcgBeat.P];
        if (p.Millivolts != 0)
        {
            Edge(rows, view, MarkKind.POnset, p.OnsetSeconds, EcgEdge.POnset);
            Row(rows, view, ChannelName.Ecg, MarkKind.PPeak, p.CentreSeconds, p.Millivolts, TruthFlags.None);
            Edge(rows, view, MarkKind.PEnd, p.EndSeconds, EcgEdge.PEnd);
        }
    }

    private static void AddPulse(EventRing<TruthEvent> rows, in BeatView view, double nextSeconds, ChannelName lastLight)
    {
        double r = view.R.Seconds;
        for (ChannelName light = ChannelName.Red; light <= lastLight; light++)
        {
            PulseLandmarks pulse = view.Lights[light - ChannelName.Red].BeforePulseAt(nextSeconds);
            if (!pulse.HasFoot || view.Filling < PulseFilling.LeastGain)
            {
                Row(rows, view, light, MarkKind.NoPulse, r, double.NaN, TruthFlags.None);
                continue;
            }

            Row(rows, view, light, MarkKind.PulseFootMinimum, pulse.FootMinimumSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.PulseFootTangent, pulse.FootTangentSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.PulseFootSecondDerivative, pulse.FootSecondDerivativeSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.SteepestPoint, pulse.SteepestSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.SystolicPeak, pulse.SystolicPeakSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.DicroticNotch, pulse.DicroticNotchSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.DiastolicPeak, pulse.DiastolicPeakSeconds, double.NaN, TruthFlags.None);
            Row(rows, view, light, MarkKind.PatMs, pulse.FootTangentSeconds, (pulse.FootTangentSeconds - r) * 1e3, TruthFlags.None);
            Row(rows, view, light, MarkKind.PerfusionIndexPercent, r, Perfusion.Percent(view.Gains[light - ChannelName.Red] * pulse.HeightUnits), TruthFlags.None);
        }

        if (view.Landmarks.HasFoot && view.Filling >= PulseFilling.LeastGain)
        {
            Value(rows, view, MarkKind.PepMs, view.Arrival.PepSeconds * 1e3);
            Value(rows, view, MarkKind.PepFromQrsOnsetMs, view.Arrival.PepFromQrsOnsetSeconds * 1e3);
            Value(rows, view, MarkKind.PttMs, view.Arrival.PttSeconds * 1e3);
        }

        Value(rows, view, MarkKind.SystolicMmhg, view.Arrival.Pressure.SystolicMmhg);
        Value(rows, view, MarkKind.DiastolicMmhg, view.Arrival.Pressure.DiastolicMmhg);
        Value(rows, view, MarkKind.MeanMmhg, view.Arrival.Pressure.MeanMmhg);
        Value(rows, view, MarkKind.Spo2Percent, view.SaturationPercent);
    }

    // Where the next pulse starts, however weak it is: what a pulse has after that is not seen.
    private static double NextPulseSeconds(BeatRing ring, long id, long finished)
    {
        for (long next = id + 1; next < finished; next++)
        {
            ref BeatView view = ref ring[next];
            if (view.IsBeat && view.Filling > 0)
            {
                return view.Pulse[0].StartSeconds;
            }
        }

        return double.PositiveInfinity;
    }

    private static double PreviousRSeconds(BeatRing ring, long id)
    {
        long oldest = Math.Max(BodyModel.FirstBeatId, id - BodyModel.RingBeats + 1);
        for (long previous = id - 1; previous >= oldest; previous--)
        {
            ref BeatView view = ref ring[previous];
            if (view.IsBeat)
            {
                return view.R.Seconds;
            }
        }

        return double.NaN;
    }

    private static void Edge(EventRing<TruthEvent> rows, in BeatView view, MarkKind kind, double seconds, EcgEdge edge) =>
        Row(rows, view, ChannelName.Ecg, kind, seconds, double.NaN, (view.Overlapped & edge) != 0 ? TruthFlags.Overlapped : TruthFlags.None);

    private static void Value(EventRing<TruthEvent> rows, in BeatView view, MarkKind kind, double value) =>
        Row(rows, view, ChannelName.Infrared, kind, view.R.Seconds, value, TruthFlags.None);

    private static void Row(
        EventRing<TruthEvent> rows, in BeatView view, ChannelName channel, MarkKind kind, double seconds, double value, TruthFlags flags)
    {
        // A landmark that the pulse does not have is NaN and makes no row.
        if (seconds >= 0)
        {
            long ns = (long)Math.Round(seconds * 1e9);
            rows.Add(new TruthEvent(channel, kind, ns, value, view.BeatId, view.Class, flags));
        }
    }
}
