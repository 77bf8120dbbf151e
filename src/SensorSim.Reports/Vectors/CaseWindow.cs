// SPDX-License-Identifier: MIT
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Reports.Vectors;

/// <summary>The stretch of a case that its picture shows: all of a short one, else the seconds about what must be withheld or shown.</summary>
/// <param name="BeginS">Begin [s].</param>
/// <param name="EndS">End [s].</param>
internal readonly record struct CaseWindow(double BeginS, double EndS)
{
    private const double LongestS = 70;
    private const double BeforeS = 6;
    private const double LeadInS = 8;

    /// <summary>The stretch.</summary>
    /// <param name="picture">What can be shown.</param>
    public static CaseWindow Of(CasePicture picture)
    {
        double end = picture.Captured.EndSeconds;
        if (end <= LongestS)
        {
            return new CaseWindow(0, end);
        }

        double[] begins = [.. picture.Demands.Where(d => d.Kind != DemandKind.Values).Select(d => d.BeginS)];
        double begin = begins.Length > 0 ? begins.Min() - BeforeS : LeadInS;
        begin = Math.Clamp(Math.Floor(begin), 0, end - LongestS);
        return new CaseWindow(begin, begin + LongestS);
    }

    /// <summary>Whether a time lies inside.</summary>
    /// <param name="seconds">Time [s].</param>
    public bool Holds(double seconds) => seconds >= BeginS && seconds < EndS;
}
