// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Waits for the least value of a figure.</summary>
/// <typeparam name="T">The constraint that it belongs to.</typeparam>
public sealed class LeastLimit<T>
{
    private readonly Func<double, bool, T> _add;

    internal LeastLimit(Func<double, bool, T> add) => _add = add;

    /// <summary>The figure, as counted, must reach a share.</summary>
    /// <param name="share">The share, 0 to 1: 0.995 for 99.5 %.</param>
    public T AtLeast(double share) => _add(Limits.Share(share), false);

    /// <summary>The whole 95 % interval of the figure must lie at a share or above: few events do not show much, however good they are.</summary>
    /// <param name="share">The share, 0 to 1: 0.995 for 99.5 %.</param>
    public T CertainlyAtLeast(double share) => _add(Limits.Share(share), true);
}

/// <summary>Waits for the greatest value of a figure.</summary>
/// <typeparam name="T">The constraint that it belongs to.</typeparam>
public sealed class MostLimit<T>
{
    private readonly Func<double, bool, T> _add;
    private readonly bool _isShare;

    internal MostLimit(Func<double, bool, T> add, bool isShare = false)
    {
        _add = add;
        _isShare = isShare;
    }

    /// <summary>The figure, as counted, must not go beyond a value; of a bias its magnitude.</summary>
    /// <param name="value">The value, 0 or more, in the unit of the figure; of a share 0 to 1.</param>
    public T AtMost(double value) => _add(Checked(value), false);

    /// <summary>The whole 95 % interval of the figure must not go beyond a value; of a bias its magnitude. Without an interval it is not met.</summary>
    /// <param name="value">The value, 0 or more, in the unit of the figure; of a share 0 to 1.</param>
    public T CertainlyAtMost(double value) => _add(Checked(value), true);

    private double Checked(double value) => _isShare ? Limits.Share(value)
        : value >= 0 ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, "The greatest value must be 0 or more.");
}

/// <summary>Checks of limits.</summary>
internal static class Limits
{
    /// <summary>Refuses a share that is none, such as one in per cent.</summary>
    public static double Share(double share) => share is >= 0 and <= 1
        ? share
        : throw new ArgumentOutOfRangeException(nameof(share), share, "A share must be 0 to 1; write 0.995 for 99.5 %.");
}
