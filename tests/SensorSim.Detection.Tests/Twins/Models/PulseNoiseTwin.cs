// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Noise of the watched slope in doubles: mean third differences of blocks, the fourth lowest of eight, times what white noise makes of it.</summary>
internal sealed class PulseNoiseTwin(PulseWindows windows)
{
    private readonly Queue<double> _blocks = new(Enumerable.Repeat(0.0, 8));

    /// <summary>Noise, in the format of the slope.</summary>
    public double Level { get; private set; }

    /// <summary>Takes the four blocks that end with a sample.</summary>
    public void Estimate(double[] x, int at)
    {
        for (int block = 0; block < 4; block++)
        {
            int newest = at - (block * windows.NoiseBlock);
            _blocks.Enqueue(Enumerable.Range(0, windows.NoiseBlock).Average(i => Math.Abs(Third(x, newest - i))));
            _blocks.Dequeue();
        }

        // Third differences 1, −3, 3, −1 have 20 times the power, a magnitude has √(2/π) of the deviation; the slope Σ k x has Σ k² of the power.
        int m = windows.WatchArm;
        double squares = Enumerable.Range(-m, (2 * m) + 1).Sum(k => (double)k * k);
        Level = _blocks.Order().ElementAt(3) * Math.Sqrt(squares / 20 * Math.PI / 2);
    }

    private static double Third(double[] x, int i) => x[i] - (3 * x[i - 1]) + (3 * x[i - 2]) - x[i - 3];
}
