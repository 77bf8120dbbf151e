// SPDX-License-Identifier: MIT
using System.Numerics;

namespace SensorSim.Detection.Tests.Twins;

/// <summary>Gain and delay of a filter of whole numbers, measured from its answer to one impulse.</summary>
internal static class FilterMeasure
{
    /// <summary>The answer to an impulse, divided by the impulse's height.</summary>
    /// <param name="filter">Takes a sample, gives a sample; starts from rest.</param>
    /// <param name="length">Samples of the answer.</param>
    /// <param name="height">Height of the impulse: large where the filter rounds.</param>
    public static double[] Impulse(Func<int, int> filter, int length, int height = 1) =>
        [.. Enumerable.Range(0, length).Select(i => filter(i == 0 ? height : 0) / (double)height)];

    /// <summary>Gain at a frequency.</summary>
    public static double Gain(double[] impulse, double hz, double rateHz) => At(impulse, hz, rateHz, _ => 1).Magnitude;

    /// <summary>Group delay at a frequency [samples].</summary>
    public static double Delay(double[] impulse, double hz, double rateHz) =>
        (At(impulse, hz, rateHz, n => n) / At(impulse, hz, rateHz, _ => 1)).Real;

    /// <summary>Where the gain passes a level between two frequencies [Hz], by halving.</summary>
    public static double Crossing(double[] impulse, double level, double lowHz, double highHz, double rateHz)
    {
        bool rises = Gain(impulse, highHz, rateHz) > level;
        for (int i = 0; i < 60; i++)
        {
            double middle = (lowHz + highHz) / 2;
            (lowHz, highHz) = Gain(impulse, middle, rateHz) > level == rises ? (lowHz, middle) : (middle, highHz);
        }

        return lowHz;
    }

    /// <summary>Highest gain on a fine grid, and where [Hz].</summary>
    public static (double Gain, double Hz) Top(double[] impulse, double lowHz, double highHz, double rateHz) =>
        Enumerable.Range(0, 20_001).Select(i => lowHz + ((highHz - lowHz) * i / 20_000))
            .Select(hz => (Gain: Gain(impulse, hz, rateHz), Hz: hz)).MaxBy(p => p.Gain);

    private static Complex At(double[] impulse, double hz, double rateHz, Func<int, double> weight)
    {
        Complex sum = 0;
        for (int n = 0; n < impulse.Length; n++)
        {
            sum += weight(n) * impulse[n] * Complex.Exp(new Complex(0, -2 * Math.PI * hz * n / rateHz));
        }

        return sum;
    }
}
