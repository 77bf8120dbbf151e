// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage: the steepest upstroke of the last 2 s, for the first level and for a new one after silence.</summary>
/// <remarks>
/// Input: 31 bits and sign.
/// Product: none.
/// Accumulator: none, comparisons only.
/// Worst case: none.
/// Output: steepest value in the input's format.
/// </remarks>
public struct PulseLearning
{
    private const int Blocks = 4;
    private Word8 _steepest;
    private int _block;
    private int _taken;
    private int _filled;

    /// <summary>Steepest value of the last four blocks.</summary>
    public int Steepest { get; private set; }

    /// <summary>Forgets.</summary>
    public void Restart() => this = default;

    /// <summary>Takes the next slope.</summary>
    /// <param name="slope">The slope.</param>
    /// <param name="blockLength">Working samples in a block.</param>
    /// <returns>Whether a block is complete and there are four of them.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int slope, int blockLength)
    {
        _block = slope > _block ? slope : _block;
        if (++_taken < blockLength)
        {
            return false;
        }

        _steepest[_filled & (Blocks - 1)] = _block;
        _filled = _filled == (2 * Blocks) - 1 ? Blocks : _filled + 1;
        _block = 0;
        _taken = 0;
        Steepest = 0;
        for (int i = 0; i < Blocks; i++)
        {
            Steepest = _steepest[i] > Steepest ? _steepest[i] : Steepest;
        }

        return _filled >= Blocks;
    }
}
