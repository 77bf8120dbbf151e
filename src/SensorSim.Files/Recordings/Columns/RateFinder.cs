// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Files.Recordings.Columns;

/// <summary>Finds the sampling rate in a column of times.</summary>
/// <remarks>
/// The typical step is the median of the first thousand. Steps within a half of it are one sampling interval each; their number through their
/// sum is the rate, so that neither gaps nor rounded stamps count.
/// </remarks>
internal static class RateFinder
{
    private const int MostSteps = 1000;

    // A clock that is off by 0.1 % is broken, and rounded stamps of a second's record come within that.
    private const double Tolerance = 1e-3;

    /// <summary>The rate [Hz].</summary>
    /// <param name="path">Path of the table.</param>
    /// <param name="column">Column of the times.</param>
    /// <param name="perSecond">Units of the times in a second.</param>
    /// <exception cref="InputFileException">There are too few times, or they tell no whole rate.</exception>
    public static int Of(string path, int column, double perSecond)
    {
        double typical = Typical(path, column, perSecond);
        using var rows = new CsvRows(path);
        long count = 0;
        double sum = 0;
        double last = double.NaN;
        while (rows.Read())
        {
            double time = rows.Number(column) / perSecond;
            double step = time - last;
            if (step > 0.5 * typical && step < 1.5 * typical)
            {
                count++;
                sum += step;
            }

            last = time;
        }

        double rate = count / sum;
        double whole = Math.Max(1, Math.Round(rate));
        return Math.Abs(rate - whole) <= Tolerance * whole && whole <= 1e6
            ? (int)whole
            : throw rows.Error(string.Create(
                CultureInfo.InvariantCulture, $"the times of column {rows.Header[column]} give {rate:0.####} Hz; a recording has a whole rate from 1 to 1000000 Hz; resample it, or say the rate with --rate-hz."));
    }

    private static double Typical(string path, int column, double perSecond)
    {
        using var rows = new CsvRows(path);
        var steps = new List<double>();
        double last = double.NaN;
        while (steps.Count < MostSteps && rows.Read())
        {
            double time = rows.Number(column) / perSecond;
            if (time - last > 0)
            {
                steps.Add(time - last);
            }
            else if (!double.IsNaN(last))
            {
                throw rows.Error(column, "must be later than in the row before");
            }

            last = time;
        }

        if (steps.Count == 0)
        {
            throw rows.Error("there are fewer than two rows after the header; times of at least two are needed to know the rate.");
        }

        steps.Sort();
        return steps[steps.Count / 2];
    }
}
