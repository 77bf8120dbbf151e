// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

// What happens once an upstroke: whether it is a pulse, and where its places are.
public partial struct PulseDetector
{
    /// <summary>An upstroke has ended: pulse, or something else.</summary>
    private bool Decide<TProbe>(ref TProbe probe)
        where TProbe : struct, IProbe
    {
        long middle = _now - 1 - _windows.WatchArm - _upstroke.SinceSteepest;
        int since = _pace.Since - _windows.WatchArm - _upstroke.SinceSteepest;
        if (_levels.IsAfterRefused(_upstroke.Steepest) && RawIndex(middle) - _refusedAt < _windows.Early * _windows.Decimation)
        {
            return false;
        }

        // Where samples are missing there may have been a pulse: what follows may be its diastolic wave.
        bool isEarly = since < _windows.Early || !_pace.HasPulse || HasMarks(middle - _windows.Early, _windows.Early);
        if (isEarly && _pace.HasPulse && !_levels.IsStrong(_upstroke.Steepest))
        {
            _levels.AddRipple(_upstroke.Steepest);
        }

        if (isEarly && _upstroke.Steepest <= _levels.Early)
        {
            return false;
        }

        if (_pace.HasPulse && since < _windows.Refractory)
        {
            return false;
        }

        bool isTooSteep = _upstroke.Steepest > _levels.Limit;
        if (isTooSteep && IsRefused(middle))
        {
            return false;
        }

        // The minimum is not sought before the last pulse; nor beyond a step or the start of the run, and then not at that very edge.
        int reach = _windows.ReachFor(_rise.Usual16);
        reach = _pace.HasPulse && since < reach ? since : reach;
        bool isCut = middle - _clearFrom < reach;
        reach = isCut ? (int)(middle - _clearFrom) : reach;
        int choice = _windows.FitFor(_rise.Usual16);
        if (middle <= _jumpAt || reach < 2 * _windows.Arm(choice)
            || !_locator.Locate(_windows, _filling, (int)(middle & Mask), choice, reach, isCut) || IsMadeUp(middle, choice))
        {
            _pace.Lose();
            return false;
        }

        int height = _filling[(int)(_now - 1 - _windows.WatchArm) & Mask] - _locator.Minimum;
        if (!_rise.IsOfPulse(PulseRise.Of(height, _locator.Slope, _locator.ScaleShift), isTooSteep, _levels.IsPressing))
        {
            _clearFrom = isTooSteep ? middle + _windows.FitArm : _clearFrom;
            return false;
        }

        if (isTooSteep)
        {
            _levels.Believe();
        }

        Tell(middle, choice, ref probe);
        _pace.Add(since, (int)(_now - middle), _windows.FirstInterval);
        _levels.Add(_upstroke.Steepest);
        _learning.Restart(_windows.Afterwards);
        return true;
    }

    /// <summary>An upstroke is too steep; if it is a step, no minimum is sought before its end.</summary>
    private bool IsRefused(long middle)
    {
        long at = RawIndex(middle);
        long apart = at - _refusedAt;
        _refusedAt = at;
        if (_levels.Refuse(_upstroke.Steepest, apart <= _windows.RefusedApart * _windows.Decimation))
        {
            return false;
        }

        _clearFrom = middle + _windows.FitArm;
        return true;
    }

    /// <summary>Whether the sensor did not give the upstroke: from 20 ms before the foot to where the fit at the steepest point ends.</summary>
    private readonly bool IsMadeUp(long middle, int choice)
    {
        int from = Shift.Floor(_locator.Foot256, 8) - _windows.FitArm2;
        int count = Shift.Floor(_locator.Steepest256, 8) + _windows.Arm(choice) + 1 - from;
        return HasMarks(middle + from, count);
    }

    private readonly bool HasMarks(long from, int count) =>
        _marks.IsActive && _marks.CountClear((int)from & Mask, count) < count;

    private void Tell<TProbe>(long middle, int choice, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        // The line's slope passes zero between the last two watched samples: the systolic peak.
        long systolic256 = ((_now - 2 - _windows.WatchArm) * 256) + _upstroke.ZeroCrossing256();
        int fullest = _locator.Fullest256(
            _filling, (int)(middle & Mask), (int)(((systolic256 + 128) >> 8) - middle), choice, _windows.WatchArm);
        systolic256 = fullest == int.MinValue ? systolic256 : (middle * 256) + fullest;
        int top = _filling[(int)((systolic256 + 128) >> 8) & Mask];
        int amplitude = top - _locator.Minimum;

        int steepest = Shift.Round(_locator.Steepest256, 8);
        int curved = CurvatureFoot.Find(
            _filling, (int)(middle + steepest) & Mask, _locator.MinimumBack + steepest + _windows.FitArm, _windows.Arm(choice), _locator.ScaleShift, ref probe);
        SamplePosition second = curved == CurvatureFoot.None ? default : Place(((middle + steepest) * 256) + curved);

        _event = new PulseEvent(
            Place((middle * 256) + _locator.Foot256),
            Place((middle * 256) + _locator.Steepest256),
            Place(systolic256),
            PerSample(amplitude),
            _upstroke.Steepest >= _levels.Signal >> 1 ? (byte)255 : (byte)128,
            NextIndex - 1,
            second,
            _input.LightAt(PerSample(_locator.Minimum)),
            _pace.IsStart);
        _rise.Add(PulseRise.Of(amplitude, _locator.ShortSlope, _locator.ScaleShift));
    }

    private readonly long RawIndex(long working) => _base + (working * _windows.Decimation);

    private readonly SamplePosition Place(long position256) =>
        SamplePosition.From256((_base * 256) + (position256 * _windows.Decimation) + ((_windows.Decimation - 1) * 128));

    /// <summary>Mean over the samples that were added up; once per beat.</summary>
    private readonly int PerSample(int sum) => sum / _windows.Decimation;
}
