// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Beats;

/// <summary>Third stage: humps of the integrated magnitude that stay the highest for a holding time.</summary>
/// <remarks>
/// Input: 31 bits unsigned.
/// Product: none.
/// Accumulator: none, comparisons only.
/// Worst case: none.
/// Output: height in the input's format, age in working samples.
/// </remarks>
public partial struct PeakFinder
{
    private int _lowest;
    private int _hold;
    private bool _isRising;

    /// <summary>Height of the hump held or just found.</summary>
    public int Height { get; private set; }

    /// <summary>Working samples since that height.</summary>
    public int Age { get; private set; }

    /// <summary>Whether a hump is held that has not been decided.</summary>
    public readonly bool IsHolding => _isRising;

    /// <summary>How many values may come in a run: none of them can complete a hump.</summary>
    public readonly int RoomForRun => _isRising ? _hold - Age - 1 : _hold;

    /// <summary>Forgets the hump held.</summary>
    /// <param name="hold">Holding time [working samples].</param>
    public void Restart(int hold)
    {
        _hold = hold;
        _isRising = false;
        _lowest = 0;
        Height = 0;
        Age = 0;
    }

    /// <summary>Takes the next value.</summary>
    /// <param name="value">Integrated magnitude.</param>
    /// <returns>Whether a hump has stayed the highest for the holding time.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int value)
    {
        if (!_isRising)
        {
            if (value <= _lowest)
            {
                _lowest = value;
                return false;
            }

            // A rise of an eighth above the valley starts a hump.
            if (value - _lowest <= _lowest >> 3)
            {
                return false;
            }

            _isRising = true;
            Height = value;
            Age = 0;
            return false;
        }

        if (value > Height)
        {
            Height = value;
            Age = 0;
            return false;
        }

        if (++Age < _hold)
        {
            return false;
        }

        _isRising = false;
        _lowest = value;
        return true;
    }
}
