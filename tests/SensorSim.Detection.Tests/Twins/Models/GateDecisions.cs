// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Gate;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Decisions of the gates by perfusion and by arrival times against the same in doubles.</summary>
/// <param name="Decisions">How many were compared.</param>
/// <param name="Taken">How many of them the twin decided against giving.</param>
/// <param name="Other">How many were decided otherwise.</param>
/// <param name="Widest">How far the twin's measure then was from its bound at most, in its unit.</param>
internal readonly record struct GateDecisions(int Decisions, int Taken, int Other, double Widest)
{
    private const double BeatS = 0.8;
    private static readonly CommonClock Clock = new(500);

    /// <summary>Perfusion falls and scatters: at which pulse the gate shuts. Widest in codes of the amplitude.</summary>
    /// <param name="levelCodes">Light received [codes].</param>
    public static GateDecisions Perfusion(int levelCodes)
    {
        var sum = default(GateDecisions);
        for (int seed = 5001; seed < 5021; seed++)
        {
            var random = new Random(seed);
            var gate = new PulseGate();
            gate.Start(Clock);
            double mean = 0;
            for (int i = 0; i < 200; i++)
            {
                double percent = 0.15 - (0.0005 * i) + (0.004 * SyntheticEcg.Normal(random));
                int amplitude = (int)Math.Round(levelCodes * percent / 100);
                mean = i == 0 ? amplitude : mean + ((amplitude - mean) / 4);
                gate.Pulse(new PulseEvent(default, default, default, amplitude, 255, 0, default, levelCodes, i == 0), Ticks256(i * BeatS), 8000, 1000);
                bool wasOpen = gate.Reason == GateReason.None;
                gate.Advance(Ticks256((i * BeatS) + 0.1));
                if (!wasOpen)
                {
                    continue;
                }

                double least = levelCodes / 1000.0;
                bool isFaint = mean < least;
                bool isShut = gate.Reason == GateReason.TooWeak;
                sum = sum.With(isFaint, isShut, Math.Abs(mean - least));
                if (isFaint || isShut)
                {
                    break;
                }
            }
        }

        return sum;
    }

    /// <summary>Whether a single arrival time is given while the gate is open. Widest in µs.</summary>
    /// <param name="sdUs">How arrival times scatter [µs].</param>
    public static GateDecisions Arrivals(double sdUs)
    {
        var random = new Random(5001);
        var ecg = new EcgGate();
        var pulse = new PulseGate();
        var joint = new JointGate();
        ecg.Start(Clock);
        pulse.Start(Clock);
        joint.Start(Clock);
        var sum = default(GateDecisions);
        ArrivalTwin twin = new();
        for (int i = 0; i < 5000; i++)
        {
            long at = Ticks256(i * BeatS);
            ecg.Beat(new BeatEvent(default, 1000, 255, i == 0, 0), at, 8000, 1000);
            pulse.Pulse(new PulseEvent(default, default, default, 1000, 255, 0, default, 0, i == 0), at, 8000, 1000);
            int us = 200_000 + (int)(sdUs * SyntheticEcg.Normal(random));
            joint.Arrival(at, us);
            twin.Add(us);
            ecg.Advance(at);
            pulse.Advance(at);
            bool wasOpen = joint.IsOpenForMedian;
            joint.Advance(ecg, pulse, at);
            if (wasOpen && joint.IsOpenForMedian && i > 20)
            {
                double margin = Math.Min(Math.Abs(twin.OffUs - 7000), Math.Abs(twin.ChangeUs - 8000));
                sum = sum.With(twin.OffUs > 7000 || twin.ChangeUs > 8000, !joint.IsOpen, margin);
            }

            // A gate that shuts forgets what it has seen, and so it does until the two others are open.
            bool hasForgotten = (wasOpen && !joint.IsOpenForMedian) || !ecg.IsOpen || !pulse.IsOpen;
            twin = hasForgotten ? new ArrivalTwin() : twin;
        }

        return sum;
    }

    private GateDecisions With(bool exact, bool isTaken, double margin) => new(
        Decisions + 1, Taken + (exact ? 1 : 0), Other + (exact == isTaken ? 0 : 1), exact == isTaken ? Widest : Math.Max(Widest, margin));

    private static long Ticks256(double seconds) => (long)Math.Round(seconds * Clock.TicksPerSecond * 256);
}
