// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Figures;

/// <summary>The figures printed above a distribution; the caller computes them, so that plot and table agree.</summary>
/// <param name="Count">How many errors.</param>
/// <param name="BiasMs">Mean error [ms], detected minus true.</param>
/// <param name="SdMs">Standard deviation [ms].</param>
/// <param name="P95Ms">95th percentile of the error's size [ms].</param>
public readonly record struct ErrorSummary(long Count, double BiasMs, double SdMs, double P95Ms);

/// <summary>A distribution of timing errors, as counts in bins of equal width.</summary>
/// <remarks>Finely binned input is welcome: the figure joins bins until they make readable bars.</remarks>
public sealed record ErrorPanel
{
    private const double FineBinMs = 0.1;
    private const int MostFineBins = 1 << 20;

    /// <summary>Kind of event.</summary>
    public required string Title { get; init; }

    /// <summary>Lower edge of the first bin [ms].</summary>
    public required double FirstBinMs { get; init; }

    /// <summary>Width of a bin [ms], above 0.</summary>
    public required double BinWidthMs { get; init; }

    /// <summary>Errors in each bin.</summary>
    public required long[] Counts { get; init; }

    /// <summary>Errors that lie outside of all bins.</summary>
    public long BeyondCount { get; init; }

    /// <summary>What is printed above the bars.</summary>
    public required ErrorSummary Summary { get; init; }

    /// <summary>Bins single errors at 0.1 ms (wider when they spread over more than a hundred seconds).</summary>
    /// <param name="title">Kind of event.</param>
    /// <param name="errorsMs">Errors [ms], detected minus true; those that are not finite are left out.</param>
    /// <param name="summary">What is printed above the bars.</param>
    public static ErrorPanel FromErrors(string title, double[] errorsMs, ErrorSummary summary)
    {
        ArgumentNullException.ThrowIfNull(errorsMs);
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        foreach (double error in errorsMs)
        {
            if (double.IsFinite(error))
            {
                low = Math.Min(low, error);
                high = Math.Max(high, error);
            }
        }

        double width = FineBinMs;
        while (low <= high && (high - low) / width > MostFineBins)
        {
            width *= 10;
        }

        double firstBin = low <= high ? Math.Floor(low / width) : 0;
        long[] counts = low <= high ? new long[(int)(Math.Floor(high / width) - firstBin) + 1] : [];
        foreach (double error in errorsMs)
        {
            if (double.IsFinite(error))
            {
                counts[(int)(Math.Floor(error / width) - firstBin)]++;
            }
        }

        return new ErrorPanel
        {
            Title = title,
            FirstBinMs = firstBin * width,
            BinWidthMs = width,
            Counts = counts,
            Summary = summary,
        };
    }
}
