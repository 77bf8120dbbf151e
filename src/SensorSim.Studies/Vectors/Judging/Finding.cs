// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Studies.Vectors.Judging;

/// <summary>What a rule found, before it is known which requirement of which case it was.</summary>
internal sealed record Finding(RequirementOutcome Outcome, string Sentence, IReadOnlyList<VerdictFigure> Figures, long? FirstFaultNs = null)
{
    public static Finding NotJudged(string why) => new(RequirementOutcome.NotJudged, why, []);

    public static Finding Of(bool isMet, string sentence, IReadOnlyList<VerdictFigure> figures, long? firstFaultNs) =>
        new(isMet ? RequirementOutcome.Met : RequirementOutcome.NotMet, sentence, figures, isMet ? null : firstFaultNs);

    /// <summary>A time for a sentence.</summary>
    public static string At(long timeNs) => string.Create(CultureInfo.InvariantCulture, $"{timeNs * 1e-9:0.000###} s");

    /// <summary>A number for a sentence.</summary>
    public static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>The earlier of two faults.</summary>
    public static long? Earlier(long? one, long? other) => one is null || other < one ? other : one;
}
