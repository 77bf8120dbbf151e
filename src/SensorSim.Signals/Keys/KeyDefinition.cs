// SPDX-License-Identifier: MIT
namespace SensorSim.Signals.Keys;

/// <summary>One knob, defined once beside the model it drives: reader, schema, <c>explain</c> and docs all read it from here.</summary>
public abstract record KeyDefinition
{
    /// <summary>Full name, section and key, for example <c>heart.rate_bpm</c>; the unit is in the key.</summary>
    public required string Name { get; init; }

    /// <summary>Unit in words or symbols; empty for a pure number or a choice.</summary>
    public string Unit { get; init; } = "";

    /// <summary>One sentence: what it does, and what going up does.</summary>
    public required string Meaning { get; init; }

    /// <summary>Where default and range come from: a publication, common practice, or a choice of this project.</summary>
    public required string Source { get; init; }

    /// <summary>Whether the knob may change during a scenario (true) or is fixed for its whole length (false).</summary>
    public bool IsLive { get; init; }

    /// <summary>Whether the knob has a value when the scenario does not say; false: it is then simply off.</summary>
    public bool HasDefault { get; init; } = true;

    /// <summary>Section of the key: the part before the last dot.</summary>
    public string Section => Name[..Name.LastIndexOf('.')];

    /// <summary>Key without its section.</summary>
    public string Key => Name[(Name.LastIndexOf('.') + 1)..];

    /// <summary>The default in text form.</summary>
    public abstract string DefaultText { get; }

    /// <summary>The allowed values in words, for example <c>30 to 220</c>.</summary>
    public abstract string RangeText { get; }
}
