// SPDX-License-Identifier: MIT
using SensorSim.Studies.Running;

namespace SensorSim.Testing;

/// <summary>Whether runs are as asked, with what a message says of them.</summary>
/// <param name="IsMet">Whether they are.</param>
/// <param name="Measured">What was measured, in a line.</param>
/// <param name="Details">More lines, each a label and a text.</param>
/// <param name="WorstSeed">Seed of the run to look at.</param>
/// <param name="IsBroken">Whether the detector broke in a run, which is more than silence.</param>
internal sealed record Judgement(bool IsMet, string Measured, IReadOnlyList<(string Label, string Text)> Details, ulong WorstSeed, bool IsBroken = false)
{
    /// <summary>A detector that did not answer does nothing that is asked of it.</summary>
    public static Judgement OfVerdict(ScoredRuns runs, ScoredRun failed)
    {
        long others = runs.Runs.Count(r => r.Outcome.Verdict != Verdict.Answered) - 1;
        string more = others == 0 ? "" : FormattableString.Invariant($" (and {others} more of {runs.Runs.Count} seeds)");
        return new Judgement(
            false, FormattableString.Invariant($"{Word(failed.Outcome.Verdict)} with seed {failed.Seed}{more}: {failed.Outcome.VerdictReason}"), [], failed.Seed,
            runs.Runs.Any(r => r.Outcome.Verdict is not (Verdict.Answered or Verdict.Silent)));
    }

    private static string Word(Verdict verdict) => verdict switch
    {
        Verdict.Silent => "silent",
        Verdict.Babbling => "babbling",
        Verdict.Crashed => "crashed",
        Verdict.Hung => "hung",
        Verdict.Lying => "lying",
        Verdict.Late => "late",
        _ => "answered",
    };
}
