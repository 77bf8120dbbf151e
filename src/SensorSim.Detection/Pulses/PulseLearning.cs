// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Side stage: the steepest upstroke of the last 2 s without a pulse, for the first level and for a new one after silence.</summary>
/// <remarks>
/// Input: 31 bits and sign.
/// Product: none.
/// Accumulator: none, comparisons only.
/// Worst case: none.
/// Output: steepest value in the input's format. Gaps do not end it: it goes on with the next sample.
/// </remarks>
public struct PulseLearning
{
    /// <summary>Blocks in the 2 s.</summary>
    public const int Blocks = 4;

    private Word8 _steepest;
    private int _block;
    private int _taken;

    /// <summary>Steepest value of the last four blocks.</summary>
    public int Steepest { get; private set; }

    /// <summary>Blocks since the start or the last pulse, at most 7.</summary>
    public int Filled { get; private set; }

    /// <summary>Begins anew after a pulse: what is left of it is not looked at.</summary>
    /// <param name="quiet">Working samples that pass unseen.</param>
    public void Restart(int quiet)
    {
        this = default;
        _taken = -quiet;
    }

    /// <summary>Takes the next slope.</summary>
    /// <param name="slope">The slope.</param>
    /// <param name="blockLength">Working samples in a block.</param>
    /// <param name="limit">Steeper ones are no pulses.</param>
    /// <returns>Whether a block is complete.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int slope, int blockLength, int limit)
    {
        Watch(slope, limit);
        return _taken >= blockLength && Close();
    }

    /// <summary>How many slopes may be watched in a run: those that pass unseen, else up to the one that completes the block.</summary>
    /// <param name="blockLength">Working samples in a block.</param>
    public readonly int RoomForRun(int blockLength) => _taken < 0 ? -_taken : blockLength - _taken - 1;

    /// <summary>For a run: only a steeper slope is looked at. The highest word while slopes pass unseen.</summary>
    public readonly int Bound => _taken < 0 ? int.MaxValue : _block;

    /// <summary>A run of slopes has passed.</summary>
    /// <param name="steepest">The steepest of them that was within the limit, or <see cref="Bound"/> before them.</param>
    /// <param name="count">How many.</param>
    public void Pass(int steepest, int count)
    {
        _block = _taken < 0 ? _block : steepest;
        _taken += count;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Watch(int slope, int limit)
    {
        _block = slope > _block && slope <= limit && _taken >= 0 ? slope : _block;
        _taken++;
    }

    private bool Close()
    {
        _steepest[Filled & (Blocks - 1)] = _block;
        Filled = Filled == (2 * Blocks) - 1 ? Blocks : Filled + 1;
        _block = 0;
        _taken = 0;
        Steepest = 0;
        for (int i = 0; i < Blocks; i++)
        {
            Steepest = _steepest[i] > Steepest ? _steepest[i] : Steepest;
        }

        return true;
    }
}
