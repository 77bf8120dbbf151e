// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;

namespace SensorSim.Signals.Tests.Courses;

/// <summary>Courses of knobs: values by hand, integrals against Simpson's rule (textbook quadrature).</summary>
[TestFixture]
public sealed class CourseTests
{
    private static readonly CourseChange s_step = new(10, ChangeKind.Step, 100, 0);
    private static readonly CourseChange s_ramp = new(10, ChangeKind.Ramp, 100, 20);
    private static readonly CourseChange s_settle = new(10, ChangeKind.Settle, 100, 30);

    // Every kind, one cut short by the next, sines that overlap.
    private static Course Busy { get; } = new(
        60,
        [
            new(5, ChangeKind.Ramp, 90, 20), new(15, ChangeKind.Settle, 150, 12), new(40, ChangeKind.Step, 80, 0),
            new(50, ChangeKind.Ramp, 70, 4), new(70, ChangeKind.Settle, 65, 3),
        ],
        [new(12, 33, 4, 7), new(30, 61.5, -3, 11)]);

    [Test]
    public void Value_Nothing_StaysTheSame()
    {
        var course = new Course(72.5);

        Assert.That(new[] { -1e6, -0.1, 0, 3, 1e9 }.Select(course.Value), Is.All.EqualTo(72.5));
        Assert.That(course.IsConstant);
        Assert.That(course.Integral(-4), Is.EqualTo(-290));
    }

    // A step holds from its own instant on.
    [TestCase(-100, 60)]
    [TestCase(9.999, 60)]
    [TestCase(10, 100)]
    [TestCase(1e6, 100)]
    public void Value_Step_IsTheNewOneFromItsInstantOn(double seconds, double expected) =>
        Assert.That(new Course(60, [s_step], []).Value(seconds), Is.EqualTo(expected));

    [TestCase(10, 60)]
    [TestCase(15, 70)]
    [TestCase(20, 80)]
    [TestCase(30, 100)]
    [TestCase(31, 100)]
    public void Value_Ramp_IsAStraightLine(double seconds, double expected) =>
        Assert.That(new Course(60, [s_ramp], []).Value(seconds), Is.EqualTo(expected).Within(1e-12));

    // Share done after 15, 30, 60 and 90 s with a time constant of 30 s: 0.3935, 0.6321, 0.8647, 0.9502 (1 - exp(-t / 30)).
    [TestCase(15, 0.3935)]
    [TestCase(30, 0.6321)]
    [TestCase(60, 0.8647)]
    [TestCase(90, 0.9502)]
    public void Value_Settle_IsExponential(double after, double share) =>
        Assert.That(new Course(60, [s_settle], []).Value(10 + after), Is.EqualTo(60 + (40 * share)).Within(40 * 0.00005));

    [Test]
    public void Value_ChangeCutShort_LeavesNoJump()
    {
        // Half of the ramp is done at 20 s: 80.
        var course = new Course(60, [s_ramp, new(20, ChangeKind.Settle, 60, 5)], []);

        Assert.That(course.Value(20), Is.EqualTo(80).Within(1e-12));
        Assert.That(course.Value(19.999999), Is.EqualTo(80).Within(1e-5));
        Assert.That(course.Value(25), Is.EqualTo(60 + (20 / Math.E)).Within(1e-9));
    }

    [Test]
    public void Value_SameInstant_TheLastOneWins()
    {
        var course = new Course(60, [new(10, ChangeKind.Step, 70, 0), new(10, ChangeKind.Ramp, 90, 10), new(5, ChangeKind.Step, 50, 0)], []);

        Assert.That((course.Value(7), course.Value(10), course.Value(15), course.Value(20)), Is.EqualTo((50, 70, 80, 90)));
    }

    // Sine: 0 at its start, up at a quarter, down at three quarters of its period; gone at its end.
    [TestCase(0, 60)]
    [TestCase(5, 65)]
    [TestCase(15, 55)]
    [TestCase(25, 65)]
    [TestCase(29.9999, 60)]
    [TestCase(30, 60)]
    [TestCase(35, 60)]
    public void Value_Swing_IsASineForItsTime(double after, double expected) =>
        Assert.That(new Course(60, [], [new(100, 130, 5, 20)]).Value(100 + after), Is.EqualTo(expected).Within(1e-3));

    [Test]
    public void Value_SwingsAtOnce_Add()
    {
        var course = new Course(0, [], [new(0, 100, 3, 40), new(0, 100, 2, 40), new(5, 100, 1, 20)]);

        Assert.That(course.Value(10), Is.EqualTo(5 + 1).Within(1e-12));
    }

    [Test]
    public void Integral_BusyCourse_IsWhatQuadratureGives()
    {
        // Pieces between the places where the course bends or jumps; Simpson's rule with 2000 intervals errs below 1e-6 there.
        double[] bends = [-20, 0, 5, 12, 15, 30, 33, 40, 50, 54, 61.5, 70, 100];
        for (int i = 0; i + 1 < bends.Length; i++)
        {
            double expected = Simpson(Busy.Value, bends[i], bends[i + 1]);

            Assert.That(Busy.Integral(bends[i + 1]) - Busy.Integral(bends[i]), Is.EqualTo(expected).Within(1e-6), $"from {bends[i]} s");
        }

        Assert.That(Busy.Integral(0), Is.Zero);
        Assert.That(Busy.Integral(-20), Is.EqualTo(-20 * 60.0));
    }

    [Test]
    public void Integral_AnyTime_HasTheValueAsItsSlope()
    {
        foreach (double at in new[] { -3.0, 1, 8, 14, 20, 31, 36, 45, 52, 60, 75, 99 })
        {
            double slope = (Busy.Integral(at + 1e-4) - Busy.Integral(at - 1e-4)) / 2e-4;

            Assert.That(slope, Is.EqualTo(Busy.Value(at)).Within(1e-5), $"{at} s");
        }
    }

    [Test]
    public void Scaled_Course_IsTheSameTimesTheFactor()
    {
        Course third = Busy.Scaled(1 / 3.0);
        for (double t = -5; t < 90; t += 0.7)
        {
            Assert.That(third.Value(t), Is.EqualTo(Busy.Value(t) / 3).Within(1e-12));
            Assert.That(third.Integral(t), Is.EqualTo(Busy.Integral(t) / 3).Within(1e-9));
        }
    }

    [Test]
    public void ChoiceCourse_Words_HoldFromTheirInstantOn()
    {
        var course = new ChoiceCourse("sinus", [(20, "asystole"), (10, "paced"), (20, "sinus")]);

        Assert.That(
            new[] { -5, 0, 9.999, 10, 19.999, 20, 1e6 }.Select(course.Value),
            Is.EqualTo(new[] { "sinus", "sinus", "sinus", "paced", "paced", "sinus", "sinus" }));
        Assert.That(course.Words, Is.EquivalentTo(new[] { "sinus", "paced", "asystole" }));
        Assert.That((course.StretchAt(15), course.Word(1), course.IsConstant), Is.EqualTo((1, "paced", false)));
    }

    // Bends only at the ends: values are taken just inside.
    private static double Simpson(Func<double, double> f, double a, double b)
    {
        const int Intervals = 2000;
        const double Inside = 1e-9;
        double h = (b - a) / Intervals;
        double sum = f(a) + f(b - Inside);
        for (int i = 1; i < Intervals; i++)
        {
            sum += f(a + (i * h)) * (i % 2 == 0 ? 2 : 4);
        }

        return sum * h / 3;
    }
}
