// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.FailurePoints;

/// <summary>Finds the crossing from the sums of each level: of the study, or of one of its resamples.</summary>
internal interface ICrossingFinder
{
    /// <summary>Finds it.</summary>
    /// <param name="sums">Sums of the columns, level by level, in the order of the axis.</param>
    Crossing Find(ReadOnlySpan<double> sums);

    /// <summary>The figure that the curve of the last <see cref="Find"/> has at a place.</summary>
    /// <param name="place">Place on the axis.</param>
    double FigureAt(double place);
}
