// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The beat detector in doubles: the same lengths and rules, none of its words.</summary>
internal sealed class BeatTwin
{
    private readonly BeatWindows _w;
    private readonly double[] _energy;
    private readonly BeatLevelsTwin _levels = new();
    private readonly BeatLocatorTwin _locator;
    private readonly List<double> _peaks = [];
    private readonly List<double> _rr = [];
    private int _now;
    private double _last = double.NaN;
    private double _lastSlope;
    private int _sinceBeat;
    private double _lookBackAfter = double.PositiveInfinity;
    private double _missedHeight;
    private BeatPlace _missed;

    private BeatTwin(double[] codes, int rateHz, in TwinWords words)
    {
        _w = BeatWindows.ForRate(rateHz);
        double[] working = EcgFrontTwin.Working(codes, _w.Decimation, words);
        _energy = EcgFrontTwin.Energy(EcgFrontTwin.BandPass(working, _w, words), _w, words);
        _locator = new BeatLocatorTwin(working, _w);
    }

    /// <summary>Times of the R peaks [s].</summary>
    public static double[] Peaks(double[] codes, int rateHz, in TwinWords words = default)
    {
        var twin = new BeatTwin(codes, rateHz, words);
        twin.Run();
        double dec = twin._w.Decimation;
        return [.. twin._peaks.Select(p => ((p * dec) + ((dec - 1) / 2)) / rateHz)];
    }

    private void Run()
    {
        var learning = new BeatLearningTwin(_w.LearningBlock);
        double lowest = 0;
        double height = 0;
        int age = 0;
        bool isRising = false;
        for (; _now < _energy.Length; _now++)
        {
            double value = _energy[_now];
            _sinceBeat++;
            if (learning.Next(value) && (!_levels.IsLearned || _sinceBeat > _w.Silence) && learning.HasBeats)
            {
                _levels.Learn(learning.Highest, learning.Mean);
                _missedHeight = 0;
            }

            bool isComplete = false;
            if (!isRising)
            {
                isRising = value > lowest && value - lowest > lowest / 8;
                lowest = Math.Min(lowest, value);
                (height, age) = (value, 0);
            }
            else if (value > height)
            {
                (height, age) = (value, 0);
            }
            else if (++age >= _w.Hold)
            {
                (isComplete, isRising, lowest) = (true, false, value);
            }

            if (!(isComplete && Decide(height, age)) && _sinceBeat > _lookBackAfter)
            {
                LookBack();
            }
        }

        if (isRising && age >= _w.Integration >> 1)
        {
            _now--;
            Decide(height, age);
        }
    }

    private bool Decide(double height, int age)
    {
        int middle = _now - age - _w.Delay;
        if (!_levels.IsLearned || middle < _w.Integration)
        {
            return false;
        }

        if (height <= _levels.LookBackThreshold)
        {
            _levels.AddNoise(height);
            return false;
        }

        BeatPlace place = _locator.Locate(middle, _now);
        double since = place.Position - _last;
        if (since < _w.Hold || (since < _w.TWave && place.Slope < _lastSlope / 2))
        {
            _levels.AddNoise(height);
            return false;
        }

        if (height > _levels.Threshold)
        {
            Emit(place, height);
            return true;
        }

        _levels.AddNoise(height);
        if (height > _missedHeight)
        {
            (_missedHeight, _missed) = (height, place);
        }

        return false;
    }

    private void LookBack()
    {
        _lookBackAfter = _sinceBeat + (MeanRr / 2);
        if (_missedHeight > _levels.LookBackThreshold)
        {
            Emit(_missed, _missedHeight);
        }
    }

    private double MeanRr => _rr.Count == 0 ? 0 : _rr.TakeLast(8).Average();

    private void Emit(BeatPlace place, double height)
    {
        if (!double.IsNaN(_last))
        {
            _rr.Add(place.Position - _last);
        }

        _peaks.Add(place.Position);
        (_last, _lastSlope) = (place.Position, place.Slope);
        _sinceBeat = _now - (int)place.Position;
        _lookBackAfter = _rr.Count == 0 ? double.PositiveInfinity : (MeanRr * 1.625) + _w.Delay + _w.Hold;
        _missedHeight = 0;
        _levels.AddSignal(height);
    }
}
