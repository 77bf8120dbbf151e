// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Finds R peaks in a stream of ECG codes. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, any weight of a bit, either polarity.
/// Product: see the stages: band-pass, energy, peak finder, levels, locator.
/// Accumulator: 32 bits throughout; 64 bits only for sample indices.
/// Worst case: see the stages.
/// Output: events with places in 1/256 sample, at most one a sample.
/// </remarks>
public struct BeatDetector
{
    private const long Nothing = long.MinValue;
    private const int MaximumRrCount = 8;

    private BeatWindows _windows;
    private BandPass _bandPass;
    private QrsEnergy _energy;
    private PeakFinder _peaks;
    private BeatLevels _levels;
    private BeatLocator _locator;
    private BeatLearning _learning;
    private Word512 _ecg;
    private Word8 _rr;

    private long _base;
    private long _now;
    private int _pairSum;
    private int _phase;
    private bool _isFresh;

    private long _lastBeat256;
    private int _lastSlope;
    private int _sinceBeat;
    private int _lookBackAfter;
    private int _rrCount;
    private int _meanRr;
    private bool _hasRunBeat;

    private int _missedHeight;
    private int _missedDeviation;
    private int _missedSlope;
    private long _missed256;

    private BeatEvent _event;

    /// <summary>Index of the sample that comes next.</summary>
    public readonly long NextIndex => _base + (_now * _windows.Decimation) + _phase;

    /// <summary>The latest beat; meaningful after a call that said there is one.</summary>
    public readonly BeatEvent Event => _event;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 100 to 1000.</param>
    /// <returns>Whether the rate is allowed.</returns>
    public bool Start(int rateHz)
    {
        if (rateHz < BeatWindows.MinimumRateHz || rateHz > BeatWindows.MaximumRateHz)
        {
            return false;
        }

        this = default;
        _windows = BeatWindows.ForRate(rateHz);
        _lastBeat256 = Nothing;
        Restart(0);
        return true;
    }

    /// <summary>The next sample has this index: after a gap, or after samples that cannot be used. Levels stay.</summary>
    /// <param name="index">Index of the next sample.</param>
    public void Restart(long index)
    {
        _base = index;
        _now = 0;
        _phase = 0;
        _pairSum = 0;
        _isFresh = true;
        _hasRunBeat = false;
        _lastBeat256 = Nothing;
        _sinceBeat = 0;
        _lookBackAfter = int.MaxValue;
        _missedHeight = 0;
        _peaks.Restart(_windows.Hold);
        _energy.Restart(_windows);
        _learning.Restart();
    }

    /// <summary>Takes samples until a beat is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new beat.</param>
    /// <returns>How many samples were taken.</returns>
    public int Take(ReadOnlySpan<int> codes, out bool found)
    {
        NoProbe probe = default;
        return Take(codes, default, ref probe, out found);
    }

    /// <summary>Takes samples until a beat is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="status">Their status words (<see cref="SampleFlags"/>); empty when the sensor gives none.</param>
    /// <param name="probe">Sees intermediate values.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new beat.</param>
    /// <returns>How many samples were taken.</returns>
    public int Take<TProbe>(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, ref TProbe probe, out bool found)
        where TProbe : struct, IProbe
    {
        for (int i = 0; i < codes.Length; i++)
        {
            if (Next(codes[i], ref probe))
            {
                found = true;
                return i + 1;
            }
        }

        found = false;
        return codes.Length;
    }

    /// <summary>No more samples follow (the end, or a gap): decides about the hump held.</summary>
    /// <returns>Whether <see cref="Event"/> holds a new beat.</returns>
    public bool Flush()
    {
        // Half an integration past its top the whole complex has been seen.
        bool isWhole = _peaks.IsHolding && _peaks.Age >= _windows.Integration >> 1;
        bool found = isWhole && Decide();
        _peaks.Restart(_windows.Hold);
        return found;
    }

    private bool Next<TProbe>(int code, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_windows.Decimation == 2)
        {
            _pairSum += code;
            if (++_phase < 2)
            {
                return false;
            }

            code = _pairSum;
            _pairSum = 0;
            _phase = 0;
        }

        if (_isFresh)
        {
            Fill(code);
        }

        _ecg[(int)_now & (Word512.Length - 1)] = code;
        _now++;
        _sinceBeat++;
        probe.See(ProbePoint.EcgInput, code);
        int passed = _bandPass.Next(code, ref probe);
        probe.See(ProbePoint.EcgBandPass, passed);
        int energy = _energy.Next(passed);
        probe.See(ProbePoint.EcgEnergy, energy);
        probe.See(ProbePoint.BeatThreshold, _levels.Threshold);
        probe.See(ProbePoint.BeatLookBackThreshold, _levels.LookBackThreshold);
        if (_learning.Next(energy, _windows.LearningBlock))
        {
            Learn();
        }

