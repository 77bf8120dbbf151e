// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>One window of the twin.</summary>
/// <param name="Sample">Sample of the light with which it was complete.</param>
/// <param name="Bpm">Heart rate [bpm].</param>
/// <param name="Margin">By how much it is ahead [256 log2].</param>
internal readonly record struct SpectrumWindow(int Sample, double Bpm, double Margin)
{
    /// <summary>Whether the rate may be shown.</summary>
    public bool IsTrusted => Margin > 350;
}

/// <summary>Heart rate from the spectrum of the light in doubles, from the equations of docs/detection-movement.md.</summary>
internal sealed class PulseSpectrumTwin
{
    private const int HighestOfUse = 110;
    private readonly SpectrumWords _words;
    private readonly RateTrackTwin _track;
    private readonly Queue<double> _light = new();
    private readonly Queue<double> _artefact = new();
    private readonly int _decimation;
    private readonly double _rateHz;
    private readonly int _length;
    private readonly int _hop;
    private readonly int _firstBin;
    private readonly int _states;
    private double _lightSum;
    private double _artefactSum;
    private double _level = double.NaN;
    private double _unexplained = 1;
    private int _taken;
    private int _since;

    public PulseSpectrumTwin(int lightRateHz, in SpectrumWords words = default)
    {
        _words = words;
        _decimation = (int)Math.Round(lightRateHz / 12.5, MidpointRounding.AwayFromZero);
        _rateHz = (double)lightRateHz / _decimation;
        _length = Math.Min(104, (int)(8 * _rateHz));
        _hop = (int)Math.Round(2 * _rateHz);
        _firstBin = BinOf(28);
        _states = Math.Min(80, BinOf(222) - _firstBin + 1);
        _track = new RateTrackTwin(_states);
        for (int i = 0; i < _length; i++)
        {
            _light.Enqueue(0);
            _artefact.Enqueue(0);
        }
    }

    /// <summary>Every input of the transform so far.</summary>
    public List<double> Inputs { get; } = [];

    /// <summary>All windows of a light and what the canceller took off it.</summary>
    public static List<SpectrumWindow> Run(double[] light, double[] artefact, int rateHz, in SpectrumWords words = default)
    {
        var twin = new PulseSpectrumTwin(rateHz, words);
        var windows = new List<SpectrumWindow>();
        for (int i = 0; i < light.Length; i++)
        {
            if (twin.Next(light[i], artefact[i]) is (double bpm, double margin))
            {
                windows.Add(new SpectrumWindow(i, bpm, margin));
            }
        }

        return windows;
    }

    /// <summary>Takes the next sample of the light.</summary>
    public (double Bpm, double Margin)? Next(double light, double artefact)
    {
        _lightSum += light;
        _artefactSum += artefact;
        if (++_taken % _decimation != 0)
        {
            return null;
        }

        _level = double.IsNaN(_level) ? _lightSum : _level;
        double high = _lightSum - _level;
        _level += high / 8;
        Inputs.Add(high);
        Hold(_light, high);
        Hold(_artefact, _artefactSum);
        (_lightSum, _artefactSum) = (0, 0);
        if (++_since < _hop || Inputs.Count < _length)
        {
            return null;
        }

        _since = 0;
        return Window();
    }

    private static void Hold(Queue<double> held, double value)
    {
        held.Dequeue();
        held.Enqueue(value);
    }

    private int BinOf(double bpm) => (int)(bpm * FourierTwin.Length / (60 * _rateHz));

    private (double Bpm, double Margin) Window()
    {
        var spectra = new SpectrumPairTwin([.. _light], [.. _artefact], _words);
        spectra.Spread();
        Compare(spectra.Light, spectra.Artefact);
        _track.Add(Evidence(spectra.Light, spectra.Artefact));
        double bin = PeakNear(spectra.Light, _firstBin + _track.Best);
        return (bin * 60 * _rateHz / FourierTwin.Length, _track.Margin);
    }

    // u: regression of what is left on what was taken off, at bins where the pulse is not; held where less than 1/32 of the artefact lies there.
    private void Compare(double[] light, double[] artefact)
    {
        int bin = _firstBin + _track.Best;
        int[] all = [.. Enumerable.Range(_firstBin, HighestOfUse - _firstBin)];
        int[] free = [.. all.Where(k => Math.Abs(k - bin) > 4 && Math.Abs(k - (2 * bin)) > 4)];
        double freePower = free.Sum(k => artefact[k] * artefact[k]);
        if (freePower > all.Sum(k => artefact[k] * artefact[k]) / 32)
        {
            double now = Math.Min(8, free.Sum(k => light[k] * artefact[k]) / freePower);
            _unexplained += (now - _unexplained) / 4;
        }
    }

    private double[] Evidence(double[] light, double[] artefact)
    {
        double floor = light.Skip(_firstBin).Take(_states).Average() / 4;
        double Excess(double power, double taken) => floor == 0 ? 0 : 256 * (Math.Log2(power + floor) - Math.Log2(floor + (taken * _unexplained)));
        var evidence = new double[_states];
        for (int s = 0; s < _states; s++)
        {
            int k = _firstBin + s;
            evidence[s] = Excess(light[k], artefact[k]);
            if (2 * k < light.Length - 1)
            {
                double power = Math.Max(light[2 * k], Math.Max(light[(2 * k) - 1], light[(2 * k) + 1]));
                evidence[s] += Math.Clamp(Excess(power, artefact[2 * k]), 0, 4 * 256);
            }
        }

        return evidence;
    }

    // Centre of power of the peak next to a bin.
    private static double PeakNear(double[] light, int bin)
    {
        int top = light[bin - 1] > light[bin] ? bin - 1 : bin;
        top = light[bin + 1] > light[top] ? bin + 1 : top;
        double power = Enumerable.Range(-2, 5).Sum(o => light[top + o]);
        return power == 0 ? top : top + (Enumerable.Range(-2, 5).Sum(o => light[top + o] * o) / power);
    }
}
