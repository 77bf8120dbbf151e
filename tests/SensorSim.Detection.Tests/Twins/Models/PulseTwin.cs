// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The pulse detector in doubles: the same fits, lengths and places, none of its words; of its thresholds the plain ones.</summary>
internal sealed class PulseTwin
{
    private readonly PulseWindows _w;
    private readonly double[] _x;
    private readonly double[] _slopes;
    private readonly FootTwin _locator;
    private readonly double[] _levels = new double[8];
    private readonly List<(double Steepest, double Foot)> _found = [];
    private double _signal;
    private int _levelAt;
    private int _sincePulse;
    private double _interval;
    private double _rise;

    private PulseTwin(double[] codes, int rateHz, int polarity, in TwinWords words)
    {
        _w = PulseWindows.ForRate(rateHz);
        _x = EcgFrontTwin.Working([.. codes.Select(c => -polarity * c)], _w.Decimation, words);
        _slopes = Slopes(_x, _w, words);
        TwinWords kept = words;
        _locator = new FootTwin(_x, _w, [.. Enumerable.Range(0, CubicFits.Length).Select(i => new CubicFitTwin(_w.Arm(i), kept))]);
    }

    /// <summary>Slope of the straight line through the last 2m + 1 working samples, times Σk².</summary>
    public static double[] Slopes(double[] x, in PulseWindows w, in TwinWords words)
    {
        int m = w.WatchArm;
        double gain = w.Decimation * m * (m + 1);
        var slopes = new double[x.Length];
        for (int i = 0; i < x.Length; i++)
        {
            double sum = 0;
            for (int k = -m; k <= m; k++)
            {
                sum += k * x[Math.Max(0, i - m + k)];
            }

            slopes[i] = words.State(sum, gain);
        }

        return slopes;
    }

    /// <summary>Times of the feet [s].</summary>
    public static double[] Feet(double[] codes, int rateHz, int polarity = 1, in TwinWords words = default)
    {
        var twin = new PulseTwin(codes, rateHz, polarity, words);
        twin.Run();
        double dec = twin._w.Decimation;
        return [.. twin._found.Select(p => ((p.Foot * dec) + ((dec - 1) / 2)) / rateHz)];
    }

    private void Run()
    {
        var blocks = new Queue<double>();
        double block = 0;
        double steepest = 0;
        int since = 0;
        int age = 0;
        bool isRising = false;
        for (int now = 0; now < _slopes.Length; now++)
        {
            double slope = _slopes[now];
            _sincePulse++;
            block = Math.Max(block, slope);
            if ((now + 1) % _w.LearningBlock == 0)
            {
                blocks.Enqueue(block);
                block = 0;
                if (blocks.Count > 4)
                {
                    blocks.Dequeue();
                }

                if (blocks.Count == 4 && (_signal == 0 || _sincePulse > _w.Silence) && blocks.Max() > 0)
                {
                    _signal = blocks.Max();
                    Array.Fill(_levels, _signal);
                }
            }

            if (_signal == 0)
            {
                continue;
            }

            bool isOverdue = _found.Count > 0 && _sincePulse > 1.5 * _interval;
            if (!isRising)
            {
                if (slope <= _signal * (isOverdue ? 5 / 32.0 : 5 / 16.0))
                {
                    continue;
                }

                (isRising, age, steepest) = (true, 0, 0);
            }

            (steepest, since) = slope > steepest ? (slope, 0) : (steepest, since + 1);
            if (slope > 0 && ++age < _w.LongestRise)
            {
                continue;
            }

            isRising = false;
            Decide(now, steepest, since);
        }
    }

    private void Decide(int now, double steepest, int sinceSteepest)
    {
        int middle = now - _w.WatchArm - sinceSteepest;
        int since = _sincePulse - _w.WatchArm - sinceSteepest;
        bool hasPulse = _found.Count > 0;
        if (steepest > 4 * _signal || (hasPulse && since < _w.Refractory) || middle < _w.MinimumReach)
        {
            return;
        }

        // Rise times are kept in sixteenths of a working sample.
        int rise16 = (int)Math.Round(_rise * 16);
        int choice = _w.FitFor(rise16);
        int reach = hasPulse ? Math.Min(since, _w.ReachFor(rise16)) : _w.ReachFor(rise16);
        if (_locator.Locate(middle, choice, reach) is not FootPlace place)
        {
            return;
        }

        double past = _slopes[now - 1] / (_slopes[now - 1] - Math.Min(0, _slopes[now]));
        double top = now - 1 - _w.WatchArm + past;
        top = _locator.Fullest((int)Math.Floor(top + 0.5), choice, _w.WatchArm) ?? top;
        double rise = (_x[(int)Math.Floor(top + 0.5)] - place.Minimum) / place.ShortSlope;
        _rise = _rise == 0 ? rise : _rise + ((rise - _rise) / 4);

        _interval = !hasPulse ? _w.Silence / 4.0 : _interval + ((since - _interval) / 4);
        _found.Add((place.Steepest, place.Foot));
        _sincePulse = now + 1 - middle;
        _levels[_levelAt++ & 7] = steepest;
        _signal = _levels.Median();
    }
}
