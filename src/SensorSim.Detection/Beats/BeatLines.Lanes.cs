// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Beats;

/// <summary>Room for a stretch of samples that goes through the stages in lanes.</summary>
/// <remarks>A stretch is filled up to whole vectors; what lies behind its end is nobody's.</remarks>
internal struct BeatLines
{
    /// <summary>Most samples in a stretch.</summary>
    public const int Most = 32;

    /// <summary>What the filter of the spikes delays by while it is idle.</summary>
    public const int Delay = 4;

    /// <summary>The band-passed ECG, then its integrated magnitude, and room for a vector that begins anywhere.</summary>
    public Line40 Values;

    /// <summary>Magnitudes of the band-passed ECG, as many from before the stretch as it has itself.</summary>
    public Line64 Magnitudes;

    /// <summary>Forty words in place.</summary>
    [InlineArray(Most + Lanes.Count)]
    public struct Line40
    {
        private int _first;
    }

    /// <summary>Sixty-four words in place.</summary>
    [InlineArray(2 * Most)]
    public struct Line64
    {
        private int _first;
    }
}
