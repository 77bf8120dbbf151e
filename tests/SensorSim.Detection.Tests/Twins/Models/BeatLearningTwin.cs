// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Highest value and mean of the last four blocks, in doubles.</summary>
internal sealed class BeatLearningTwin(int blockLength)
{
    private readonly Queue<(double Highest, double Mean)> _blocks = new();
    private double _highest;
    private double _sum;
    private int _taken;
    private int _waited;

    public double Highest => _blocks.Max(b => b.Highest);

    public double Mean => _blocks.Average(b => b.Mean);

    public bool HasBeats => _blocks.Count == 4 && (Highest > 2.5 * Mean || (_waited >= 8 && Highest > 2.25 * Mean));

    public bool Next(double value)
    {
        _highest = Math.Max(_highest, value);
        _sum += value;
        if (++_taken < blockLength)
        {
            return false;
        }

        _blocks.Enqueue((_highest, _sum / blockLength));
        if (_blocks.Count > 4)
        {
            _blocks.Dequeue();
        }

        _waited++;
        (_highest, _sum, _taken) = (0, 0, 0);
        return true;
    }
}
