// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Drawing;

/// <summary>Where a time and a value lie on the page.</summary>
/// <param name="FromS">Time at the left edge [s].</param>
/// <param name="LeftPx">The left edge.</param>
/// <param name="PxPerS">Width of a second.</param>
/// <param name="Level">Value at <paramref name="LevelPx"/>.</param>
/// <param name="LevelPx">Height of that value on the page.</param>
/// <param name="PxPerUnit">How far one unit goes down the page; negative for values that go up.</param>
internal readonly record struct TimeAndHeight(
    double FromS, float LeftPx, double PxPerS, double Level, float LevelPx, double PxPerUnit)
{
    internal float X(double timeS) => (float)(LeftPx + ((timeS - FromS) * PxPerS));

    internal float Y(double value) => (float)(LevelPx + ((value - Level) * PxPerUnit));
}
