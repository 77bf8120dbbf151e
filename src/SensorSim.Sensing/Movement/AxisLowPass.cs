// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Movement;

/// <summary>The one-pole low-pass of an axis: 1 / (1 + j f / bandwidth) on the acceleration as it is between the samples too.</summary>
/// <remarks>
/// The exact response to the cubic through four neighbouring samples, the one after included. It starts settled on the first sample.
/// Exact for slow movement; a line at a tenth of the rate is 0.2 % too small, at a fifth 4 %.
/// </remarks>
internal sealed class AxisLowPass
{
    private const double Negligible = 1e-30;

    private readonly CubicLowPass _weights;
    private double _x2;
    private double _x1;
    private double _y;
    private bool _isRunning;

    /// <summary>Creates a low-pass.</summary>
    /// <param name="bandwidthHz">Where it is 3 dB down [Hz], above 0.</param>
    /// <param name="grid">Sampling instants.</param>
    public AxisLowPass(double bandwidthHz, SampleGrid grid)
    {
        _weights = new CubicLowPass(bandwidthHz, grid.StepSeconds);
    }

    /// <summary>Filters samples in place.</summary>
    /// <param name="samples">Consecutive samples.</param>
    /// <param name="next">The sample after them.</param>
    public void Apply(Span<double> samples, double next)
    {
        if (samples.Length == 0)
        {
            return;
        }

        int i = 0;
        if (!_isRunning)
        {
            _isRunning = true;
            _x2 = _x1 = _y = samples[0];
            i = 1;
        }

        CubicLowPass w = _weights;
        double x2 = _x2;
        double x1 = _x1;
        double y = _y;
        for (; i < samples.Length; i++)
        {
            double x = samples[i];
            double after = i + 1 < samples.Length ? samples[i + 1] : next;
            y = (w.Keep * y) + (((w.Before * x2) + (w.From * x1)) + ((w.To * x) + (w.After * after)));
            y = Math.Abs(y) < Negligible ? 0 : y;
            samples[i] = y;
            x2 = x1;
            x1 = x;
        }

        _x2 = x2;
        _x1 = x1;
        _y = y;
    }

    /// <summary>An independent copy with the same state.</summary>
    public AxisLowPass Copy() => (AxisLowPass)MemberwiseClone();
}
