// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The beat detector in doubles: the same lengths and rules, none of its words. Streams without gaps or pacing spikes.</summary>
internal sealed class BeatTwin
{
    private readonly BeatWindows _w;
    private readonly double[] _energy;
    private readonly BeatLevelsTwin _levels = new();
    private readonly BeatLocatorTwin _locator;
    private readonly BeatShapeTwin _shape;
    private readonly BeatJudgeTwin _judge;
    private int _now;
    private int _told;
    private int _sinceBeat;

    private BeatTwin(double[] codes, int rateHz, in TwinWords words)
    {
        _w = BeatWindows.ForRate(rateHz);
        double[] working = EcgFrontTwin.Working(codes, _w.Decimation, words);
        _energy = EcgFrontTwin.Energy(EcgFrontTwin.BandPass(working, _w, words), _w, words);
        _locator = new BeatLocatorTwin(working, _w);
        _shape = new BeatShapeTwin(working, _w);
        _judge = new BeatJudgeTwin(_w, _levels);
    }

    /// <summary>Times of the R peaks [s].</summary>
    public static double[] Peaks(double[] codes, int rateHz, in TwinWords words = default) => [.. Beats(codes, rateHz, words).Select(b => b.TimeS)];

    /// <summary>The beats with all that was known of them, and the times of their R peaks [s].</summary>
    public static (double TimeS, BeatCandidateTwin Beat)[] Beats(double[] codes, int rateHz, in TwinWords words = default)
    {
        var twin = new BeatTwin(codes, rateHz, words);
        twin.Run();
        double dec = twin._w.Decimation;
        return [.. twin._judge.Beats.Select(b => (((b.Position * dec) + ((dec - 1) / 2)) / rateHz, b))];
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
            if (learning.Next(value))
            {
                Learn(learning);
            }

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
                (isRising, lowest) = (false, value);
                Decide(height, age);
            }

            _judge.Pass(_now);
            if (_judge.Beats.Count > _told)
            {
                _told = _judge.Beats.Count;
                _sinceBeat = _now - (int)_judge.Beats[^1].Position;
            }
        }
    }

    // At first, and when the heart may have become smaller to see: what is smaller than a twelfth is given 9 s.
    private void Learn(BeatLearningTwin learning)
    {
        bool isSilent = _sinceBeat > _w.Silence && (_sinceBeat > 3 * _w.Silence || (learning.HasBeats && learning.Highest > _levels.Signal / 12));
        if ((!_levels.IsLearned || isSilent) && learning.HasBeats)
        {
            _levels.Learn(learning.Highest, learning.Mean);
            _judge.Forget();
        }
    }

    private void Decide(double height, int age)
    {
        int middle = _now - age - _w.Delay;
        if (!_levels.IsLearned || middle < _w.Edge)
        {
            return;
        }

        if (height <= _levels.LookBackThreshold)
        {
            _levels.AddNoise(height);
            return;
        }

        _judge.Add(_judge.Memory.Look(_shape, _locator, middle, _now, height));
    }
}
