// SPDX-License-Identifier: MIT
using MathNet.Numerics.Statistics;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What stands out among the last eight intervals and heights, in seconds and true octaves.</summary>
internal sealed class EvidenceTwin
{
    private const double HeightReach = 3 / 8.0;
    private const double IntervalReach = 3 / 16.0;
    private readonly Queue<double> _intervals = new();
    private readonly Queue<(double Octaves, bool IsUp)> _heights = new();
    private double _lastS = double.NaN;

    /// <summary>How many intervals are off the median by more than 3/16.</summary>
    public int IntervalFaults { get; private set; }

    /// <summary>How many heights are off the median by more than 3/8 octave, or of the other sign.</summary>
    public int HeightFaults { get; private set; }

    /// <summary>How far the latest height is off [octaves]; infinite when of the other sign.</summary>
    public double HeightOff { get; private set; }

    /// <summary>How near any interval lies to the bound, share of the median.</summary>
    public double IntervalMargin { get; private set; }

    /// <summary>How near any height lies to the bound [octaves].</summary>
    public double HeightMargin { get; private set; }

    /// <summary>Takes a beat.</summary>
    public void Add(double seconds, int height)
    {
        if (!double.IsNaN(_lastS))
        {
            Push(_intervals, seconds - _lastS);
        }

        _lastS = seconds;
        Push(_heights, (Math.Log2(Math.Abs(height)), height > 0));
        double typical = _heights.Select(h => h.Octaves).Median();
        bool isUp = 2 * _heights.Count(h => h.IsUp) >= _heights.Count;
        double[] off = [.. _heights.Select(h => h.IsUp == isUp ? Math.Abs(h.Octaves - typical) : double.PositiveInfinity)];
        HeightFaults = off.Count(o => o > HeightReach);
        HeightMargin = off.Min(o => Math.Abs(o - HeightReach));
        HeightOff = off[^1];
        if (_intervals.Count == 0)
        {
            return;
        }

        double median = _intervals.Median();
        double[] share = [.. _intervals.Select(i => Math.Abs((i / median) - 1))];
        IntervalFaults = share.Count(s => s > IntervalReach);
        IntervalMargin = share.Min(s => Math.Abs(s - IntervalReach));
    }

    private static void Push<T>(Queue<T> queue, T value)
    {
        queue.Enqueue(value);
        if (queue.Count > 8)
        {
            queue.Dequeue();
        }
    }
}
