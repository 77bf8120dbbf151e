// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Grading.SelfCheck;

/// <summary>The readings of somebody who knows: per beat, and every two seconds over 8 s.</summary>
internal sealed class KnownReadings
{
    private const long Second = 1_000_000_000;
    private const long WindowNs = 8 * Second;
    private const double LeastPerfusionPercent = 0.1;
    private readonly KnownBody _body;
    private readonly MarkPlacer _placer;
    private readonly BreathingModel _breathing;

    public KnownReadings(Scenario scenario, KnownBody body, MarkPlacer placer)
    {
        _body = body;
        _placer = placer;
        _breathing = new BreathingModel(scenario.Values, scenario.Seed);
    }

    /// <summary>Heart rate of the last eight intervals, and arrival.</summary>
    public void OfBeat(in TruthEvent truth, long emittedNs, DetectorOutput output)
    {
        long time = truth.TimeNs;
        if (truth.Kind == MarkKind.RPeak && _body.IsUsable(ChannelName.Ecg, time))
        {
            (long TimeNs, double, long)[] beats = _body.Values(MarkKind.RPeak, time - (30 * Second), time);
            if (beats.Length > 8)
            {
                long span = time - beats[^9].TimeNs;
                _placer.Add(output, ChannelName.Ecg, MarkKind.HeartRateBpm, time, emittedNs, 60e9 * 8 / span, span);
            }
        }

        if (truth.Kind == MarkKind.PatMs && _body.IsUsable(ChannelName.Infrared, time))
        {
            long r = time - (long)(truth.Value * 1e6);
            if (_body.IsUsable(ChannelName.Ecg, r) && truth.Channel == ChannelName.Infrared)
            {
                _placer.Add(output, ChannelName.Infrared, MarkKind.ArrivalTimeMs, time, emittedNs, truth.Value, 0, r);
            }
        }
    }

    /// <summary>Readings over a window that ends at a time.</summary>
    public void OfWindow(long endNs, long emittedNs, DetectorOutput output)
    {
        bool isEcg = _body.IsUsable(ChannelName.Ecg, endNs);
        bool isLight = _body.IsUsable(ChannelName.Infrared, endNs);
        long beginNs = endNs - WindowNs;
        (long TimeNs, double, long)[] beats = _body.Values(MarkKind.RPeak, beginNs, endNs);
        if (beats.Length > 1)
        {
            double rate = 60e9 * (beats.Length - 1) / (beats[^1].TimeNs - beats[0].TimeNs);
            Give(isLight, ChannelName.Infrared, MarkKind.HeartRateBpm, rate, WindowNs);
            Give(isLight || isEcg, ChannelName.Ecg, MarkKind.HeartRateFusedBpm, rate, WindowNs);
        }

        double[] perfusion = [.. _body.Values(MarkKind.PerfusionIndexPercent, beginNs, endNs).Select(v => v.Value)];
        double[] saturation = [.. _body.Values(MarkKind.Spo2Percent, beginNs, endNs).Select(v => v.Value)];
        if (perfusion.Length > 0 && perfusion.Average() >= LeastPerfusionPercent)
        {
            Give(isLight, ChannelName.Infrared, MarkKind.PerfusionIndexPercent, perfusion.Average(), WindowNs);
            Give(isLight, ChannelName.Infrared, MarkKind.Spo2Percent, saturation.Average(), WindowNs);
        }

        double[] arrivals = [.. _body.Values(MarkKind.PatMs, endNs - (30 * Second), endNs).Select(v => v.Value).Order()];
        if (arrivals.Length >= 20)
        {
            Give(isLight && isEcg, ChannelName.Infrared, MarkKind.ArrivalSpotMs, arrivals[arrivals.Length / 2], 30 * Second);
        }

        double t = endNs * 1e-9;
        Give(isLight && t > 30, ChannelName.Infrared, MarkKind.RespirationRateBpm, (_breathing.Phase.Turns(t) - _breathing.Phase.Turns(t - 30)) * 2, 30 * Second);

        void Give(bool isGiven, ChannelName channel, MarkKind kind, double value, long windowNs)
        {
            if (isGiven)
            {
                _placer.Add(output, channel, kind, endNs, emittedNs, value, windowNs);
            }
        }
    }
}
