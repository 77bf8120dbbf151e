// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Control;

/// <summary>Saves light while the accelerometer sees no movement: lower rate at rest, off with looks in sleep, full rate with movement.</summary>
/// <remarks>
/// A second is still when the codes of each axis lie close together, and moves when those of one lie further apart than a larger
/// limit or an axis has no sample: what is not seen is not still. Between the limits a state is kept; from full rate only still seconds
/// without a break lead to rest. So a state lasts as long as its seconds say, whatever the movement: no hunting.
/// Input: codes of up to 24 bits of up to three axes of one rate.
/// Product: none.
/// Accumulator: none; lowest and highest code, compared for each sample.
/// Worst case: spread 2^25.
/// Output: at most one request a second.
/// </remarks>
public struct PowerController
{
    private const int Axes = 3;
    private const int LostSeconds = 3;
    private Words3 _lowest;
    private Words3 _highest;
    private ControlRequest _request;
    private int _second;
    private int _stillCodes;
    private int _movingCodes;
    private ushort _rateHz;
    private ushort _still;
    private ushort _timer;
    private ushort _decimation;
    private byte _axes;
    private byte _seen;
    private bool _isAsleep;
    private bool _isLooking;

    /// <summary>The request of the call that gave true.</summary>
    public readonly ControlRequest Request => _request;

    /// <summary>Whether the light sleeps, looks included.</summary>
    public readonly bool IsAsleep => _isAsleep;

    /// <summary>Starts anew, awake and at full rate.</summary>
    /// <param name="rateHz">Rate of the axes [Hz], 1 to 65,535.</param>
    /// <param name="axes">Which of the three axes there are: bits 0 to 2; none: nothing is ever asked for.</param>
    /// <param name="stillCodes">Largest spread of an axis within a still second [codes].</param>
    /// <param name="movingCodes">Spread beyond which a second moves [codes], not below the other.</param>
    public void Start(int rateHz, int axes, int stillCodes, int movingCodes)
    {
        this = default;
        _rateHz = (ushort)rateHz;
        _axes = (byte)axes;
        _stillCodes = stillCodes;
        _movingCodes = movingCodes < stillCodes ? stillCodes : movingCodes;
        _decimation = 1;
    }

    /// <summary>Takes the next sample of an axis.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="axis">0 to 2.</param>
    /// <param name="code">Its code.</param>
    /// <param name="index">Its index, not falling.</param>
    /// <returns>Whether there is a <see cref="Request"/>.</returns>
    public bool Next(in PowerSettings settings, int axis, int code, long index)
    {
        int bit = 1 << axis;
        if ((_axes & bit) == 0)
        {
            return false;
        }

        bool isAsked = index >= (_second + 1L) * _rateHz && Close(settings, index);
        bool isFirst = (_seen & bit) == 0;
        _lowest[axis] = isFirst || code < _lowest[axis] ? code : _lowest[axis];
        _highest[axis] = isFirst || code > _highest[axis] ? code : _highest[axis];
        _seen |= (byte)bit;
        return isAsked;
    }

    /// <summary>Says how late it is, so that an accelerometer that falls silent wakes the light. Call it every now and then.</summary>
    /// <param name="settings">Settings.</param>
    /// <param name="second">Whole seconds since sample 0.</param>
    /// <returns>Whether there is a <see cref="Request"/>.</returns>
    public bool PassTime(in PowerSettings settings, long second) =>
        _axes != 0 && second > _second + LostSeconds && Close(settings, second * _rateHz);

    private bool Close(in PowerSettings settings, long index)
    {
        int second = (int)(index / _rateHz);
        bool isStill = second == _second + 1 && _seen == _axes;
        bool isMoving = !isStill;
        for (int i = 0; i < Axes; i++)
        {
            long spread = (_seen & (1 << i)) == 0 ? 0 : (long)_highest[i] - _lowest[i];
            isStill &= spread <= _stillCodes;
            isMoving |= spread > _movingCodes;
        }

        _second = second;
        _seen = 0;
        return Judge(settings, isStill, isMoving);
    }

    private bool Judge(in PowerSettings settings, bool isStill, bool isMoving)
    {
        bool isResting = _still >= settings.RestSeconds;
        _still = (ushort)(isMoving ? 0 : isStill ? (_still < ushort.MaxValue ? _still + 1 : _still) : isResting ? _still : 0);
        bool wasAsleep = _isAsleep;
        _isAsleep = !isMoving && (wasAsleep || _still >= settings.SleepSeconds);
        bool mayLook = _isAsleep && wasAsleep && settings.LookEverySeconds > 0;
        _timer = (ushort)(mayLook ? _timer + 1 : 0);
        _isLooking &= mayLook;
        if (mayLook && _timer >= (_isLooking ? settings.LookSeconds : settings.LookEverySeconds))
        {
            _isLooking = !_isLooking;
            _timer = 0;
        }

        int wanted = _isLooking ? 1
            : _isAsleep ? settings.SleepDecimation
            : _still >= settings.RestSeconds ? settings.RestDecimation : 1;
        if (wanted == _decimation)
        {
            return false;
        }

        _decimation = (ushort)wanted;
        _request = new ControlRequest(ControlRole.AllLight, ControlSetting.Decimation, wanted * 1000);
        return true;
    }

    [InlineArray(Axes)]
    private struct Words3
    {
        private int _first;
    }
}
