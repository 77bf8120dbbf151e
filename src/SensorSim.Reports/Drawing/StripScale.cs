// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>The gain of a strip and the bold squares that each of its rows needs, so that nothing is cut off.</summary>
internal sealed class StripScale
{
    // 2 mV to either side at the standard gain.
    private const int LeastSquares = 4;

    // 100 mm, 10 mV at the standard gain: a taller row would no longer fit a page.
    private const int MostSquares = 20;

    // One fine square stays free, so that a peak does not lie on the edge.
    private const double FreeMm = 1;

    private readonly (int Low, int High)[] _rows;

    /// <param name="heights">The ECG of each row [mV]; empty where it has none.</param>
    internal StripScale(IReadOnlyList<Span> heights)
    {
        MmPerMv = StripPaper.StandardMmPerMv;
        _rows = [.. heights.Select(Squares)];
        while (_rows.Any(row => row.High - row.Low > MostSquares))
        {
            // As on a recorder: the gain is halved until the curve fits.
            MmPerMv /= 2;
            _rows = [.. heights.Select(Squares)];
        }
    }

    /// <summary>Gain [mm/mV]: 10, or a half, a quarter ... of it where the ECG is larger than the paper.</summary>
    internal double MmPerMv { get; }

    /// <summary>Height of a bold square [mV].</summary>
    internal double SquareMv => StripPaper.BoldMm / MmPerMv;

    /// <summary>Lower and upper edge of a row [bold squares from 0 mV].</summary>
    internal (int Low, int High) Row(int row) => _rows[row];

    private (int Low, int High) Squares(Span height)
    {
        if (height.IsEmpty)
        {
            return (-LeastSquares, LeastSquares);
        }

        double freeMv = FreeMm / MmPerMv;
        int low = (int)Math.Floor((height.Low - freeMv) / SquareMv);
        int high = (int)Math.Ceiling((height.High + freeMv) / SquareMv);

        // Around 0 mV; around the nearest edge of a curve that stays far from it.
        int middle = Math.Clamp(0, low, high);
        return (Math.Min(low, middle - LeastSquares), Math.Max(high, middle + LeastSquares));
    }
}
