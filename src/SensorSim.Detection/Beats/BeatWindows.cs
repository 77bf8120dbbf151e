// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;

namespace SensorSim.Detection.Beats;

/// <summary>Every length of the beat detector, in working samples, from milliseconds by whole-number arithmetic at start-up.</summary>
/// <remarks>
/// Rates above 256 Hz work on sums to four samples, so that a working sample never lasts less than 3.9 ms. The reasons for the lengths stand in docs/detection-beats.md.
/// In lanes both sums and the arm reach back eight working samples at most, the integration 31.
/// </remarks>
public struct BeatWindows
{
    /// <summary>Lowest sampling rate [Hz].</summary>
    public const int MinimumRateHz = 100;

    /// <summary>Highest sampling rate [Hz].</summary>
    public const int MaximumRateHz = 1000;

    /// <summary>Highest rate of working samples [Hz].</summary>
    public const int MaximumWorkingHz = 256;

    /// <summary>Input samples in a working sample: 1 to 4.</summary>
    public short Decimation { get; private set; }

    /// <summary>First moving sum, 20 ms: its first zero lies at 50 Hz.</summary>
    public short FirstSum { get; private set; }

    /// <summary>Second moving sum, 17 ms: its first zero lies near 60 Hz.</summary>
    public short SecondSum { get; private set; }

    /// <summary>Arm of the second difference, 28 ms: its top lies near 18 Hz.</summary>
    public short Arm { get; private set; }

    /// <summary>Right shift after the first sum that keeps the band-pass within 32 bits.</summary>
    public short SumShift { get; private set; }

    /// <summary>Moving integration of the magnitude, 100 ms.</summary>
    public short Integration { get; private set; }

    /// <summary>From the middle of a QRS complex to its peak in the integrated magnitude.</summary>
    public short Delay { get; private set; }

    /// <summary>A hump is complete when none higher came for 120 ms.</summary>
    public short Hold { get; private set; }

    /// <summary>No two beats lie closer than this, 200 ms unless set.</summary>
    public short Refractory { get; private set; }

    /// <summary>A strange candidate waits for 470 ms after its R peak for what may speak against it.</summary>
    public short Wait { get; private set; }

    /// <summary>Two candidates closer than 300 ms, one of them a known beat: the other one is none.</summary>
    public short Near { get; private set; }

    /// <summary>What begins within 60 ms of the edge of a gap is not judged.</summary>
    public short Edge { get; private set; }

    /// <summary>Distance of the points of a shape, about 9 ms.</summary>
    public short ShapeStep { get; private set; }

    /// <summary>Reach of the search for a shape round the middle, in shape steps; about 80 ms.</summary>
    public short ShapeReach { get; private set; }

    /// <summary>Longest gap that is bridged, 250 ms, in input samples.</summary>
    public short Bridge { get; private set; }

    /// <summary>What is filled in after the last sample before a long gap, 500 ms, in input samples: by then everything is decided.</summary>
    public short Tail { get; private set; }

    /// <summary>Longest time from a pacing spike to the R peak of its beat, 250 ms, in input samples.</summary>
    public short PacedReach { get; private set; }

    /// <summary>Spread above which a complex is wide: (32 ms)², in 1/16 shape step².</summary>
    public int WideSpread { get; private set; }

    /// <summary>Up to this long, 360 ms unless set, after a beat a candidate may be its T wave.</summary>
    public short TWave { get; private set; }

    /// <summary>A quarter of the learning time, 500 ms.</summary>
    public short LearningBlock { get; private set; }

    /// <summary>Without a beat for 3 s the levels are learned anew.</summary>
    public short Silence { get; private set; }

    /// <summary>Half-width of the slope measure, 8 ms.</summary>
    public short SlopeArm { get; private set; }

    /// <summary>Reach from the middle of the complex in which its steepest place is sought, 90 ms.</summary>
    public short SteepReach { get; private set; }

    /// <summary>Farthest start or end of the complex from its middle, 110 ms.</summary>
    public short QrsReach { get; private set; }

    /// <summary>Where the shape fits, the R peak lies within 16 ms.</summary>
    public short NearReach { get; private set; }

