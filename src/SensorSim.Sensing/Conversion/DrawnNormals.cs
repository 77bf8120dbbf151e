// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Conversion;

/// <summary>Scaled normal numbers of samples, made for 256 of them at absolute places: whoever comes in short or odd pieces has none drawn twice.</summary>
/// <param name="random">Their source; draw i belongs to sample i.</param>
/// <param name="scale">Their standard deviation.</param>
internal sealed class DrawnNormals(KeyedRandom random, double scale)
{
    /// <summary>How many are made at once.</summary>
    public const int Together = 256;

    private readonly double[] _normals = new double[Together];
    private long _first = -1;

    /// <summary>Numbers from a sample to the end of its 256.</summary>
    /// <param name="index">Index of the sample, at least 0.</param>
    public ReadOnlySpan<double> From(long index)
    {
        long first = index & -Together;
        if (first != _first)
        {
            random.FillNormals(_normals, first, scale);
            _first = first;
        }

        return _normals.AsSpan((int)(index - first));
    }

    /// <summary>One that may be used by another thread.</summary>
    public DrawnNormals Copy() => new(random, scale);
}
