// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Signals.Tests.Processes;

/// <summary>A phase whose mean frequency follows a course, and four sines at once.</summary>
public sealed class WanderingPhaseFrequencyTests
{
    private const string Name = "test.following";

    // The same process where both can do it, by its definition.
    [TestCase(0.95, 0.025)]
    [TestCase(0.25, 0)]
    public void At_CourseThatStays_IsTheWanderingPhase(double hertz, double spreadHz)
    {
        var wandering = new WanderingPhase(new KeyedRandom(4, Name), hertz, spreadHz, 0.005, 0.1);
        var following = new WanderingPhase(new KeyedRandom(4, Name), new Course(hertz), spreadHz, 0.005, 0.1);
        for (double t = -50; t < 5000; t += 7.3)
        {
            following.At(t, out double turns, out _);
            Assert.That(turns, Is.EqualTo(wandering.Turns(t)).Within(1e-11));
        }
    }

    // Frequency is the derivative of phase: against central differences, whose error is h²/6 of the third derivative.
    [Test]
    public void At_CourseThatChanges_HasTheFrequencyAsDerivative()
    {
        var course = new Course(
            1, [new CourseChange(10, ChangeKind.Ramp, 3, 20), new CourseChange(50, ChangeKind.Settle, 0.5, 7)], [new Oscillation(60, 90, 0.2, 9)]);
        var phase = new WanderingPhase(new KeyedRandom(4, Name), course, 0.05, 0.005, 0.1);
        const double H = 1e-3;
        double largest = 0;
        for (double t = 1.05; t < 100; t += 1.1)
        {
            phase.At(t - H, out double before, out _);
            phase.At(t + H, out double after, out _);
            phase.At(t, out _, out double hertz);
            Assert.That((after - before) / (2 * H), Is.EqualTo(hertz).Within(1e-6), $"at {t} s");
            largest = Math.Max(largest, Math.Abs(hertz - course.Value(t)));
        }

        Assert.That(largest, Is.InRange(0.03, 0.2), "it wanders about its course");
    }

    [Test]
    public void SinCosTurns_FourAtOnce_AreTheBitsOfOneByOne()
    {
        var random = new KeyedRandom(9, Name);
        for (int i = 0; i < 20_000; i++)
        {
            double scale = (i % 5) switch { 0 => 1, 1 => 1e3, 2 => 1e9, 3 => 1e-5, _ => 0.25 };
            double Turn(int lane) => i % 7 == 0 ? Math.Round(8 * random.Uniform((4 * i) + lane)) * 0.125 : ((2 * random.Uniform((4 * i) + lane)) - 1) * scale;
            var turns = Vector256.Create(Turn(0), Turn(1), Turn(2), Turn(3));
            PortableMath.SinCosTurns(turns, out Vector256<double> sin, out Vector256<double> cos);
            for (int lane = 0; lane < 4; lane++)
            {
                PortableMath.SinCosTurns(turns.GetElement(lane), out double s, out double c);
                Assert.That(BitConverter.DoubleToInt64Bits(sin.GetElement(lane)), Is.EqualTo(BitConverter.DoubleToInt64Bits(s)));
                Assert.That(BitConverter.DoubleToInt64Bits(cos.GetElement(lane)), Is.EqualTo(BitConverter.DoubleToInt64Bits(c)));
            }
        }
    }
}
