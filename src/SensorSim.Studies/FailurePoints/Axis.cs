// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.FailurePoints;

/// <summary>The axis of a search: levels or their logarithms, turned so that things get worse along it.</summary>
/// <param name="IsLogarithm">Whether places are logarithms of levels.</param>
/// <param name="IsTurned">Whether smaller levels are worse.</param>
internal readonly record struct Axis(bool IsLogarithm, bool IsTurned)
{
    /// <summary>The place of a level.</summary>
    /// <param name="level">The level.</param>
    public double Place(double level) => (IsTurned ? -1 : 1) * (IsLogarithm ? Math.Log(level) : level);

    /// <summary>The level at a place; infinite places stay infinite, with the sign of the side of the levels on which they lie.</summary>
    /// <param name="place">The place.</param>
    public double Level(double place)
    {
        double straight = IsTurned ? -place : place;
        return IsLogarithm && double.IsFinite(straight) ? Math.Exp(straight) : straight;
    }
}