    /// <summary>Flat for 40 ms means outside the complex.</summary>
    public short Quiet { get; private set; }

    /// <summary>Half-width of the smoothing under the R peak and spacing of its parabola, 4 ms.</summary>
    public short PeakArm { get; private set; }

    /// <summary>Height of the hump of a narrow QRS of 0.08 mV, 0 when codes per millivolt are unknown: nothing smaller is learned as beats.</summary>
    public int Least { get; private set; }

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    /// <param name="codesPerMv256">Codes in a millivolt, times 256; 0 when unknown.</param>
    public static BeatWindows ForRate(int rateHz, int codesPerMv256 = 0) => ForRate(rateHz, codesPerMv256, Tuning.Usual);

    /// <summary>Derives every length.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    /// <param name="codesPerMv256">Codes in a millivolt, times 256; 0 when unknown.</param>
    /// <param name="tuning">Constants that may be set.</param>
    public static BeatWindows ForRate(int rateHz, int codesPerMv256, in Tuning tuning)
    {
        var w = new BeatWindows { Decimation = (short)((rateHz + MaximumWorkingHz - 1) / MaximumWorkingHz) };
        w.FirstSum = w.Samples(rateHz, 20);
        w.SecondSum = w.Samples(rateHz, 17);
        w.Arm = w.Samples(rateHz, 28);
        w.Integration = w.Samples(rateHz, 100);
        w.Hold = w.Samples(rateHz, 120);
        w.Refractory = w.Samples(rateHz, tuning.BeatRefractoryMs);
        w.Wait = w.Samples(rateHz, 470);
        w.Near = w.Samples(rateHz, 300);
        w.Edge = w.Samples(rateHz, 60);
        w.ShapeStep = w.Samples(rateHz, 9);
        w.ShapeReach = (short)((w.Samples(rateHz, 85) + (w.ShapeStep >> 1)) / w.ShapeStep);
        int stepsPerSecond = rateHz / (w.Decimation * w.ShapeStep);
        w.WideSpread = 16 * 1024 * stepsPerSecond / 1000 * stepsPerSecond / 1000;
        w.ShapeReach = w.ShapeReach > 8 ? (short)8 : w.ShapeReach; // what the survey has room for
        w.Bridge = (short)(rateHz >> 2);
        w.Tail = (short)(rateHz >> 1);
        w.PacedReach = (short)(rateHz >> 2);
        w.TWave = w.Samples(rateHz, tuning.BeatTWaveMs);
        w.LearningBlock = w.Samples(rateHz, 500);
        w.Silence = w.Samples(rateHz, 3000);
        w.SlopeArm = w.Samples(rateHz, 8);
        w.SteepReach = w.Samples(rateHz, 90);
        w.QrsReach = w.Samples(rateHz, 110);
        w.NearReach = w.Samples(rateHz, 16);
        w.Quiet = w.Samples(rateHz, 40);
        w.PeakArm = w.Samples(rateHz, 4);
        w.Delay = (short)(((w.FirstSum + w.SecondSum + w.Integration - 3) / 2) + w.Arm);

        // Codes of 24 bits: 2^23 × gain of the sums × 4 (second difference) must stay within 2^31, so the gain within 2^6.
        int gain = w.FirstSum * w.SecondSum * w.Decimation;
        while (gain > 64)
        {
            gain >>= 1;
            w.SumShift++;
        }

        // A narrow QRS of 1 mV makes a hump of about 0.64 × codes per millivolt × gain of the sums × integration (measured on the generator's).
        int twentieth = codesPerMv256 / 5120;
        int reach = (w.FirstSum * w.SecondSum * w.Decimation >> w.SumShift) * w.Integration;
        w.Least = twentieth > int.MaxValue / reach ? int.MaxValue : twentieth * reach;
        return w;
    }

    private readonly short Samples(int rateHz, int milliseconds)
    {
        // The one division by a rate; at start-up only.
        int samples = ((milliseconds * rateHz) + (500 * Decimation)) / (1000 * Decimation);
        return (short)(samples < 1 ? 1 : samples);
    }
}
