// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Fourth stage: what beats and what noise have looked like lately, and the threshold between them.</summary>
/// <remarks>
/// Input: 31 bits unsigned, heights of humps, halved on the way in so that medians have a guard bit.
/// Product: by 5/16 as shifts and one addition.
/// Accumulator: 32 bits.
/// Worst case: 5 × 2^26 after the shift, below 2^31.
/// Output: thresholds in the format of the heights.
/// </remarks>
public struct BeatLevels
{
    private Word8 _signals;
    private Word8 _noises;
    private int _signalAt;
    private int _noiseAt;
    private short _more1024;

    /// <summary>Typical height of a beat, halved; 0 while nothing is learned.</summary>
    public int HalfSignal { get; private set; }

    /// <summary>Typical height of what is no beat, halved.</summary>
    public int HalfNoise { get; private set; }

    /// <summary>Height above which a hump is a beat.</summary>
    public int Threshold { get; private set; }

    /// <summary>Height that is enough when a beat is overdue: half the threshold, but an eighth above the noise.</summary>
    public int LookBackThreshold { get; private set; }

    /// <summary>Whether there are levels at all.</summary>
    public readonly bool IsLearned => HalfSignal != 0;

    /// <summary>Sets how high the thresholds are, of the usual ones.</summary>
    /// <param name="percent">25 to 400.</param>
    public void SetPercent(int percent) => _more1024 = ThresholdScale.More1024(percent);

    /// <summary>Sets both levels from a stretch of signal.</summary>
    /// <param name="signal">Height taken for a beat's.</param>
    /// <param name="noise">Height taken for noise.</param>
    public void Learn(int signal, int noise)
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            _signals[i] = signal >> 1;
            _noises[i] = noise >> 1;
        }

        HalfSignal = signal >> 1;
        HalfNoise = noise >> 1;
        Refresh();
    }

    /// <summary>A beat of this height was found. Heights count up to three times the typical one.</summary>
    /// <param name="height">Height of the hump.</param>
    public void AddSignal(int height)
    {
        int half = height >> 1;
        int third = half / 3;
        _signals[_signalAt & (Word8.Length - 1)] = third > HalfSignal ? HalfSignal * 3 : half;
        _signalAt++;
        HalfSignal = Median.OfUpTo8(_signals);
        Refresh();
    }

    /// <summary>A hump of this height was no beat.</summary>
    /// <param name="height">Height of the hump.</param>
    public void AddNoise(int height)
    {
        int half = height >> 1;
        _noises[_noiseAt & (Word8.Length - 1)] = half < HalfSignal ? half : HalfSignal;
        _noiseAt++;
        HalfNoise = Median.OfUpTo8(_noises);
        Refresh();
    }

    private void Refresh()
    {
        int span = HalfSignal > HalfNoise ? HalfSignal - HalfNoise : 0;
        int low = 5 * (span >> 3);
        int high = 5 * (span >> 2);
        int above = HalfNoise > low ? HalfNoise : low;
        Threshold = ThresholdScale.Apply((2 * HalfNoise) + (above < high ? above : high), _more1024);
        int overNoise = (2 * HalfNoise) + (HalfNoise >> 2);
        overNoise = ThresholdScale.Apply(overNoise, _more1024);
        LookBackThreshold = Threshold >> 1 > overNoise ? Threshold >> 1 : overNoise;
    }
}