        if (_peaks.Next(energy) && Decide())
        {
            return true;
        }

        return _sinceBeat > _lookBackAfter && LookBack();
    }

    private void Fill(int code)
    {
        _isFresh = false;
        _bandPass.Restart(_windows, code);
        for (int i = 0; i < Word512.Length; i++)
        {
            _ecg[i] = code;
        }
    }

    private void Learn()
    {
        bool isSilent = _sinceBeat > _windows.Silence;
        if ((!_levels.IsLearned || isSilent) && _learning.HasBeats)
        {
            _levels.Learn(_learning.Highest, _learning.Mean);
            _missedHeight = 0;
        }
    }

    /// <summary>A hump is complete: beat, T wave or noise.</summary>
    private bool Decide()
    {
        long middle = _now - 1 - _peaks.Age - _windows.Delay;
        if (!_levels.IsLearned || middle < _windows.Integration)
        {
            return false;
        }

        int height = _peaks.Height;
        if (height <= _levels.LookBackThreshold)
        {
            // Too low even for an overdue beat: not worth a look.
            _levels.AddNoise(height);
            return false;
        }

        _locator.Locate(_windows, _ecg, middle, _now - 1);
        if (IsAfterwave())
        {
            _levels.AddNoise(height);
            return false;
        }

        if (height > _levels.Threshold)
        {
            byte quality = height >> 1 >= _levels.HalfSignal - (_levels.HalfSignal >> 2) ? (byte)255
                : height >> 1 >= _levels.HalfSignal >> 1 ? (byte)192 : (byte)128;
            Emit(_locator.Position256, _locator.Deviation, _locator.Slope, height, quality);
            return true;
        }

        _levels.AddNoise(height);
        if (height > _missedHeight)
        {
            _missedHeight = height;
            _missed256 = _locator.Position256;
            _missedDeviation = _locator.Deviation;
            _missedSlope = _locator.Slope;
        }

        return false;
    }

    /// <summary>Within the refractory time, or soon after a beat and less than half as steep.</summary>
    private readonly bool IsAfterwave()
    {
        if (_lastBeat256 == Nothing)
        {
            return false;
        }

        long since = (_locator.Position256 - _lastBeat256) >> 8;
        return since < _windows.Hold || (since < _windows.TWave && _locator.Slope < _lastSlope >> 1);
    }

    /// <summary>No beat for long: the highest hump since the last one counts if it passes half the threshold.</summary>
    private bool LookBack()
    {
        _lookBackAfter = _sinceBeat + (_meanRr >> 1);
        if (_missedHeight <= _levels.LookBackThreshold)
        {
            return false;
        }

        Emit(_missed256, _missedDeviation, _missedSlope, _missedHeight, 64);
        return true;
    }

    private void Emit(long position256, int deviation, int slope, int height, byte quality)
    {
        if (_hasRunBeat)
        {
            AddRr((int)((position256 - _lastBeat256) >> 8));
        }

        long place = (position256 * _windows.Decimation) + ((_windows.Decimation - 1) * 128) + (_base * 256);
        _event = new BeatEvent(
            SamplePosition.From256(place), _windows.Decimation == 2 ? Shift.Round(deviation, 1) : deviation, quality, !_hasRunBeat, NextIndex - 1);
        _hasRunBeat = true;
        _lastBeat256 = position256;
        _lastSlope = slope;
        _sinceBeat = (int)(_now - 1 - (position256 >> 8));

        // Overdue: 1 5/8 mean intervals, plus the time a hump needs to be decided.
        _lookBackAfter = _meanRr == 0 ? int.MaxValue : _meanRr + (_meanRr >> 1) + (_meanRr >> 3) + _windows.Delay + _windows.Hold;
        _missedHeight = 0;
        _levels.AddSignal(height);
    }

    private void AddRr(int rr)
    {
        _rr[_rrCount & (MaximumRrCount - 1)] = rr;
        _rrCount = _rrCount == (2 * MaximumRrCount) - 1 ? MaximumRrCount : _rrCount + 1;
        int count = _rrCount < MaximumRrCount ? _rrCount : MaximumRrCount;
        int sum = 0;
        for (int i = 0; i < count; i++)
        {
            sum += _rr[i];
        }

        // The mean of eight by a shift; fewer only at the start. Once per beat.
        _meanRr = count == MaximumRrCount ? sum >> 3 : sum / count;
    }
}
