// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Readings;

/// <summary>Pulse arrival time: each R peak with the first foot 80 to 450 ms after it; a foot serves one R peak only.</summary>
/// <remarks>
/// <para>
/// A time more than 25 ms off the median of the last eight given ones is left out: three to eight times the spread between beats at rest (3 to 8 ms,
/// from memory), so ectopic beats and feet moved by movement fall out. When four in a row are left out and lie within 25 ms of each other, the
/// arrival time has moved (a raised arm: 38 ms, Jago and Murray 1988) and all is begun anew.
/// </para>
/// Input: places in 1/256 sample of two channels, brought to 1/256 tick by whole factors.
/// Product: ticks × 10^6, 63 bits up to clocks of 1 GHz.
/// Accumulator: 64 bits, once per beat.
/// Worst case: 450 ms on a clock of 1 GHz: 2^37 × 10^6 / 256.
/// Output: thousandths of a millisecond, rounded to nearest; one long division per pair.
/// </remarks>
public struct Arrival
{
    private const int EarliestMs = 80;
    private const int LatestMs = 450;
    private const int Kept = Long4.Length;
    private const long None = long.MinValue;
    private const int FarUs = 25_000;
    private const int Patience = 4;
    private const int Enough = 4;

    private Long4 _peaks; // 1/256 sample
    private Long4 _feet;
    private Byte4 _peakQualities;
    private Byte4 _footQualities;
    private CommonClock _clock;
    private long _newestPeak256; // 1/256 tick
    private long _newestFoot256;
    private long _peakStep;
    private long _footStep;
    private long _delay256;
    private long _earliest256;
    private long _latest256;
    private long _peak;
    private long _foot;
    private ArrivalMedian _median;
    private byte _peakAt;
    private byte _footAt;
    private byte _quality;
    private bool _isOutlier;

    /// <summary>The latest value [1/1000 ms].</summary>
    public int TimeUs { get; private set; }

    /// <summary>The R peak of the latest value, in samples of the ECG channel.</summary>
    public readonly SamplePosition RPeak => SamplePosition.From256(_peak);

    /// <summary>The foot of the latest value, in samples of the optical channel.</summary>
    public readonly SamplePosition Foot => SamplePosition.From256(_foot);

    /// <summary>The latest value, placed at its foot; quality 0 until there was one.</summary>
    public readonly Reading Latest => new(ReadingKind.Arrival, TimeUs, _quality, _foot * _footStep, 0);

    /// <summary>Whether the last call found a pair whose time was left out.</summary>
    public readonly bool IsOutlier => _isOutlier;

    /// <summary>Forgets, and sets the common clock.</summary>
    /// <param name="ticksPerSecond">Ticks of the common clock in a second.</param>
    /// <param name="ticksPerEcgSample">Ticks from one ECG sample to the next.</param>
    /// <param name="ticksPerOpticalSample">Ticks from one optical sample to the next.</param>
    /// <param name="opticalDelay256">How much longer the optical chain delays than the ECG chain [1/256 tick].</param>
    public void Start(long ticksPerSecond, long ticksPerEcgSample, long ticksPerOpticalSample, long opticalDelay256)
    {
        this = default;
        _clock = new CommonClock(ticksPerSecond);
        _peakStep = ticksPerEcgSample;
        _footStep = ticksPerOpticalSample;
        _delay256 = opticalDelay256;
        _earliest256 = _clock.Ticks256(EarliestMs);
        _latest256 = _clock.Ticks256(LatestMs);
        _newestPeak256 = None;
        _newestFoot256 = None;
        for (int i = 0; i < Kept; i++)
        {
            _peaks[i] = None;
            _feet[i] = None;
        }
    }

