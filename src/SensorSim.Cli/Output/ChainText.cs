// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Output;

/// <summary>What the chain did, apart from the detector: clocks that are off, and what unusable stretches took out.</summary>
internal static class ChainText
{
    /// <summary>Lines of text; none when every clock is right and nothing was unusable.</summary>
    public static IEnumerable<string> Of(ScoreReport report)
    {
        foreach (EventScore s in report.Scores.Where(s => s.ClockOffsetMs != 0 || s.ClockPpm != 0).DistinctBy(s => s.Channel))
        {
            string side = s.ClockOffsetMs < 0 ? "early" : "late";
            string speed = s.ClockPpm < 0 ? "slow" : "fast";
            yield return FormattableString.Invariant($"chain of {s.Channel.Text()}: declared delay {s.DeclaredDelayMs:0.######} ms; clock {Math.Abs(s.ClockOffsetMs):0.######} ms {side} at the start, {Math.Abs(s.ClockPpm):0.######} ppm {speed}; all taken off the times above, the clock not off readings");
        }

        foreach (EventScore s in report.Scores.Where(s => s.UnusableTruth + s.UnusableDetections > 0))
        {
            yield return FormattableString.Invariant($"unusable, counted apart: {s.UnusableTruth} true events and {s.UnusableDetections} detections of {s.Channel.Text()} {s.Kind.Text()}");
        }

        foreach (ReadingScore r in report.Readings.Where(r => r.InUnusableCount > 0))
        {
            yield return FormattableString.Invariant($"unusable: {r.InUnusableCount} readings of {r.Channel.Text()} {r.Kind.Text()} were given there and count as wrong");
        }
    }
}
