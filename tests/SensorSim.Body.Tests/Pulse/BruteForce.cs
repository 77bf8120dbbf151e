// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>Searches landmarks by their definitions at 1 MHz within ±20 ms, on the waveform as the formulas say, by System.Math.</summary>
/// <remarks>Derivatives are differences with h = 0.1 ms: smaller ones lose digits. The grid lies a third of a step off round numbers.</remarks>
internal sealed class BruteForce
{
    private const double H = 1e-4;
    private const double WindowSeconds = 0.02;
    private const double CoarseSeconds = 5e-5;
    private const double FineSeconds = 1e-6;

    private readonly List<(PulseWave Wave, double Gain)> _waves = [];

    /// <summary>Takes the waves of beats from some earlier ones on.</summary>
    /// <param name="beats">All beats.</param>
    /// <param name="index">The beat of interest; earlier ones count as far as they are above 1e-16 of their height there.</param>
    /// <param name="last">Last that counts.</param>
    /// <param name="gain">Gain of each.</param>
    public BruteForce(List<PulseBeat> beats, int index, int last, Func<int, double> gain)
    {
        double start = beats[index][0].StartSeconds;
        for (int k = Math.Max(0, index - 24); k <= last; k++)
        {
            PulseBeat beat = beats[k];
            for (int i = 0; i < PulseBeat.Count; i++)
            {
                if ((start - 0.2 - beat[i].StartSeconds) / beat[i].ToPeakSeconds < 15)
                {
                    _waves.Add((beat[i], gain(k)));
                }
            }
        }
    }

    public double Value(double seconds)
    {
        double sum = 0;
        foreach ((PulseWave wave, double gain) in _waves)
        {
            double x = (seconds - wave.StartSeconds) / wave.ToPeakSeconds;
            if (x > 0 && x < 16)
            {
                double h = x * Math.Exp(1 - x);
                double n = h * h * h;
                sum += gain * wave.Height * (wave.Thirds == 1 ? n : wave.Thirds == 2 ? n * n : n * n * n);
            }
        }

        return sum;
    }

    public double Slope(double t) => (Value(t + H) - Value(t - H)) / (2 * H);

    public double Curvature(double t) => (Value(t + H) - (2 * Value(t)) + Value(t - H)) / (H * H);

    /// <summary>Where something is largest: every 50 µs within ±20 ms of a time, then every microsecond round the best.</summary>
    public static double Largest(Func<double, double> what, double near, double low = double.NegativeInfinity, double high = double.PositiveInfinity)
    {
        double coarse = Best(what, Math.Max(low, near - WindowSeconds), Math.Min(high, near + WindowSeconds), CoarseSeconds);
        return Best(what, Math.Max(low, coarse - (1.2 * CoarseSeconds)), Math.Min(high, coarse + (1.2 * CoarseSeconds)), FineSeconds);
    }

    /// <summary>The first minimum from a time on and the first maximum after it, every half a millisecond; NaN where there is none.</summary>
    public (double Minimum, double Maximum) FirstDip(double from, double until)
    {
        const double Step = 5e-4;
        double t = from;
        while (t < until && Value(t + Step) <= Value(t))
        {
            t += Step;
        }

        double minimum = t;
        while (t < until && Value(t + Step) > Value(t))
        {
            t += Step;
        }

        return minimum < until && t < until ? (minimum, t) : (double.NaN, double.NaN);
    }

    private static double Best(Func<double, double> what, double low, double high, double step)
    {
        double best = low;
        double largest = double.NegativeInfinity;
        for (double t = low + (0.33 * step); t <= high; t += step)
        {
            double x = what(t);
            (largest, best) = x > largest ? (x, t) : (largest, best);
        }

        return best;
    }
}
