// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Beats;

/// <summary>Every length of the beat detector, in working samples, from milliseconds by whole-number arithmetic at start-up.</summary>
/// <remarks>Rates above 512 Hz work on sums of two samples. The reasons for the lengths stand in docs/detection.md.</remarks>
public struct BeatWindows
{
    /// <summary>Lowest sampling rate [Hz].</summary>
    public const int MinimumRateHz = 100;

    /// <summary>Highest sampling rate [Hz].</summary>
    public const int MaximumRateHz = 1000;

    /// <summary>Input samples in a working sample: 1 or 2.</summary>
    public int Decimation { get; private set; }

    /// <summary>First moving sum, 20 ms: its first zero lies at 50 Hz.</summary>
    public int FirstSum { get; private set; }

    /// <summary>Second moving sum, 17 ms: its first zero lies near 60 Hz.</summary>
    public int SecondSum { get; private set; }

    /// <summary>Arm of the second difference, 28 ms: its top lies near 18 Hz.</summary>
    public int Arm { get; private set; }

    /// <summary>Right shift after the first sum that keeps the band-pass within 32 bits.</summary>
    public int SumShift { get; private set; }

    /// <summary>Moving integration of the magnitude, 100 ms.</summary>
    public int Integration { get; private set; }

    /// <summary>From the middle of a QRS complex to its peak in the integrated magnitude.</summary>
    public int Delay { get; private set; }

    /// <summary>A peak counts when none higher follows for 200 ms; also the refractory time.</summary>
    public int Hold { get; private set; }

    /// <summary>Up to 360 ms after a beat a candidate may be its T wave.</summary>
    public int TWave { get; private set; }

    /// <summary>A quarter of the learning time, 500 ms.</summary>
    public int LearningBlock { get; private set; }

    /// <summary>Without a beat for 3 s the levels are learned anew.</summary>
    public int Silence { get; private set; }

    /// <summary>Half-width of the slope measure, 8 ms.</summary>
    public int SlopeArm { get; private set; }

    /// <summary>Reach from the middle of the complex in which its steepest place is sought, 90 ms.</summary>
    public int SteepReach { get; private set; }

    /// <summary>Farthest start or end of the complex from its middle, 110 ms.</summary>
    public int QrsReach { get; private set; }

    /// <summary>Flat for 40 ms means outside the complex.</summary>
    public int Quiet { get; private set; }

    /// <summary>Half-width of the smoothing under the R peak and spacing of its parabola, 4 ms.</summary>
    public int PeakArm { get; private set; }

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    public static BeatWindows ForRate(int rateHz)
    {
        var w = new BeatWindows { Decimation = rateHz > 512 ? 2 : 1 };
        w.FirstSum = w.Samples(rateHz, 20);
        w.SecondSum = w.Samples(rateHz, 17);
        w.Arm = w.Samples(rateHz, 28);
        w.Integration = w.Samples(rateHz, 100);
        w.Hold = w.Samples(rateHz, 200);
        w.TWave = w.Samples(rateHz, 360);
        w.LearningBlock = w.Samples(rateHz, 500);
        w.Silence = w.Samples(rateHz, 3000);
        w.SlopeArm = w.Samples(rateHz, 8);
        w.SteepReach = w.Samples(rateHz, 90);
        w.QrsReach = w.Samples(rateHz, 110);
        w.Quiet = w.Samples(rateHz, 40);
        w.PeakArm = w.Samples(rateHz, 4);
        w.Delay = ((w.FirstSum + w.SecondSum + w.Integration - 3) / 2) + w.Arm;

        // Codes of 24 bits: 2^23 × gain of the sums × 4 (second difference) must stay within 2^31, so the gain within 2^6.
        int gain = w.FirstSum * w.SecondSum * w.Decimation;
        while (gain > 64)
        {
            gain >>= 1;
            w.SumShift++;
        }

        return w;
    }

    private readonly int Samples(int rateHz, int milliseconds)
    {
        // The one division by a rate; at start-up only.
        int samples = ((milliseconds * rateHz) + (500 * Decimation)) / (1000 * Decimation);
        return samples < 1 ? 1 : samples;
    }
}
