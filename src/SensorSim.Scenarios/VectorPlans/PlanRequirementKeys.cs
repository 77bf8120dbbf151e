// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Keys of <c>[[requirement]]</c>.</summary>
public static class PlanRequirementKeys
{
    internal const string Section = "requirement";

    /// <summary>Own name.</summary>
    public static readonly TextKey Id = PlanSetKeys.Line("requirement.id", "Own short name of the requirement: letters, digits, hyphens, dots, underscores; must be given.", 40);

    /// <summary>Sentence.</summary>
    public static readonly TextKey Text = PlanSetKeys.Line("requirement.text", "The requirement in one sentence; must be given.");

    /// <summary>Clause.</summary>
    public static readonly TextKey Clause = PlanSetKeys.Line("requirement.clause", "Standard and clause that it comes from, or own; must be given.", 200);

    /// <summary>Channel.</summary>
    public static readonly FreeKey Channel = Free("channel", "Channel whose answers count; those of every channel unless given.", "a channel, for example \"ecg\"");

    /// <summary>Kind.</summary>
    public static readonly FreeKey Kind = Free("kind", "Kind of answer that is judged; must be given.", "a kind of mark, for example \"r_peak\"");

    /// <summary>Rule.</summary>
    public static readonly ChoiceKey Rule = new()
    {
        Name = "requirement.rule",
        Meaning = "What is asked: every event marked once and nothing else (marks), values near the truth (readings), nothing where nothing can be known (withheld), "
            + "a mark soon after a stretch begins (shown), marks soon after their events (prompt); must be given.",
        Source = PlanSetKeys.Own,
        HasDefault = false,
        Choices = RequirementRules.Words,
        Default = RequirementRules.Words[0],
    };

    /// <summary>Window.</summary>
    public static readonly NumberKey WindowMs = new()
    {
        Name = "requirement.window_ms",
        Unit = "ms",
        Meaning = "Rules marks and prompt: greatest distance of a mark from its event, to either side.",
        Source = "Half-width of the match window of ANSI/AAMI EC57 (from memory).",
        Minimum = 1,
        Maximum = 2000,
        Default = 150,
    };

    /// <summary>Sensitivity.</summary>
    public static readonly NumberKey SensitivityMin = Share("sensitivity_min", "Rule marks: least share of the events that are marked.");

    /// <summary>Positive predictivity.</summary>
    public static readonly NumberKey PositivePredictivityMin = Share("positive_predictivity_min", "Rule marks: least share of the marks that belong to an event.");

    /// <summary>Error.</summary>
    public static readonly NumberKey ErrorMax = Limit("error_max", "unit of the kind", "Rule readings: greatest error of a reading.", 1e6);

    /// <summary>Error in percent.</summary>
    public static readonly NumberKey ErrorPercentMax = Limit("error_percent_max", "%", "Rule readings: greatest error in per cent of the truth; beside error_max the larger of both counts.", 100);

    /// <summary>Share.</summary>
    public static readonly NumberKey ShareMin = Share("share_min", "Rule readings: least share of the usable seconds that hold a reading. Rule prompt: least share of the events told in time, 1 unless given.");

    /// <summary>First reading.</summary>
    public static readonly NumberKey FirstWithinS = Limit("first_within_s", "s", "Rule readings: latest time of the first reading, from the start of the case.", 3e7);

    /// <summary>Grace.</summary>
    public static readonly NumberKey GraceS = Limit("grace_s", "s", "Rule withheld: time that a detector has after a stretch begins.", 3600) with { HasDefault = true };

    /// <summary>Shown.</summary>
    public static readonly NumberKey WithinS = Limit("within_s", "s", "Rule shown: latest time of the mark after a stretch begins; must be given.", 3600);

    /// <summary>Latency.</summary>
    public static readonly NumberKey LatencyMsMax = Limit("latency_ms_max", "ms", "Rule prompt: greatest time from an event to the emission of its mark; must be given.", 3.6e6);

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        Id, Text, Clause, Channel, Kind, Rule, WindowMs, SensitivityMin, PositivePredictivityMin, ErrorMax, ErrorPercentMax, ShareMin, FirstWithinS,
        GraceS, WithinS, LatencyMsMax,
    ];

    /// <summary>The limits of a rule, those that must be given among them.</summary>
    /// <param name="rule">The rule.</param>
    public static IReadOnlyList<NumberKey> Of(RequirementRule rule) => rule switch
    {
        RequirementRule.Marks => [WindowMs, SensitivityMin, PositivePredictivityMin],
        RequirementRule.Readings => [ErrorMax, ErrorPercentMax, ShareMin, FirstWithinS],
        RequirementRule.Withheld => [GraceS],
        RequirementRule.Shown => [WithinS],
        RequirementRule.Prompt => [WindowMs, LatencyMsMax, ShareMin],
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a rule."),
    };

    private static NumberKey Share(string key, string meaning) => Limit(key, "", meaning, 1);

    private static NumberKey Limit(string key, string unit, string meaning, double most) => new()
    {
        Name = $"{Section}.{key}",
        Unit = unit,
        Meaning = meaning,
        HasDefault = false,
        Source = "Set by whoever writes the plan.",
        Minimum = 0,
        Maximum = most,
        Default = 0,
    };

    private static FreeKey Free(string key, string meaning, string allowed) => new()
    {
        Name = $"{Section}.{key}",
        Meaning = meaning,
        HasDefault = false,
        Source = PlanSetKeys.Own,
        Allowed = allowed,
    };
}
