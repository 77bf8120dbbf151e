// SPDX-License-Identifier: MIT
using SensorSim.Grading.Report;
using SensorSim.Grading.Running;
using SensorSim.Scenarios;
using SensorSim.Studies.Running;

namespace SensorSim.Grading.Groups;

/// <summary>Some lines of the table that belong together.</summary>
internal abstract class GradingGroup
{
    /// <summary>Name on the command line.</summary>
    public abstract string Name { get; }

    /// <summary>Heading in the table.</summary>
    public abstract string Title { get; }

    /// <summary>Whether all its inputs are scenarios, whose truth a check of this program can give.</summary>
    public virtual bool IsOfScenarios => true;

    /// <summary>Every group, in the order of the table.</summary>
    public static GradingGroup[] All() =>
    [
        new RecordedGroup(), new CleanGroup(), new NoiseGroup("muscle-noise", "Muscle noise", [99.8, 99.5, 98], [99.8, 99.5, 98]),
        new NoiseGroup("slow-motion", "Slow electrode motion", [99.5, 99, 97], [99.5, 98, 92]), new SharpMotionGroup(), new IrregularGroup(),
        new TallTGroup(), new FeetGroup(), new ArrivalGroup(), new SaturationGroup(), new WristGroup(), new DayGroup(), new FaultsGroup(),
        new BreathingGroup(), new SizeGroup(),
    ];

    /// <summary>Measures.</summary>
    public abstract IReadOnlyList<FigureRow> Run(GradingOptions options, Workers workers);

    /// <summary>Runs a scenario at seeds 1, 2, …</summary>
    protected static GradedRun[] Seeds(Scenario scenario, GradingOptions options, Workers workers, Func<Scenario, GradedRun>? run = null) =>
        workers.ForEach(Enumerable.Range(1, options.Seeds), seed => (run ?? (s => GradedRun.Of(s)))(scenario.WithSeed((ulong)seed)));

    /// <summary>What a detector did that no figure shows: it crashed or babbled.</summary>
    protected static string Trouble(IEnumerable<GradedRun> runs)
    {
        int count = runs.Count(r => r.Verdict is Verdict.Crashed or Verdict.Babbling);
        return count == 0 ? "" : FormattableString.Invariant($"; **crashed or babbled in {count} runs**");
    }

    /// <summary>The seeds in words.</summary>
    protected static string SeedText(GradingOptions options) => FormattableString.Invariant($"seeds 1 to {options.Seeds}");
}
