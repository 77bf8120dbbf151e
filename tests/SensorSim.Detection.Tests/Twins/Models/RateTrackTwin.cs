// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Best path through the rates (Viterbi 1967, forward half) in doubles, 256 log2: prices and clip as docs/detection-movement.md has them.</summary>
internal sealed class RateTrackTwin(int states)
{
    private const int Neighbours = 4;
    private const double Most = 1200;
    private double[] _arrears = new double[states];

    public int Best { get; private set; }

    public double Margin { get; private set; }

    public void Add(double[] evidence)
    {
        var next = new double[states];
        for (int s = 0; s < states; s++)
        {
            double least = _arrears[s];
            for (int from = Math.Max(0, s - 2); from <= Math.Min(states - 1, s + 2); from++)
            {
                double price = Math.Abs(from - s) switch { 0 => 0, 1 => 24, _ => 120 };
                least = Math.Min(least, _arrears[from] + price);
            }

            next[s] = least - (evidence[s] / 4);
        }

        double lowest = next.Min();
        Best = Array.IndexOf(next, lowest);
        _arrears = [.. next.Select(a => Math.Min(Most, a - lowest))];
        Margin = _arrears.Where((_, s) => Math.Abs(s - Best) > Neighbours).Append(Most).Min();
    }
}
