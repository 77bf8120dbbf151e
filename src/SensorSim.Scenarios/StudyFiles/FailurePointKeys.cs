// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Keys of <c>[failure_point]</c>.</summary>
public static class FailurePointKeys
{
    internal const string Section = "failure_point";
    internal const string Pooled = "pooled";
    internal const string Runs = "runs";
    internal const string Logistic = "logistic";
    internal const string Probit = "probit";

    /// <summary>What fails.</summary>
    public static readonly ChoiceKey Of = new()
    {
        Name = "failure_point.of",
        Meaning = "What crosses the requirement there: the figure pooled over seeds and persons, or the share of runs that meet it.",
        Source = StudySectionKeys.Own,
        Choices = [Pooled, Runs],
        Default = Pooled,
    };

    /// <summary>Share of runs.</summary>
    public static readonly NumberKey PassFraction = new()
    {
        Name = "failure_point.pass_fraction",
        Meaning = "With of = \"runs\": share of runs that must meet the requirement; up asks for more.",
        Source = StudySectionKeys.Own,
        Minimum = 0.01,
        Maximum = 0.99,
        Default = 0.95,
    };

    /// <summary>Curve.</summary>
    public static readonly ChoiceKey Curve = new()
    {
        Name = "failure_point.curve",
        Meaning = "Shape of the curve that is fitted through the levels.",
        Source = "The two shapes in common use for such curves.",
        Choices = [Logistic, Probit],
        Default = Logistic,
    };

    /// <summary>Resamples.</summary>
    public static readonly NumberKey Resamples = StudySectionKeys.Count(
        "failure_point.resamples", "Resamples of whole seeds and persons for the 95 % interval; more make its ends steadier.", 100_000, 2000) with
    {
        Minimum = 100,
    };

    /// <summary>Adaptive.</summary>
    public static readonly FlagKey Adaptive = new()
    {
        Name = "failure_point.adaptive",
        Meaning = "Whether runs are spent where they tell most, instead of on every point with every seed.",
        Source = StudySectionKeys.Own,
    };

    /// <summary>Precision.</summary>
    public static readonly NumberKey Precision = new()
    {
        Name = "failure_point.precision",
        Meaning = "Adaptive: half the width of the 95 % interval at which the search stops, in the unit of the varied key; must be given then.",
        HasDefault = false,
        Source = StudySectionKeys.Own,
        Minimum = 1e-9,
        Maximum = 1e9,
        Default = 1,
    };

    /// <summary>Most runs.</summary>
    public static readonly NumberKey MostRuns = StudySectionKeys.Count(
        "failure_point.most_runs", "Adaptive: most runs that are spent; as many as the whole study has unless given.", 1e9, 1) with
    {
        HasDefault = false,
    };

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Of, PassFraction, Curve, Resamples, Adaptive, Precision, MostRuns];
}
