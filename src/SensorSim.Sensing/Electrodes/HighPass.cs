// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>An analog one-pole high-pass s/(s + a), a = 2π × corner: its exact response to a line between each two samples.</summary>
/// <remarks>
/// y(n) = e^(−aT)·y(n − 1) + (x(n) − x(n − 1))·(1 − e^(−aT))/(aT). Sines up to 0.4 of the rate come out with the gain of s/(s + a) within
/// 3e-4 as long as the corner is at most 0.02 of the rate.
/// </remarks>
internal struct HighPass
{
    private const double Nothing = 1e-30;

    private readonly double _keep;
    private readonly double _gain;
    private double _in;
    private double _out;

    /// <summary>Creates the filter.</summary>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="stepSeconds">Time between samples [s].</param>
    public HighPass(double cornerHz, double stepSeconds)
    {
        double turn = 2 * Math.PI * cornerHz * stepSeconds;
        _keep = PortableMath.Exp(-turn);
        _gain = (1 - _keep) / turn;
    }

    /// <summary>Begins as if the input had been steady for long.</summary>
    /// <param name="first">First sample.</param>
    /// <param name="steady">What the input was before.</param>
    public void Settle(double first, double steady)
    {
        _in = first;
        _out = (first - steady) / _keep;
    }

    /// <summary>Filters samples in place.</summary>
    public void Run(Span<double> buffer)
    {
        double keep = _keep;
        double gain = _gain;
        double before = _in;
        double now = _out;
        for (int i = 0; i < buffer.Length; i++)
        {
            double x = buffer[i];
            now = (keep * now) + (gain * (x - before));
            if (Math.Abs(now) < Nothing)
            {
                now = 0;
            }

            before = x;
            buffer[i] = now;
        }

        _in = before;
        _out = now;
    }
}
