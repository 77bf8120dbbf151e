// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests;

/// <summary>Pulses laid one by one: a log-normal systolic wave and a log-normal diastolic wave each, on a steady level of light.</summary>
/// <remarks>
/// h(t) = exp(−ln²(t / peak) / (2 s²)); bases after Li et al. 2023, widths and sizes a choice of these tests. All waves add. The truth of
/// a pulse is solved on the sum of all of them in steps of 0.1 ms: minimum, steepest point, tangent, largest second derivative, peak.
/// </remarks>
internal sealed class LogNormalPulse
{
    private readonly List<(double StartS, double Height)> _beats = [];

    public int RateHz { get; init; } = 100;

    /// <summary>Time from a pulse's start to its systolic peak.</summary>
    public double PeakS { get; init; } = 0.18;

    public double DiastolicShare { get; init; } = 0.25;

    public double DiastolicPeakS { get; init; } = 0.42;

    public double AmplitudeCodes { get; init; } = 2000;

    public int LevelCodes { get; init; } = 300_000;

    public int Polarity { get; init; } = 1;

    public int ZeroCode { get; init; }

    public double SnrDb { get; init; } = 999;

    /// <summary>Depth of a baseline of 15 breaths a minute [pulse heights].</summary>
    public double BreathingShare { get; init; }

    public IReadOnlyList<(double StartS, double Height)> Beats => _beats;

    public LogNormalPulse Add(double startS, double height)
    {
        _beats.Add((startS, height));
        return this;
    }

    public LogNormalPulse AddTrain(double fromS, double untilS, double beatS, double height = 1)
    {
        for (double t = fromS; t < untilS; t += beatS)
        {
            _beats.Add((t, height));
        }

        return this;
    }

    /// <summary>Filling at a time [heights of the systolic wave].</summary>
    public double Filling(double t)
    {
        double sum = 0;
        foreach ((double start, double height) in _beats)
        {
            double since = t - start;
            if (since > 0 && since < 3)
            {
                sum += height * (Wave(since, PeakS, 0.45) + (DiastolicShare * Wave(since, DiastolicPeakS * (PeakS / 0.18), 0.3)));
            }
        }

        return sum;
    }

    public int[] Make(double durationS, int seed, Func<double, double>? gain = null, Func<double, double>? offset = null)
    {
        var random = new Random(seed);
        var codes = new int[(int)(durationS * RateHz)];
        double rms = SnrDb > 900 ? 0 : 1 / (2 * Math.Sqrt(2)) / Math.Pow(10, SnrDb / 20);
        for (int i = 0; i < codes.Length; i++)
        {
            double t = (double)i / RateHz;
            double breath = BreathingShare * Math.Sin(2 * Math.PI * 0.25 * t);
            double filling = Filling(t) + breath + (rms * SyntheticEcg.Normal(random));
            double light = ((LevelCodes - (AmplitudeCodes * filling)) * (gain?.Invoke(t) ?? 1)) + (offset?.Invoke(t) ?? 0);
            codes[i] = ZeroCode + (int)Math.Round(Polarity * light);
        }

        return codes;
    }

    /// <summary>The landmarks of every pulse [s].</summary>
    public List<Landmarks> Truth() => [.. _beats.Select(b => Solve(b.StartS))];

    private Landmarks Solve(double startS)
    {
        const double Step = 1e-4;
        int count = (int)(((PeakS * 1.3) + 0.03) / Step);
        var y = new double[count + 1];
        for (int i = 0; i <= count; i++)
        {
            y[i] = Filling(startS + ((i - 300) * Step));
        }

        int steepest = Best(1, count - 1, i => y[i + 1] - y[i - 1]);
        int lowest = Best(0, steepest, i => -y[i]);
        double slope = (y[steepest + 1] - y[steepest - 1]) / (2 * Step);
        int curved = Best(20, steepest, i => y[i + 20] - (2 * y[i]) + y[i - 20]);
        int peak = Best(steepest, count, i => y[i]);
        double T(double i) => startS + ((i - 300) * Step);
        return new Landmarks(T(steepest) - ((y[steepest] - y[lowest]) / slope), T(curved), T(steepest), T(peak), y[peak] - y[lowest], y[lowest]);
    }

    private static int Best(int from, int to, Func<int, double> value)
    {
        int best = from;
        for (int i = from; i <= to; i++)
        {
            best = value(i) > value(best) ? i : best;
        }

        return best;
    }

    private static double Wave(double since, double peak, double width)
    {
        double log = Math.Log(since / peak) / width;
        return Math.Exp(-log * log / 2);
    }

    internal sealed record Landmarks(double FootS, double CurvedS, double SteepestS, double PeakS, double Height, double Low);
}
