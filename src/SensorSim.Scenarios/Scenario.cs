// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Requirements;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios;

/// <summary>A scenario: values of knobs, length, seed, requirements. With the generator version it is the identity of its stream.</summary>
public sealed class Scenario
{
    /// <summary>Version of the generator; a change that alters any code or truth raises it.</summary>
    public const int GeneratorVersion = 1;

    internal Scenario(KeyValues values, string text, string file)
    {
        Values = values;
        Text = text;
        File = file;
        Seed = (ulong)values[ScenarioKeys.Seed];
    }

    private Scenario(Scenario other, ulong seed)
    {
        Values = other.Values;
        Text = other.Text;
        File = other.File;
        Seed = seed;
    }

    /// <summary>Values of the knobs.</summary>
    public KeyValues Values { get; }

    /// <summary>The text it was read from.</summary>
    public string Text { get; }

    /// <summary>The file it was read from, as the user named it.</summary>
    public string File { get; }

    /// <summary>Seed of every random draw.</summary>
    public ulong Seed { get; }

    /// <summary>Title; the file's name when it has none.</summary>
    public string Title => Values.IsSet(ScenarioKeys.Title) ? Values[ScenarioKeys.Title] : Path.GetFileNameWithoutExtension(File);

    /// <summary>Length [s].</summary>
    public double DurationS => Values[ScenarioKeys.DurationS];

    /// <summary>The requirements that it sets, with their limits.</summary>
    public IEnumerable<(RequirementDefinition Definition, double Limit)> Requirements =>
        RequirementKeys.All.Where(r => Values.IsSet(r.Key)).Select(r => (r, Values[r.Key]));

    /// <summary>The same scenario with another seed.</summary>
    /// <param name="seed">The seed.</param>
    public Scenario WithSeed(ulong seed) => new(this, seed);

    /// <summary>Assembles its stream.</summary>
    public SensorStream CreateStream() => new(Values, Seed, DurationS);
}
