// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>What one table of the time line does to one key.</summary>
internal sealed class PlannedChange
{
    /// <summary>The key.</summary>
    public required KeyDefinition Key { get; init; }

    /// <summary>When it takes over the key [s].</summary>
    public required double BeginSeconds { get; init; }

    /// <summary>Place of the value, for messages.</summary>
    public SourceSpan? Place { get; init; }

    /// <summary>Changes of a number, in order of time.</summary>
    public IReadOnlyList<CourseChange> Numbers { get; init; } = [];

    /// <summary>Changes of a word, in order of time.</summary>
    public IReadOnlyList<(double AtSeconds, string Word)> Words { get; init; } = [];

    /// <summary>A sine on top; it takes over nothing.</summary>
    public Oscillation? Swing { get; init; }
}
