// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Reports.Figures;

/// <summary>One beat above the strip.</summary>
/// <param name="TimeS">Time of the R peak [s].</param>
/// <param name="Class">Class of the beat; it gives the letter.</param>
public readonly record struct StripBeat(double TimeS, BeatClass Class);

/// <summary>What an ECG strip shows: the ECG, the light of the pulse under it, and the truth about both.</summary>
/// <remarks>
/// All times are on the axis of the samples. Times ascend; values that are not finite, or a step longer than one and a half
/// times its neighbourhood's, are a gap. Marks outside 0 to <see cref="EndS"/> are not drawn.
/// </remarks>
public sealed record StripPanel
{
    /// <summary>Longest stretch of a figure [s].</summary>
    public const double LongestS = 30;

    /// <summary>End of the stretch [s], which begins at 0; above 0, at most <see cref="LongestS"/>.</summary>
    public required double EndS { get; init; }

    /// <summary>Times of the ECG's samples [s], finite and ascending.</summary>
    public required double[] EcgTimesS { get; init; }

    /// <summary>ECG [mV], as many as times; NaN where there is none.</summary>
    public required double[] EcgMv { get; init; }

    /// <summary>What the light is, in a word.</summary>
    public string LightTitle { get; init; } = "infrared";

    /// <summary>Times of the light's samples [s], finite and ascending; none where the run has no such channel.</summary>
    public double[] LightTimesS { get; init; } = [];

    /// <summary>Received light in any unit, as many as times: it falls when the vessel fills. The figure turns it over.</summary>
    public double[] Light { get; init; } = [];

    /// <summary>True beats.</summary>
    public IReadOnlyList<StripBeat> Beats { get; init; } = [];

    /// <summary>Peaks of P waves that were not conducted [s].</summary>
    public IReadOnlyList<double> BlockedPTimesS { get; init; } = [];

    /// <summary>Pacing spikes [s].</summary>
    public IReadOnlyList<double> SpikeTimesS { get; init; } = [];

    /// <summary>Feet of the pulse by tangents [s].</summary>
    public IReadOnlyList<double> FootTimesS { get; init; } = [];

    /// <summary>Beats without a pulse [s].</summary>
    public IReadOnlyList<double> NoPulseTimesS { get; init; } = [];
}
