// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Body.Movement;

/// <summary>A live size, latched four times a second and joined by straight lines that follow a quarter of a second later.</summary>
internal sealed class LiveSize
{
    private const double PerSecond = 4;
    private readonly Course _course;

    public LiveSize(Course course)
    {
        _course = course;
        IsConstant = course.IsConstant;
        IsOff = IsConstant && course.BaseValue == 0;
    }

    /// <summary>Whether the size never changes.</summary>
    public bool IsConstant { get; }

    /// <summary>Whether the size is always 0.</summary>
    public bool IsOff { get; }

    /// <summary>The size before the first change.</summary>
    public double BaseValue => _course.BaseValue;

    /// <summary>The size at a time.</summary>
    public double At(double seconds)
    {
        if (IsConstant)
        {
            return _course.BaseValue;
        }

        double node = Math.Floor(seconds * PerSecond);
        double from = _course.Value((node - 1) / PerSecond);
        double to = _course.Value(node / PerSecond);
        return from + (((seconds * PerSecond) - node) * (to - from));
    }

    /// <summary>Fills sizes for every sample of a block.</summary>
    /// <returns>Whether any of them is not 0.</returns>
    public bool Fill(MovementBlock block, Span<double> sizes)
    {
        if (IsConstant)
        {
            sizes.Fill(_course.BaseValue);
            return _course.BaseValue != 0;
        }

        bool any = false;
        double node = double.NegativeInfinity;
        double from = 0;
        double to = 0;
        for (int i = 0; i < sizes.Length; i++)
        {
            double place = block.Seconds(i) * PerSecond;
            if (Math.Floor(place) != node)
            {
                node = Math.Floor(place);
                from = _course.Value((node - 1) / PerSecond);
                to = _course.Value(node / PerSecond);
                any |= from != 0 || to != 0;
            }

            sizes[i] = from + ((place - node) * (to - from));
        }

        return any;
    }
}
