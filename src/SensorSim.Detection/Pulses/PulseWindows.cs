// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Every length of the pulse detector, in working samples, by whole-number arithmetic at start-up.</summary>
/// <remarks>From 200 Hz on it works on sums of two or more samples. The reasons for the lengths stand in docs/detection.md.</remarks>
public struct PulseWindows
{
    /// <summary>Lowest sampling rate [Hz].</summary>
    public const int MinimumRateHz = 25;

    /// <summary>Highest sampling rate [Hz].</summary>
    public const int MaximumRateHz = 500;

    /// <summary>Input samples in a working sample, 1 to 5.</summary>
    public short Decimation { get; private set; }

    /// <summary>Half-width of the straight-line fit that watches for upstrokes, 60 ms.</summary>
    public short WatchArm { get; private set; }

    /// <summary>Half-width of the longest cubic fit that measures the upstroke, 50 ms; see <see cref="CubicFits"/> for the shorter ones.</summary>
    public short FitArm { get; private set; }

    /// <summary>The second longest, 33 ms.</summary>
    public short FitArm1 { get; private set; }

    /// <summary>The shortest, 20 ms.</summary>
    public short FitArm2 { get; private set; }

    /// <summary>Reach round the watched top in which the steepest place is sought, 10 ms.</summary>
    public short SteepReach { get; private set; }

    /// <summary>How far before the steepest place the minimum is sought at most, 400 ms.</summary>
    public short MinimumReach { get; private set; }

    /// <summary>Least time from one steepest place to the next, 270 ms unless set.</summary>
    public short Refractory { get; private set; }

    /// <summary>Longest upstroke, 400 ms.</summary>
    public short LongestRise { get; private set; }

    /// <summary>A quarter of the learning time, 500 ms.</summary>
    public short LearningBlock { get; private set; }

    /// <summary>Length of one estimate of the noise, 100 ms.</summary>
    public short NoiseBlock { get; private set; }

    /// <summary>Without a pulse for that long, 1.5 s, or for two intervals, the level may be learned anew, within limits.</summary>
    public short Silence { get; private set; }

    /// <summary>Without a pulse for that long, 4 s, it is learned anew without limits.</summary>
    public short LongSilence { get; private set; }

    /// <summary>What an interval is taken for before there is one, 750 ms.</summary>
    public short FirstInterval { get; private set; }

    /// <summary>Until then, 420 ms after a steepest point, the diastolic wave may rise.</summary>
    public short Early { get; private set; }

    /// <summary>What is left of the last pulse is over after that long, 500 ms.</summary>
    public short Afterwards { get; private set; }

    /// <summary>Longest time between two refused upstrokes that belong together, 2.5 s.</summary>
    public short RefusedApart { get; private set; }

    /// <summary>After a change of settings the light has settled, 50 ms [input samples].</summary>
    public short Settling { get; private set; }

    /// <summary>Longest gap that a straight line bridges, 250 ms [input samples].</summary>
    public short Bridge { get; private set; }

    /// <summary>A gap of up to 10 ms between samples 20 ms apart hardly bends a foot: it is bridged without a mark [input samples].</summary>
    public short ShortBridge { get; private set; }

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    public static PulseWindows ForRate(int rateHz) => ForRate(rateHz, Tuning.Usual);

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    /// <param name="tuning">Constants that may be set.</param>
    public static PulseWindows ForRate(int rateHz, in Tuning tuning)
    {
        var w = new PulseWindows { Decimation = (short)(rateHz < 200 ? 1 : rateHz / 100) };
        w.WatchArm = w.Samples(rateHz, 60, 1);
        w.FitArm = w.Samples(rateHz, 50, 2);
        w.FitArm1 = w.Samples(rateHz, 33, 2);
        w.FitArm2 = w.Samples(rateHz, 20, 2);
        w.SteepReach = w.Samples(rateHz, 10, 1);
        w.MinimumReach = w.Samples(rateHz, 400, 4);
        w.Refractory = w.Samples(rateHz, tuning.PulseRefractoryMs, 1);
        w.LongestRise = w.Samples(rateHz, 400, 2);
        w.LearningBlock = w.Samples(rateHz, 500, 1);
        w.NoiseBlock = w.Samples(rateHz, 100, 2);
        w.Silence = w.Samples(rateHz, 1500, 1);
        w.LongSilence = w.Samples(rateHz, 4000, 1);
        w.FirstInterval = w.Samples(rateHz, 750, 1);
        w.Early = w.Samples(rateHz, 420, 1);
        w.Afterwards = w.Samples(rateHz, 500, 1);
        w.RefusedApart = w.Samples(rateHz, 2500, 1);
        w.Settling = (short)(w.Samples(rateHz, 50, 1) * w.Decimation);
        w.ShortBridge = (short)((rateHz + 50) / 100);
        w.Bridge = (short)(w.Samples(rateHz, 250, 1) * w.Decimation);
        return w;
    }

    /// <summary>Half-width of a fit.</summary>
    /// <param name="choice">Which, 0 the longest.</param>
    public readonly int Arm(int choice) => choice == 0 ? FitArm : choice == 1 ? FitArm1 : FitArm2;

    /// <summary>Which fit suits a rise time: the longest whose half-width is at most 0.7 of it.</summary>
    /// <param name="rise16">Height of the pulse over its steepest slope [1/16 working sample]; 0 when not known.</param>
    public readonly int FitFor(int rise16)
    {
        if (rise16 == 0)
        {
            return 1;
        }

        // arm <= 0.7 rise: arm × 16 × 10 <= 7 × rise16.
        int limit = 7 * rise16;
        return FitArm * 160 <= limit ? 0 : FitArm1 * 160 <= limit ? 1 : CubicFits.Shortest;
    }

    /// <summary>How far before the steepest place the minimum is sought: two rise times and half a fit, at most 400 ms.</summary>
    /// <param name="rise16">Height of the pulse over its steepest slope [1/16 working sample]; 0 when not known.</param>
    public readonly int ReachFor(int rise16)
    {
        int reach = Shift.Floor(rise16, 4) + Shift.Floor(rise16, 5) + FitArm;
        return rise16 == 0 || reach > MinimumReach ? MinimumReach : reach;
    }

    private readonly short Samples(int rateHz, int milliseconds, int least)
    {
        // The one division by a rate; at start-up only.
        int samples = ((milliseconds * rateHz) + (500 * Decimation)) / (1000 * Decimation);
        return (short)(samples < least ? least : samples);
    }
}
