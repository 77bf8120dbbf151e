// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The last eight RR intervals [working samples], in doubles.</summary>
internal sealed class BeatRhythmTwin
{
    private readonly double[] _rr = new double[8];
    private int _taken;

    public int Count => Math.Min(8, _taken);

    public double Mean => _taken == 0 ? 0 : _rr.Mean();

    public double Median => _taken == 0 ? 0 : _rr.Median();

    public bool IsRegular => Count == 8 && _rr.Count(IsUsual) >= 6;

    public void Add(double rr)
    {
        if (_taken == 0)
        {
            Array.Fill(_rr, rr);
        }

        _rr[_taken++ & 7] = rr;
    }

    public bool IsUsual(double rr) => Math.Abs(rr - Median) <= Median / 8;

    public bool IsLong(double rr) => _taken > 0 && rr > 1.375 * Median;
}
