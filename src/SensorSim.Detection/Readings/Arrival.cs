// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Pulse arrival time: each R peak with the first foot 80 to 450 ms after it; a foot serves one R peak only.</summary>
/// <remarks>
/// Input: places in 1/256 sample of two channels, brought to 1/256 tick by whole factors.
/// Product: ticks × 10^6, 63 bits up to clocks of 1 GHz.
/// Accumulator: 64 bits, once per beat.
/// Worst case: 450 ms on a clock of 1 GHz: 2^37 × 10^6 / 256.
/// Output: thousandths of a millisecond, rounded to nearest; one long division per pair.
/// </remarks>
public struct Arrival
{
    private const long EarliestMs = 80;
    private const long LatestMs = 450;
    private const int Kept = Pending8.Length;

    private Pending8 _peaks;
    private Pending8 _feet;
    private int _peakAt;
    private int _footAt;
    private long _peakStep;
    private long _footStep;
    private long _delay256;
    private long _earliest256;
    private long _latest256;
    private long _ticksPerSecond;

    /// <summary>The latest value [1/1000 ms].</summary>
    public int TimeUs { get; private set; }

    /// <summary>The R peak of the latest value, in samples of the ECG channel.</summary>
    public SamplePosition RPeak { get; private set; }

    /// <summary>The foot of the latest value, in samples of the optical channel.</summary>
    public SamplePosition Foot { get; private set; }

    /// <summary>Forgets, and sets the common clock.</summary>
    /// <param name="ticksPerSecond">Ticks of the common clock in a second.</param>
    /// <param name="ticksPerEcgSample">Ticks from one ECG sample to the next.</param>
    /// <param name="ticksPerOpticalSample">Ticks from one optical sample to the next.</param>
    /// <param name="opticalDelay256">How much longer the optical chain delays than the ECG chain [1/256 tick].</param>
    public void Start(long ticksPerSecond, long ticksPerEcgSample, long ticksPerOpticalSample, long opticalDelay256)
    {
        this = default;
        _ticksPerSecond = ticksPerSecond;
        _peakStep = ticksPerEcgSample;
        _footStep = ticksPerOpticalSample;
        _delay256 = opticalDelay256;
        _earliest256 = EarliestMs * 256 * ticksPerSecond / 1000; // divisions at start-up
        _latest256 = LatestMs * 256 * ticksPerSecond / 1000;
    }

    /// <summary>Takes an R peak. It may come after its foot: beats are decided later than pulses.</summary>
    /// <param name="peak">The R peak.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddRPeak(SamplePosition peak)
    {
        ref Pending slot = ref _peaks[_peakAt];
        _peakAt = (_peakAt + 1) & (Kept - 1);
        slot = new Pending(peak, true);
        for (int i = 0; i < Kept; i++)
        {
            // Oldest first, so the first foot in reach is the first after the peak.
            ref Pending foot = ref _feet[(_footAt + i) & (Kept - 1)];
            if (foot.IsOpen && Pair(ref slot, ref foot))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Takes a foot.</summary>
    /// <param name="foot">The foot.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddFoot(SamplePosition foot)
    {
        ref Pending slot = ref _feet[_footAt];
        _footAt = (_footAt + 1) & (Kept - 1);
        slot = new Pending(foot, true);
        for (int i = 0; i < Kept; i++)
        {
            ref Pending peak = ref _peaks[(_peakAt + i) & (Kept - 1)];
            if (peak.IsOpen && Pair(ref peak, ref slot))
            {
                return true;
            }
        }

        return false;
    }

    private bool Pair(ref Pending peak, ref Pending foot)
    {
        long ticks256 = (foot.Place.In256 * _footStep) - _delay256 - (peak.Place.In256 * _peakStep);
        if (ticks256 < _earliest256 || ticks256 > _latest256)
        {
            return false;
        }

        // Thousandths of a ms: ticks256 × 10^6 / (256 × ticks per second) = ticks256 × 15625 / (4 × ticks per second).
        ulong numerator = (ulong)ticks256 * 15625;
        ulong denominator = (ulong)_ticksPerSecond * 4;
        while (denominator > int.MaxValue)
        {
            numerator >>= 1;
            denominator >>= 1;
        }

        TimeUs = LongDivision.Rounded(numerator, (uint)denominator);
        RPeak = peak.Place;
        Foot = foot.Place;
        peak = default;
        foot = default;
        return true;
    }

    private readonly record struct Pending(SamplePosition Place, bool IsOpen);

    [InlineArray(Length)]
    private struct Pending8
    {
        public const int Length = 8;
        private Pending _first;
    }
}
