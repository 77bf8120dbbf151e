// SPDX-License-Identifier: MIT
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
    public int Decimation { get; private set; }

    /// <summary>Half-width of the straight-line fit that watches for upstrokes, 60 ms.</summary>
    public int WatchArm { get; private set; }

    /// <summary>Half-width of the cubic fit that measures the upstroke, 60 ms.</summary>
    public int FitArm { get; private set; }

    /// <summary>Reach round the watched top in which the steepest place is sought, 10 ms.</summary>
    public int SteepReach { get; private set; }

    /// <summary>How far before the steepest place the minimum is sought at most, 400 ms.</summary>
    public int MinimumReach { get; private set; }

    /// <summary>Least time from one steepest place to the next, 270 ms.</summary>
    public int Refractory { get; private set; }

    /// <summary>Longest upstroke, 400 ms.</summary>
    public int LongestRise { get; private set; }

    /// <summary>A quarter of the learning time, 500 ms.</summary>
    public int LearningBlock { get; private set; }

    /// <summary>Without a pulse for 3 s the level is learned anew.</summary>
    public int Silence { get; private set; }

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    public static PulseWindows ForRate(int rateHz)
    {
        var w = new PulseWindows { Decimation = rateHz < 200 ? 1 : rateHz / 100 };
        w.WatchArm = w.Samples(rateHz, 60, 1);
        w.FitArm = w.Samples(rateHz, 60, 2);
        w.SteepReach = w.Samples(rateHz, 10, 1);
        w.MinimumReach = w.Samples(rateHz, 400, 4);
        w.Refractory = w.Samples(rateHz, 270, 1);
        w.LongestRise = w.Samples(rateHz, 400, 2);
        w.LearningBlock = w.Samples(rateHz, 500, 1);
        w.Silence = w.Samples(rateHz, 3000, 1);
        return w;
    }

    private readonly int Samples(int rateHz, int milliseconds, int least)
    {
        // The one division by a rate; at start-up only.
        int samples = ((milliseconds * rateHz) + (500 * Decimation)) / (1000 * Decimation);
        return samples < least ? least : samples;
    }
}
