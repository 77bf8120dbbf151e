// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>How far what looks strange may be believed: +24 for it inside a usual interval, +4 if low, −4 for a pause after it, −1 for quiet.</summary>
internal sealed class BeatDoubtTwin
{
    private double _last = double.NaN;
    private int _strange;
    private int _dropped;
    private int _low;
    private int _kin;
    private int _trust;

    public int Value { get; private set; }

    /// <summary>What it would be had only those raised it that were high enough for a beat.</summary>
    public int OfHigh { get; private set; }

    public bool IsHigh => Value >= 8;

    public bool IsKinTrusted => _trust > 0 || !IsHigh;

    public void Forget() => (Value, OfHigh) = (0, 0);

    public void AddDropped() => _dropped++;

    public void AddLow() => _low++;

    public void AddStrange() => _strange++;

    public void AddKin() => _kin++;

    /// <summary>A usual beat at a place [working samples]: weighs what came since the one before.</summary>
    public void Weigh(double position, BeatRhythmTwin rhythm, bool isLearning)
    {
        if (!double.IsNaN(_last) && !isLearning)
        {
            double rr = position - _last;
            bool isLong = rhythm.IsLong(rr);
            _trust = _kin == 0 ? _trust : Math.Clamp(_trust + (isLong ? 1 : -2), -4, 4);
            int change = Change(isLong, rhythm.Count == 8 && rr <= 1.125 * rhythm.Median);
            Value = Math.Clamp(Value + change, 0, 64);
            OfHigh = Math.Clamp(OfHigh + (change == 4 ? 0 : change), 0, 64);
        }

        (_strange, _dropped, _low, _kin) = (0, 0, 0, 0);
        _last = position;
    }

    private int Change(bool isLong, bool isFull)
    {
        if (_strange + _dropped + _low == 0)
        {
            return -1;
        }

        if (isLong)
        {
            return -4;
        }

        return _dropped > 0 || (_strange > 0 && isFull) ? 24 : _low > 0 ? 4 : 0;
    }
}
