// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What the joint gate looks at among the last eight arrival times, in doubles.</summary>
internal sealed class ArrivalTwin
{
    private readonly List<double> _arrivalsUs = [];

    /// <summary>How far the latest is off the median [µs].</summary>
    public double OffUs { get; private set; }

    /// <summary>Mean change from one to the next [µs].</summary>
    public double ChangeUs { get; private set; }

    /// <summary>Takes an arrival time.</summary>
    public void Add(int timeUs)
    {
        _arrivalsUs.Add(timeUs);
        double[] last = [.. _arrivalsUs.TakeLast(8)];
        OffUs = Math.Abs(timeUs - last.Median());
        ChangeUs = last.Length < 2 ? 0 : last.Zip(last.Skip(1), (a, b) => Math.Abs(b - a)).Average();
    }
}
