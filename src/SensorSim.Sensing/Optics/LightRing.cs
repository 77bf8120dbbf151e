// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Optics;

/// <summary>The latest LED light of a slot, kept for the slot after it.</summary>
/// <remarks>Slots are made in order, each for the same stretch of samples: what the later one asks for is what came last.</remarks>
internal sealed class LightRing
{
    private readonly double[] _light;

    /// <summary>Creates a ring.</summary>
    /// <param name="mostSamples">Most samples made at once.</param>
    public LightRing(int mostSamples) => _light = new double[BitOperations.RoundUpToPowerOf2((uint)mostSamples)];

    /// <summary>Keeps samples.</summary>
    public void Keep(ReadOnlySpan<double> light, long firstIndex)
    {
        int place = (int)firstIndex & (_light.Length - 1);
        int first = Math.Min(light.Length, _light.Length - place);
        light[..first].CopyTo(_light.AsSpan(place));
        if (first < light.Length)
        {
            light[first..].CopyTo(_light);
        }
    }

    /// <summary>Adds a share of the light of the same samples.</summary>
    public void Add(Span<double> to, long firstIndex, double share)
    {
        int place = (int)firstIndex & (_light.Length - 1);
        int first = Math.Min(to.Length, _light.Length - place);
        SpanLanes.AddProduct(to[..first], _light.AsSpan(place), share);
        if (first < to.Length)
        {
            SpanLanes.AddProduct(to[first..], _light, share);
        }
    }

    /// <summary>An independent copy.</summary>
    public LightRing Copy()
    {
        var copy = new LightRing(_light.Length);
        _light.CopyTo(copy._light, 0);
        return copy;
    }
}
