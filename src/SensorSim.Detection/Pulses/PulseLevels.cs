// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Third stage: how steep pulses have been lately, and the threshold below it.</summary>
/// <remarks>
/// Input: 30 bits unsigned, steepest values.
/// Product: by 5/16 and 5/32 as shifts and additions.
/// Accumulator: 32 bits, one guard bit in the median.
/// Worst case: the input itself.
/// Output: thresholds in the input's format, floor.
/// </remarks>
public struct PulseLevels
{
    private Word8 _signals;
    private int _at;

    /// <summary>Typical steepest value; 0 while nothing is learned.</summary>
    public int Signal { get; private set; }

    /// <summary>Threshold of an upstroke: 5/16 of the typical one.</summary>
    public readonly int Threshold => (Signal >> 2) + (Signal >> 4);

    /// <summary>Threshold when a pulse is overdue: half of that.</summary>
    public readonly int LowThreshold => (Signal >> 3) + (Signal >> 5);

    /// <summary>Sets the level from a stretch of signal.</summary>
    /// <param name="steepest">Steepest value of the stretch.</param>
    public void Learn(int steepest)
    {
        for (int i = 0; i < Word8.Length; i++)
        {
            _signals[i] = steepest;
        }

        Signal = steepest;
    }

    /// <summary>A pulse this steep was found.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public void Add(int steepest)
    {
        _signals[_at & (Word8.Length - 1)] = steepest;
        _at++;
        Signal = Median.OfUpTo8(_signals);
    }

    /// <summary>Whether an upstroke is so much steeper than pulses that it must be a step: four times.</summary>
    /// <param name="steepest">Its steepest value.</param>
    public readonly bool IsStep(int steepest) => steepest >> 2 > Signal;
}
