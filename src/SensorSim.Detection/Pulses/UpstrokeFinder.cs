// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Second stage: stretches where the slope passes a threshold, followed until it is no longer positive.</summary>
/// <remarks>
/// Input: 31 bits and sign.
/// Product: none.
/// Accumulator: none, comparisons only.
/// Worst case: none.
/// Output: steepest value in the input's format, ages in working samples.
/// </remarks>
public partial struct UpstrokeFinder
{
    private int _longest;
    private int _age;

    /// <summary>Whether an upstroke is being followed.</summary>
    public bool IsRising { get; private set; }

    /// <summary>Steepest value of the upstroke.</summary>
    public int Steepest { get; private set; }

    /// <summary>Working samples since that value.</summary>
    public int SinceSteepest { get; private set; }

    /// <summary>The last value before the end of the upstroke, positive.</summary>
    public int Before { get; private set; }

    /// <summary>The value at the end of the upstroke, not positive unless it took too long.</summary>
    public int After { get; private set; }

    /// <summary>Forgets.</summary>
    /// <param name="longest">Longest upstroke [working samples].</param>
    public void Restart(int longest)
    {
        this = default;
        _longest = longest;
    }

    /// <summary>Takes the next slope.</summary>
    /// <param name="slope">The slope.</param>
    /// <param name="threshold">What it has to pass for a start.</param>
    /// <returns>Whether an upstroke has ended.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int slope, int threshold)
    {
        if (!IsRising)
        {
            if (slope <= threshold)
            {
                return false;
            }

            IsRising = true;
            _age = 0;
            Steepest = 0;
        }

        if (slope > Steepest)
        {
            Steepest = slope;
            SinceSteepest = 0;
        }
        else
        {
            SinceSteepest++;
        }

        if (slope > 0 && ++_age < _longest)
        {
            Before = slope;
            return false;
        }

        After = slope;
        IsRising = false;
        return true;
    }

    /// <summary>Where the slope passes zero between the last two watched samples, by a straight line [1/256 working sample after the first]; once per pulse.</summary>
    public readonly int ZeroCrossing256()
    {
        int before = Before;
        int after = After < 0 ? -After : 0;
        int shift = Shift.Needed(before > after ? before : after, 22);
        before = Shift.Floor(before, shift);
        after = Shift.Floor(after, shift);
        return before + after == 0 ? 0 : ((before * 256) + Shift.Floor(before + after, 1)) / (before + after);
    }
}
