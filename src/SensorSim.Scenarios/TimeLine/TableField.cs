// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>One field of a time-line table: what reader, <c>explain</c> and docs say of it.</summary>
/// <param name="Name">Name with its unit, for example <c>over_s</c>.</param>
/// <param name="Unit">Unit; empty when it has none.</param>
/// <param name="Meaning">One sentence: what it does.</param>
/// <param name="Allowed">What may stand there, in words.</param>
/// <param name="Shape">What a schema can say of the value.</param>
/// <param name="IsRequired">Whether every such table needs it.</param>
public sealed record TableField(string Name, string Unit, string Meaning, string Allowed, ValueShape Shape, bool IsRequired = false);

/// <summary>A table of a scenario that may stand any number of times: <c>[[change]]</c>, <c>[[activity]]</c> or <c>[[setting]]</c>.</summary>
/// <param name="Name">Name, without brackets.</param>
/// <param name="Meaning">What one of them does.</param>
/// <param name="Fields">Its fields.</param>
public sealed record TimeLineTable(string Name, string Meaning, IReadOnlyList<TableField> Fields)
{
    /// <summary>Sets of fields of which exactly one set stands in each such table; empty: no such rule.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Ways { get; init; } = [];
}
