// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Levels of beats and noise in doubles; medians by the statistics package.</summary>
internal sealed class BeatLevelsTwin
{
    private readonly double[] _signals = new double[8];
    private readonly double[] _noises = new double[8];
    private int _signalAt;
    private int _noiseAt;

    public double Signal { get; private set; }

    public double Noise { get; private set; }

    public double Threshold { get; private set; }

    public double LookBackThreshold { get; private set; }

    public bool IsLearned => Signal > 0;

    public void Learn(double signal, double noise)
    {
        Array.Fill(_signals, signal);
        Array.Fill(_noises, noise);
        Refresh();
    }

    public void AddSignal(double height)
    {
        _signals[_signalAt++ & 7] = Math.Min(height, 3 * Signal);
        Refresh();
    }

    public void AddNoise(double height)
    {
        _noises[_noiseAt++ & 7] = Math.Min(height, Signal);
        Refresh();
    }

    private void Refresh()
    {
        Signal = _signals.Median();
        Noise = _noises.Median();
        double span = Math.Max(0, Signal - Noise);
        Threshold = Noise + Math.Min(Math.Max(5 * span / 16, Noise / 2), 5 * span / 8);
        LookBackThreshold = Math.Max(Threshold / 2, 1.125 * Noise);
    }
}
