// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>Asks that the marks of a detector do not depend on the cut of the stream, nor on what it did before. Begin with <see cref="Keeps"/>.</summary>
public sealed class ContractConstraint : DetectorConstraint
{
    private readonly GivenScenario? _given;

    internal ContractConstraint(GivenScenario? given) => _given = given;

    /// <summary>What the detector is run on, four times for each seed.</summary>
    /// <param name="given">A scenario with its seeds; a minute is enough, best with gaps in it.</param>
    public ContractConstraint On(GivenScenario given) => _given is null
        ? new(given ?? throw new ArgumentNullException(nameof(given)))
        : throw new InvalidOperationException($"The constraint is on {_given} already; begin a new one for {given}.");

    /// <inheritdoc/>
    public override string Description => $"the same marks however the stream is cut, and from a second start{(_given is null ? "" : $", on {_given}")}";

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(TActual actual)
    {
        UnderTest? detector = UnderTest.Of(actual);
        if (detector is null or { HasAnswers: true })
        {
            throw new ArgumentException("The contract is a detector's; give one (UnderTest, IDetector, IDetectorFactory or a function that makes one).", nameof(actual));
        }

        return Apply(detector);
    }

    /// <inheritdoc/>
    public override ConstraintResult ApplyTo<TActual>(Func<TActual> code)
    {
        ArgumentNullException.ThrowIfNull(code);
        if (!typeof(Signals.Detectors.IDetector).IsAssignableFrom(typeof(TActual)))
        {
            return ApplyTo(code());
        }

        using UnderTest detector = UnderTest.Made(() => (Signals.Detectors.IDetector)code()!);
        return Apply(detector);
    }

    private Result Apply(UnderTest detector)
    {
        GivenScenario given = _given ?? throw new ArgumentException("Say what the detector is to be tested on: add On(Given.Scenario(...)).");
        foreach (ulong seed in given.SeedList)
        {
            if (Difference(given.Scenario.WithSeed(seed), detector, out bool isBroken) is string difference)
            {
                return new Result(this, detector, FormattableString.Invariant($"with seed {seed}, {difference}"), isBroken);
            }
        }

        return new Result(this, detector, null, isBroken: false);
    }

    private static string? Difference(Scenario scenario, UnderTest under, out bool isBroken)
    {
        isBroken = false;
        using Signals.Detectors.IDetector detector = under.Create();
        StreamFormat format = scenario.OpenStream().Format;
        long second = format.Clock.TicksPerSecond;
        IReadOnlyList<Mark> first;
        try
        {
            first = CutRun.Marks(scenario, detector, Cuts.Even(second));
            foreach ((string name, Cuts cuts) in new[]
            {
                ("a second start", Cuts.Even(second)), ("blocks of 100 ms", Cuts.Even(Math.Max(1, second / 10))), ("blocks of any length up to 1 s", Cuts.Any(second, scenario.Seed)),
            })
            {
                if (MarkLists.FirstDifference(first, CutRun.Marks(scenario, detector, cuts), format) is string difference)
                {
                    return $"{name}: {difference}";
                }
            }
        }
        catch (Exception e) when (e is not (OutOfMemoryException or NotSupportedException))
        {
            isBroken = true;
            return $"it threw {e.GetType().Name}: {e.Message}";
        }

        return null;
    }

    private sealed class Result(ContractConstraint constraint, UnderTest detector, string? difference, bool isBroken)
        : DetectorResult(constraint, detector, difference is null, isBroken)
    {
        public override void WriteActualValueTo(MessageWriter writer) => writer.Write($"{detector}: {difference ?? "the same marks"}");
    }
}
