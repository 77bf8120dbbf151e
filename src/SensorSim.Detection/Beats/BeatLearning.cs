// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Side stage: what the last 2 s of integrated magnitude looked like, for the first levels and for new ones after silence.</summary>
/// <remarks>
/// Input: 31 bits unsigned.
/// Product: none.
/// Accumulator: 64 bits for the sum of a block, 256 values; 32 bits for block means in quarters.
/// Worst case: 2^31 × 256 = 2^39 for a block, divided in units of 2^9.
/// Output: highest value and mean of 2 s in the input's format, floor to within a few units.
/// </remarks>
public partial struct BeatLearning
{
    private const int Blocks = 4;
    private const int PatientBlocks = 8;
    private Word8 _highest;
    private Word8 _means;
    private int _blockHighest;
    private long _blockSum;
    private int _taken;
    private int _filled;
    private int _waited;

    /// <summary>Highest value of the last four blocks.</summary>
    public int Highest { get; private set; }

    /// <summary>Mean of the last four blocks.</summary>
    public int Mean { get; private set; }

    /// <summary>
    /// Whether the stretch stands out of itself as beats do: highest above 2 1/2 times the mean, or, where none has done so for four
    /// seconds, above 2 1/4 times: fast beats with large T waves fill most of the time between them.
    /// </summary>
    public readonly bool HasBeats => _filled >= Blocks
        && (Highest >> 1 > Mean + (Mean >> 2) || (_waited >= PatientBlocks && Highest > (2 * Mean) + (Mean >> 2)));

    /// <summary>Forgets.</summary>
    public void Restart() => this = default;

    /// <summary>Takes the next value.</summary>
    /// <param name="value">Integrated magnitude.</param>
    /// <param name="blockLength">Working samples in a block.</param>
    /// <returns>Whether a block is complete.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Next(int value, int blockLength)
    {
        Watch(value);
        if (_taken < blockLength)
        {
            return false;
        }

        Close(blockLength);
        return true;
    }

    /// <summary>How many values may be watched in a run: not the one that completes the block.</summary>
    /// <param name="blockLength">Working samples in a block.</param>
    public readonly int RoomForRun(int blockLength) => blockLength - _taken - 1;

    /// <summary>Takes the next value inside of a block.</summary>
    /// <param name="value">Integrated magnitude.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Watch(int value)
    {
        _blockHighest = value > _blockHighest ? value : _blockHighest;
        _blockSum += value;
        _taken++;
    }

    private void Close(int blockLength)
    {
        int at = _filled & (Blocks - 1);
        _highest[at] = _blockHighest;

        // Quotient and remainder separately, so that 32 bits do. Twice a second, not per sample.
        int sum512 = (int)(_blockSum >> 9);
        int quotient = sum512 / blockLength;
        int remainder = sum512 - (quotient * blockLength);
        _means[at] = (quotient << 7) + ((remainder << 7) / blockLength);
        _waited += _waited < PatientBlocks ? 1 : 0;
        _filled = _filled == (2 * Blocks) - 1 ? Blocks : _filled + 1;
        _blockHighest = 0;
        _blockSum = 0;
        _taken = 0;
        Highest = 0;
        int sum = 0;
        for (int i = 0; i < Blocks; i++)
        {
            Highest = _highest[i] > Highest ? _highest[i] : Highest;
            sum += _means[i];
        }

        Mean = sum;
    }
}
