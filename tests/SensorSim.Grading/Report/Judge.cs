// SPDX-License-Identifier: MIT
namespace SensorSim.Grading.Report;

/// <summary>Collects the limits of one line of the table and says whether they are met, or by how much not.</summary>
internal sealed class Judge
{
    /// <summary>What is said where the detector gives nothing of the kind.</summary>
    public const string NotGiven = "not given yet";

    private readonly List<string> _limits = [];
    private readonly List<string> _failures = [];
    private bool _isUndefined;

    /// <summary>The limits in words.</summary>
    public string Requirement => _limits.Count == 0 ? "reported" : string.Join(", ", _limits);

    /// <summary>The verdict in words.</summary>
    public string Verdict => _isUndefined ? NotGiven : _limits.Count == 0 ? "reported" : _failures.Count == 0 ? "met" : "no: " + string.Join("; ", _failures);

    /// <summary>A figure has to reach a limit.</summary>
    /// <param name="what">Name of the figure.</param>
    /// <param name="value">The figure; null where it is undefined, which does not meet the limit.</param>
    /// <param name="limit">The limit, in the same unit.</param>
    /// <param name="unit">Unit.</param>
    public Judge AtLeast(string what, double? value, double limit, string unit)
    {
        _limits.Add(Invariant($"{what} ≥ {limit:0.###}{Unit(unit)}"));
        _isUndefined |= value is null;
        if (value is not null && !(value >= limit))
        {
            _failures.Add($"{what} {Figures.Gap(limit - value.Value)}{Unit(unit)} short");
        }

        return this;
    }

    /// <summary>The magnitude of a figure may not exceed a limit.</summary>
    /// <inheritdoc cref="AtLeast"/>
    public Judge AtMost(string what, double? value, double limit, string unit)
    {
        _limits.Add(Invariant($"{what} ≤ {limit:0.###}{Unit(unit)}"));
        _isUndefined |= value is null;
        if (value is double v && !(Math.Abs(v) <= limit))
        {
            _failures.Add($"{what} {Figures.Gap(Math.Abs(v) - limit)}{Unit(unit)} over");
        }

        return this;
    }

    /// <summary>A line with these limits.</summary>
    /// <param name="input">What was fed in.</param>
    /// <param name="measured">What came out.</param>
    public FigureRow Row(string input, string measured) => new(input, Requirement, _isUndefined && measured.Length == 0 ? "-" : measured, Verdict);

    private static string Unit(string unit) => unit.Length == 0 ? "" : " " + unit;

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
