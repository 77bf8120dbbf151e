// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Inputs;

/// <summary>Scorers as the command makes them: R peaks of the ECG and feet by tangents of the infrared are expected.</summary>
internal static class LibraryRows
{
    /// <summary>Creates a scorer for a stream: it knows the clocks of its devices.</summary>
    /// <param name="stream">The stream; one with an end.</param>
    public static Scorer CreateScorer(SensorStream stream) => new(
        stream,
        new ScoringOptions
        {
            ExpectedRows =
            [
                new ExpectedRow(ChannelName.Ecg, MarkKind.RPeak),
                new ExpectedRow(ChannelName.Infrared, MarkKind.PulseFootTangent),
            ],
        });
}
