// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

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
    public static readonly FreeKey Channel = Free("channel", "Channel whose answers count; those of every channel unless given.", "a channel, for example \"ecg\"", ValueShape.OneOf(ChannelNames.All));

    /// <summary>Kind.</summary>
    public static readonly FreeKey Kind = Free("kind", "Kind of answer that is judged; must be given.", "a kind of mark, for example \"r_peak\"", ValueShape.Text);

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
        Meaning = "Rules marks and prompt: greatest distance of a mark from its event, to either side. Rule withheld: marks of events outside the stretch may be off by as much.",
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

    /// <summary>Least value by design.</summary>
    public static readonly NumberKey Low = Signed("low", "Rule readings: least value by the design of the cases, in place of error_max and truth; with high.");

    /// <summary>Greatest value by design.</summary>
    public static readonly NumberKey High = Signed("high", "Rule readings: greatest value by the design of the cases, in place of error_max and truth; with low.");

    /// <summary>Fewest beats of an average.</summary>
    public static readonly NumberKey BeatsMin = Beats("beats_min", "Rule readings: fewest beats (rates: intervals) that a device may average over; as usual for the kind unless given.");

    /// <summary>Most beats of an average.</summary>
    public static readonly NumberKey BeatsMax = Beats("beats_max", "Rule readings: most beats (rates: intervals) that a device may average over; as usual for the kind unless given.");

    /// <summary>How long a reading stands.</summary>
    public static readonly NumberKey StandsS = new()
    {
        Name = "requirement.stands_s",
        Unit = "s",
        Meaning = "Rule readings, for share_min: how long a reading stands before it is too old.",
        Source = "Choice of this project: about the longest pause that is still a rhythm.",
        Minimum = 0.1,
        Maximum = 3600,
        Default = 5,
    };

    /// <summary>Value.</summary>
    public static readonly NumberKey Value = Signed("value", "Rule shown: value that the mark must have, for example the reason of a gate that shuts; any unless given.");

    /// <summary>Begin of the part.</summary>
    public static readonly NumberKey FromS = Limit("from_s", "s", "Part of the case that the requirement looks at: its begin; the start unless given. Rule shown: where the one stretch begins, in place of those that truth, acquisition and withhold_s know.", 3e7);

    /// <summary>End of the part.</summary>
    public static readonly NumberKey UntilS = Limit("until_s", "s", "Part of the case that the requirement looks at: its end, not included; the end unless given.", 3e7);

    /// <summary>Grace.</summary>
    public static readonly NumberKey GraceS = Limit("grace_s", "s", "Rule withheld: time that a detector has after a stretch begins.", 3600) with { HasDefault = true };

    /// <summary>Shown.</summary>
    public static readonly NumberKey WithinS = Limit("within_s", "s", "Rule shown: latest time of the mark after a stretch begins; must be given.", 3600);

    /// <summary>Latency.</summary>
    public static readonly NumberKey LatencyMsMax = Limit("latency_ms_max", "ms", "Rule prompt: greatest time from an event to the emission of its mark; must be given.", 3.6e6);

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        Id, Text, Clause, Channel, Kind, Rule, FromS, UntilS, WindowMs, SensitivityMin, PositivePredictivityMin, ErrorMax, ErrorPercentMax, Low, High,
        BeatsMin, BeatsMax, ShareMin, StandsS, FirstWithinS, GraceS, WithinS, Value, LatencyMsMax,
    ];

    /// <summary>The limits of a rule, those that must be given among them.</summary>
    /// <param name="rule">The rule.</param>
    public static IReadOnlyList<NumberKey> Of(RequirementRule rule) => rule switch
    {
        RequirementRule.Marks => [FromS, UntilS, WindowMs, SensitivityMin, PositivePredictivityMin],
        RequirementRule.Readings => [FromS, UntilS, ErrorMax, ErrorPercentMax, Low, High, BeatsMin, BeatsMax, ShareMin, StandsS, FirstWithinS],
        RequirementRule.Withheld => [FromS, UntilS, WindowMs, GraceS],
        RequirementRule.Shown => [FromS, WithinS, Value],
        RequirementRule.Prompt => [FromS, UntilS, WindowMs, LatencyMsMax, ShareMin],
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "Not a rule."),
    };

    private static NumberKey Share(string key, string meaning) => Limit(key, "", meaning, 1);

    private static NumberKey Signed(string key, string meaning) => Limit(key, "unit of the kind", meaning, 1e6) with { Minimum = -1e6 };

    private static NumberKey Beats(string key, string meaning) => Limit(key, "", meaning, 240) with { Minimum = 1, Default = 1, IsWhole = true };

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

    /// <summary>Keys that every requirement must have.</summary>
    internal static IReadOnlyList<KeyDefinition> Required { get; } = [Id, Text, Clause, Kind, Rule];

    private static FreeKey Free(string key, string meaning, string allowed, ValueShape shape) => new()
    {
        Name = $"{Section}.{key}",
        Meaning = meaning,
        HasDefault = false,
        Source = PlanSetKeys.Own,
        Allowed = allowed,
        Shape = shape,
    };
}
