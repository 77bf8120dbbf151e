// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <summary>Finds pulses in a stream of optical codes. A value of fixed size: an assignment copies the whole state.</summary>
/// <remarks>
/// Input: codes of up to 24 bits, received light: they fall when the vessel fills.
/// Product: see the stages: watch slope, upstroke finder, levels, foot locator.
/// Accumulator: 32 bits throughout; 64 bits only for sample indices.
/// Worst case: see the stages.
/// Output: events with places in 1/256 sample, at most one a sample.
/// </remarks>
public struct PulseDetector
{
    private const int Mask = Word256.Length - 1;

    private PulseWindows _windows;
    private WatchSlope _slope;
    private UpstrokeFinder _upstroke;
    private PulseLevels _levels;
    private PulseLearning _learning;
    private FootLocator _locator;
    private Word256 _filling;

    private long _base;
    private long _now;
    private int _pairSum;
    private int _phase;
    private int _sign;
    private bool _isFresh;
    private bool _hasPulse;
    private int _sincePulse;
    private int _interval;
    private PulseEvent _event;

    /// <summary>Index of the sample that comes next.</summary>
    public readonly long NextIndex => _base + (_now * _windows.Decimation) + _phase;

    /// <summary>The latest pulse; meaningful after a call that said there is one.</summary>
    public readonly PulseEvent Event => _event;

    /// <summary>Prepares for a stream and drops all state.</summary>
    /// <param name="rateHz">Sampling rate [Hz], 25 to 500.</param>
    /// <param name="polarity">+1 when more light raises the code, −1 when it lowers it.</param>
    /// <returns>Whether the arguments are allowed.</returns>
    public bool Start(int rateHz, int polarity)
    {
        if (rateHz < PulseWindows.MinimumRateHz || rateHz > PulseWindows.MaximumRateHz || (polarity != 1 && polarity != -1))
        {
            return false;
        }

        this = default;
        _windows = PulseWindows.ForRate(rateHz);
        _sign = -polarity;
        _locator.Restart(_windows);
        Restart(0);
        return true;
    }

    /// <summary>The next sample has this index: after a gap, or after samples that cannot be used. The level stays.</summary>
    /// <param name="index">Index of the next sample.</param>
    public void Restart(long index)
    {
        _base = index;
        _now = 0;
        _phase = 0;
        _pairSum = 0;
        _isFresh = true;
        _hasPulse = false;
        _sincePulse = 0;
        _upstroke.Restart(_windows.LongestRise);
        _learning.Restart();
    }

    /// <summary>Takes samples until a pulse is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new pulse.</param>
    /// <returns>How many samples were taken.</returns>
    public int Take(ReadOnlySpan<int> codes, out bool found)
    {
        NoProbe probe = default;
        return Take(codes, ref probe, out found);
    }

    /// <summary>Takes samples until a pulse is found or none is left.</summary>
    /// <param name="codes">The samples.</param>
    /// <param name="probe">Sees intermediate values.</param>
    /// <param name="found">Whether <see cref="Event"/> holds a new pulse.</param>
    /// <returns>How many samples were taken.</returns>
    public int Take<TProbe>(ReadOnlySpan<int> codes, ref TProbe probe, out bool found)
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

    private bool Next<TProbe>(int code, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (_windows.Decimation > 1)
        {
            _pairSum += code;
            if (++_phase < _windows.Decimation)
            {
                return false;
            }

            code = _pairSum;
            _pairSum = 0;
            _phase = 0;
        }

        int filling = _sign < 0 ? -code : code;
        if (_isFresh)
        {
            Fill(filling);
        }

        int at = (int)_now & Mask;
        int leaving = _filling[(at - (2 * _windows.WatchArm) - 1) & Mask];
        _filling[at] = filling;
        _now++;
        _sincePulse++;
        probe.See(ProbePoint.PulseInput, filling);
        int slope = _slope.Next(filling, leaving);
        probe.See(ProbePoint.PulseSlope, slope);
        probe.See(ProbePoint.PulseThreshold, _levels.Threshold);
        if (_learning.Next(slope, _windows.LearningBlock) && (_levels.Signal == 0 || _sincePulse > _windows.Silence))
        {
            _levels.Learn(_learning.Steepest);
        }

        if (_levels.Signal == 0)
        {
            return false;
        }

        bool isOverdue = _hasPulse && _sincePulse > _interval + (_interval >> 1);
        return _upstroke.Next(slope, isOverdue ? _levels.LowThreshold : _levels.Threshold) && Decide();
    }

    private void Fill(int filling)
    {
        _isFresh = false;
        _slope.Restart(_windows.WatchArm, filling);
        for (int i = 0; i < Word256.Length; i++)
        {
            _filling[i] = filling;
        }
    }

    /// <summary>An upstroke has ended: pulse, or something else.</summary>
    private bool Decide()
    {
        long middle = _now - 1 - _windows.WatchArm - _upstroke.SinceSteepest;
        int since = _sincePulse - _windows.WatchArm - _upstroke.SinceSteepest;
        if (_levels.IsStep(_upstroke.Steepest) || (_hasPulse && since < _windows.Refractory)
            || middle < _windows.MinimumReach)
        {
            return false;
        }

        int reach = _hasPulse && since < _windows.MinimumReach ? since : _windows.MinimumReach;
        if (!_locator.Locate(_windows, _filling, (int)(middle & Mask), reach))
        {
            return false;
        }

        // The line's slope passes zero between the last two watched samples: the systolic peak.
        int before = _upstroke.Before;
        int after = _upstroke.After < 0 ? -_upstroke.After : 0;
        int shift = Shift.Needed(before > after ? before : after, 22);
        before >>= shift;
        after >>= shift;
        int past = before + after == 0 ? 0 : ((before * 256) + ((before + after) >> 1)) / (before + after);
        long systolic256 = ((_now - 2 - _windows.WatchArm) * 256) + past;
        int top = _filling[(int)((systolic256 + 128) >> 8) & Mask];

        byte quality = _upstroke.Steepest >= _levels.Signal >> 1 ? (byte)255 : (byte)128;
        _event = new PulseEvent(
            Place((middle * 256) + _locator.Foot256),
            Place((middle * 256) + _locator.Steepest256),
            Place(systolic256),
            PerSample(top - _locator.Minimum),
            quality,
            NextIndex - 1);
        if (_hasPulse)
        {
            // A slow mean of the intervals: a quarter of each new one.
            _interval = _interval == 0 ? since : _interval + Shift.Round(since - _interval, 2);
        }
        else
        {
            _interval = _interval == 0 ? _windows.Silence >> 2 : _interval;
        }

        _hasPulse = true;
        _sincePulse = (int)(_now - middle);
        _levels.Add(_upstroke.Steepest);
        return true;
    }

    private readonly SamplePosition Place(long position256) =>
        SamplePosition.From256((_base * 256) + (position256 * _windows.Decimation) + ((_windows.Decimation - 1) * 128));

    /// <summary>Mean over the samples that were added up; once per beat.</summary>
    private readonly int PerSample(int sum) => sum / _windows.Decimation;
}
