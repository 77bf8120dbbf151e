// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Vectors.Acceptance
{
    public static class AcceptanceWindows
    {
        public static IReadOnlyList<AcceptanceRow> Of(PlannedCase c, IEnumerable<TruthEvent> t, IEnumerable<AcquisitionRow> a) =>
            [.. t.Where(x => x.Kind == MarkKind.RPeak).Select(x => new AcceptanceRow("ECG-1", x.Channel, x.Kind, AcceptanceRule.One, x.TimeNs - 150000000, x.TimeNs + 150000000, BeatId: x.BeatId))];
    }
}

namespace SensorSim.Studies.Vectors.Judging
{
    public enum VerdictOutcome { Met, NotMet, KnownDeviation, NotJudged }
    public sealed record RequirementVerdict(string RequirementId, string CaseName, VerdictOutcome Outcome, string Sentence);
    public static class Judge
    {
        public static IReadOnlyList<RequirementVerdict> Case(PlannedCase c, IReadOnlyList<AcceptanceRow> rows, IReadOnlyList<AnswerRow> answers, bool isOwnLibrary) =>
            [.. c.Requirements.Select(r => new RequirementVerdict(r.Id, c.Name, VerdictOutcome.Met, "stub"))];
    }
}
