// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Conversion;

/// <summary>Scaled normal numbers of samples, made for 64 of them at absolute places: whoever comes in short or odd pieces has none drawn twice.</summary>
/// <param name="random">Their source; draw i belongs to sample i.</param>
/// <param name="scale">Their standard deviation.</param>
internal sealed class DrawnNormals(KeyedRandom random, double scale)
{
    private readonly double[] _normals = new double[LiveLatch.Samples];
    private long _block = -1;

    /// <summary>Numbers from a sample to the end of its 64.</summary>
    /// <param name="index">Index of the sample, at least 0.</param>
    public ReadOnlySpan<double> From(long index)
    {
        long block = index / LiveLatch.Samples;
        if (block != _block)
        {
            random.FillNormals(_normals, block * LiveLatch.Samples, scale);
            _block = block;
        }

        return _normals.AsSpan((int)(index - (block * LiveLatch.Samples)));
    }

    /// <summary>One that may be used by another thread.</summary>
    public DrawnNormals Copy() => new(random, scale);
}
