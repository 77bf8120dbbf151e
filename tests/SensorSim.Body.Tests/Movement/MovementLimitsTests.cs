// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Movement;

/// <summary>The cadence that a scenario reaches while somebody walks or runs; worked by hand.</summary>
public sealed class MovementLimitsTests
{
    private static IEnumerable<TestCaseData> Cases()
    {
        yield return Case("at rest", new KeyValues().Set(MovementKeys.CadenceHz, 0), double.PositiveInfinity, double.NegativeInfinity);
        yield return Case("by default", Walking(), 1.9, 1.9);
        yield return Case("standing while walking", Walking().Set(MovementKeys.CadenceHz, 0), 0, 0);
        yield return Case("run later", Walking().SetChanges(MovementKeys.Activity, [(10, "running"), (20, "rest")]), 1.9, 2.7);
        yield return Case("ramp", Walking().SetChanges(MovementKeys.CadenceHz, [new CourseChange(5, ChangeKind.Ramp, 0, 10)], []), 0, 1.9);
        yield return Case(
            "slow before the walk only",
            new KeyValues().Set(MovementKeys.CadenceHz, 0)
                .SetChanges(MovementKeys.CadenceHz, [new CourseChange(5, ChangeKind.Ramp, 2, 5)], []).SetChanges(MovementKeys.Activity, [(10, "walking")]),
            2,
            2);
        yield return Case(
            "walk begins half way up a ramp",
            new KeyValues().Set(MovementKeys.CadenceHz, 1)
                .SetChanges(MovementKeys.CadenceHz, [new CourseChange(5, ChangeKind.Ramp, 2, 10)], []).SetChanges(MovementKeys.Activity, [(10, "walking")]),
            1.5,
            2);
        yield return Case("sine", Walking().SetChanges(MovementKeys.CadenceHz, [], [new Oscillation(0, 9, 0.4, 3)]), 1.5, 2.3);
        yield return Case("heart rate", Walking().Set(MovementKeys.CadencePerBeat, 0.25).Set(HeartKeys.RateBpm, 60), 0.25, 0.25);
    }

    [TestCaseSource(nameof(Cases))]
    public void Cadence_OfAScenario_IsWhatItReachesWhileWalking(KeyValues values, double slowestHz, double fastestHz)
    {
        MovementLimits.Cadence(values, out double slowest, out double fastest);
        Assert.That(slowest, Is.EqualTo(slowestHz).Within(1e-12));
        Assert.That(fastest, Is.EqualTo(fastestHz).Within(1e-12));
    }

    // What is refused must still not break anything: steps that stand still or run backwards.
    [TestCase(0, 0.3)]
    [TestCase(0, 0)]
    [TestCase(0.3, 0.3)]
    public void Movement_OfARefusedCadence_IsFiniteAllTheSame(double cadenceHz, double spreadHz)
    {
        KeyValues values = Walking().Set(MovementKeys.CadenceHz, cadenceHz).Set(MovementKeys.CadenceSpreadHz, spreadHz);
        Drawn drawn = Drawn.Of(values, 300);
        Assert.That(drawn.X.Concat(drawn.Y).Concat(drawn.Z).Max(Math.Abs), Is.LessThan(5));
    }

    private static KeyValues Walking() => new KeyValues().Set(MovementKeys.Activity, "walking");

    private static TestCaseData Case(string name, KeyValues values, double slowestHz, double fastestHz) =>
        new TestCaseData(values, slowestHz, fastestHz).SetArgDisplayNames(name);
}