    /// <summary>Takes an R peak. It may come after its foot: beats are decided later than pulses.</summary>
    /// <param name="peak">The R peak.</param>
    /// <param name="quality">Its trust, 0 to 255.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddRPeak(SamplePosition peak, byte quality = 255)
    {
        int slot = _peakAt;
        _peakAt = (byte)((slot + 1) & (Kept - 1));
        _peaks[slot] = peak.In256;
        _peakQualities[slot] = quality;
        _newestPeak256 = peak.In256 * _peakStep;
        _isOutlier = false;
        for (int i = 0; i < Kept; i++)
        {
            // Oldest first, so the first foot in reach is the first after the peak.
            int foot = (_footAt + i) & (Kept - 1);
            if (IsPair(slot, foot))
            {
                return Judge(slot, foot);
            }
        }

        return false;
    }

    /// <summary>Takes a foot.</summary>
    /// <param name="foot">The foot.</param>
    /// <param name="quality">Its trust, 0 to 255.</param>
    /// <returns>Whether there is a new value.</returns>
    public bool AddFoot(SamplePosition foot, byte quality = 255)
    {
        int slot = _footAt;
        _footAt = (byte)((slot + 1) & (Kept - 1));
        _feet[slot] = foot.In256;
        _footQualities[slot] = quality;
        _newestFoot256 = (foot.In256 * _footStep) - _delay256;
        _isOutlier = false;
        for (int i = 0; i < Kept; i++)
        {
            int peak = (_peakAt + i) & (Kept - 1);
            if (IsPair(peak, slot))
            {
                return Judge(peak, slot);
            }
        }

        return false;
    }

    /// <summary>An R peak that no foot will be paired with any more. Ask after each call until there is none.</summary>
    /// <param name="ticks256">Receives the R peak [1/256 tick].</param>
    /// <returns>Whether there is one.</returns>
    public bool TakeUnpaired(out long ticks256)
    {
        // A foot beyond reach was seen, or beats went on for a second and a half without one (feet are told at most 0.8 s after their R peak).
        long past = _newestFoot256 == None ? None : _newestFoot256 - _latest256;
        long silent = _newestPeak256 == None ? None : _newestPeak256 - (4 * _latest256);
        long open = past > silent ? past : silent;
        for (int i = 0; i < Kept; i++)
        {
            ref long peak = ref _peaks[(_peakAt + i) & (Kept - 1)];
            ticks256 = peak == None ? None : peak * _peakStep;
            if (ticks256 != None && ticks256 < open)
            {
                peak = None;
                return true;
            }
        }

        ticks256 = 0;
        return false;
    }

    private readonly long Between256(int peak, int foot) => (_feet[foot] * _footStep) - _delay256 - (_peaks[peak] * _peakStep);

    private readonly bool IsPair(int peak, int foot)
    {
        if (_peaks[peak] == None || _feet[foot] == None)
        {
            return false;
        }

        long ticks256 = Between256(peak, foot);
        return ticks256 >= _earliest256 && ticks256 <= _latest256;
    }

    private bool Judge(int peak, int foot)
    {
        int timeUs = _clock.Microseconds(Between256(peak, foot));
        long peakPlace = _peaks[peak];
        long footPlace = _feet[foot];
        _peaks[peak] = None;
        _feet[foot] = None;
        int off = Sat.Abs32(timeUs - _median.Value(timeUs));
        _isOutlier = off > FarUs;
        if (_isOutlier)
        {
            // Four that agree: it has moved.
            if (!_median.IsMoved(timeUs, FarUs, Patience))
            {
                return false;
            }

            _isOutlier = false;
            _median.Begin(timeUs);
            off = 0;
        }

        _median.Add(timeUs);
        TimeUs = timeUs;
        _peak = peakPlace;
        _foot = footPlace;

        // The worse of the two; an eighth of the scale less for each 4 ms off, less for unrest, half of it while the median is young.
        int quality = _peakQualities[peak] < _footQualities[foot] ? _peakQualities[peak] : _footQualities[foot];
        quality -= Shift.Floor(off, 7) + _median.Unrest();
        quality = _median.Count <= Enough ? Shift.Floor(quality, 1) : quality;
        _quality = (byte)(quality < 1 ? 1 : quality);
        return true;
    }
}
