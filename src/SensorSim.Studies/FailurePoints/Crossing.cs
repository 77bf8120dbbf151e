// SPDX-License-Identifier: MIT
namespace SensorSim.Studies.FailurePoints;

/// <summary>
/// Where a requirement stops being met, on an axis along which things get worse: a place, or two between which it lies. Plus infinity: met
/// everywhere; minus infinity: met nowhere.
/// </summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end; the same when the place is known.</param>
internal readonly record struct Crossing(double Low, double High)
{
    /// <summary>Nothing is known.</summary>
    public static Crossing Unknown { get; } = new(double.NegativeInfinity, double.PositiveInfinity);

    /// <summary>A known place; outside of the levels it is infinite.</summary>
    /// <param name="place">The place.</param>
    /// <param name="places">The levels on the same axis, ascending.</param>
    public static Crossing At(double place, ReadOnlySpan<double> places) => place < places[0]
        ? new(double.NegativeInfinity, double.NegativeInfinity)
        : place > places[^1] ? new(double.PositiveInfinity, double.PositiveInfinity) : new(place, place);
}
