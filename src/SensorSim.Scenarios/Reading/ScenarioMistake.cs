// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Scenarios.Reading;

/// <summary>One mistake in a scenario file.</summary>
/// <param name="File">The file as the user named it.</param>
/// <param name="Line">Line, from 1; 0 when the file as a whole is meant.</param>
/// <param name="Column">Column, from 1; 0 when the line as a whole is meant.</param>
/// <param name="Message">What is wrong and what would be right, in one sentence.</param>
public sealed record ScenarioMistake(string File, int Line, int Column, string Message)
{
    /// <summary>The mistake on one line.</summary>
    public override string ToString() => Line == 0 ? $"{File}: {Message}"
        : Column == 0 ? string.Create(CultureInfo.InvariantCulture, $"{File}, line {Line}: {Message}")
        : string.Create(CultureInfo.InvariantCulture, $"{File}, line {Line}, column {Column}: {Message}");
}

/// <summary>A scenario file cannot be used; the message holds every mistake, one a line.</summary>
public sealed class ScenarioException : FormatException
{
    /// <summary>Creates the exception.</summary>
    /// <param name="mistakes">At least one mistake, in order of place.</param>
    public ScenarioException(IReadOnlyList<ScenarioMistake> mistakes)
        : base(string.Join('\n', mistakes)) => Mistakes = mistakes;

    /// <summary>The mistakes, in order of place.</summary>
    public IReadOnlyList<ScenarioMistake> Mistakes { get; }
}
