// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Inputs;

/// <summary>Scorers as the command makes them: R peaks of the ECG and feet by tangents of the infrared are expected.</summary>
internal static class LibraryRows
{
    // Some 70 years, for streams without an end.
    private const long EndlessNs = long.MaxValue / 4;

    /// <summary>Creates a scorer for a stream.</summary>
    /// <param name="format">Format of the stream.</param>
    /// <param name="seconds">Length [s]; null for a stream without an end.</param>
    public static Scorer CreateScorer(StreamFormat format, int? seconds = null) => new(
        format,
        seconds is int length ? length * 1_000_000_000L : EndlessNs,
        new ScoringOptions
        {
            ExpectedRows =
            [
                new ExpectedRow(ChannelName.Ecg, MarkKind.RPeak),
                new ExpectedRow(ChannelName.Infrared, MarkKind.PulseFootTangent),
            ],
        });
}
