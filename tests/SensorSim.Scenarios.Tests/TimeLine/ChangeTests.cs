// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>What a <c>[[change]]</c> does to its key; values by arithmetic.</summary>
[TestFixture]
public sealed class ChangeTests
{
    private const string Rate = "[[change]]\nkey = \"heart.rate_bpm\"\nat_s = ";

    [TestCase("step_to = 90\n", 10, 90)]
    [TestCase("ramp_to = 95\nover_s = 20\n", 20, 80)]
    [TestCase("ramp_to = 95\nover_s = 20\n", 40, 95)]
    [TestCase("settle_to = 95\ntime_constant_s = 20\n", 30, 95 - (30 * 0.36788))]
    [TestCase("swing_by = -8\nperiod_s = 20\nfor_s = 16\n", 15, 57)]
    [TestCase("swing_by = -8\nperiod_s = 20\nfor_s = 16\n", 25.99, 72.6)]
    [TestCase("swing_by = -8\nperiod_s = 20\nfor_s = 16\n", 26, 65)]
    [TestCase("follow = [[0, 70], [10, 80], [12, 60]]\n", 10, 70)]
    [TestCase("follow = [[0, 70], [10, 80], [12, 60]]\n", 15, 75)]
    [TestCase("follow = [[0, 70], [10, 80], [12, 60]]\n", 21, 70)]
    [TestCase("follow = [[0, 70], [10, 80], [12, 60]]\n", 50, 60)]
    [TestCase("follow = [[4, 69]]\n", 12, 67)]
    public void ReadText_Way_GoesAsItSays(string way, double seconds, double expected)
    {
        Course course = Read(Rate + "10\n" + way).Course(HeartKeys.RateBpm);

        Assert.That(course.Value(9.999), Is.EqualTo(65).Within(0.01), "before");
        Assert.That(course.Value(seconds), Is.EqualTo(expected).Within(0.02));
    }

    [Test]
    public void ReadText_NoChange_LeavesKeysConstant()
    {
        KeyValues values = Read("[heart]\nrate_bpm = 80\n");

        Assert.That(AllKeys.List().Where(values.IsChanging), Is.Empty);
        Assert.That(values.Course(HeartKeys.RateBpm).IsConstant);
    }

    // The table that begins last speaks, wherever it stands in the file: what is left of the line is dropped.
    [Test]
    public void ReadText_ChangeDuringAnother_TakesOver()
    {
        Course course = Read(Rate + "30\nstep_to = 100\n" + Rate + "10\nfollow = [[0, 70], [10, 80], [30, 60], [40, 50]]\n").Course(HeartKeys.RateBpm);

        Assert.That(new[] { 15, 20, 29.999, 30, 45, 59 }.Select(course.Value), Is.EqualTo(new[] { 75, 80, 70, 100, 100, 100.0 }).Within(0.01));
    }

    [Test]
    public void ReadText_SwingDuringRamp_ComesOnTop()
    {
        Course course = Read(Rate + "10\nramp_to = 85\nover_s = 20\n" + Rate + "15\nswing_by = 6\nperiod_s = 4\nfor_s = 10\n").Course(HeartKeys.RateBpm);

        Assert.That((course.Value(16), course.Value(17), course.Value(30)), Is.EqualTo((71 + 6.0, 72.0, 85.0)).Using<double>((a, b) => Math.Abs(a - b) < 1e-9));
    }

    // Quoted and bare names, inline spaces and comments mean the same (toml.io/en/v1.0.0).
    [TestCase("[[ change ]]\n\"at_s\" = 10 # start\n'key' = 'heart.rate_bpm'\nstep_to = 9_0.0\n")]
    [TestCase("[[\"change\"]]\nstep_to = +90\nkey = \"heart.rate_bpm\"\nat_s = 1e1\n")]
    public void ReadText_FormsOfTheSame_ReadTheSame(string text) =>
        Assert.That(Read(text).Course(HeartKeys.RateBpm).Changes, Is.EqualTo(new[] { new CourseChange(10, ChangeKind.Step, 90, 0) }));

    [Test]
    public void ReadText_Counts_AreKept()
    {
        Scenario scenario = ScenarioReader.ReadText(Rate + "3\nstep_to = 70\n" + Rate + "4\nstep_to = 70\n[[activity]]\nat_s = 9\nname = \"lying\"\n", "a.toml");

        Assert.That((scenario.ChangeCount, scenario.ActivityCount), Is.EqualTo((2, 1)));
    }

    [Test]
    public void WithSeed_TimeLine_Stays()
    {
        Scenario scenario = ScenarioReader.ReadText(Rate + "3\nstep_to = 70\n", "a.toml");

        Assert.That(scenario.WithSeed(9).Values.Course(HeartKeys.RateBpm).Value(5), Is.EqualTo(70));
        Assert.That(scenario.WithSubject(9).Values.Course(HeartKeys.RateBpm).Value(5), Is.EqualTo(70));
        Assert.That(scenario.WithSubject(9).Values.Course(HeartKeys.RateBpm).Value(2), Is.EqualTo(scenario.WithSubject(9).Values[HeartKeys.RateBpm]));
    }

    [Test]
    public void Breathing_Rate_MayChange() =>
        Assert.That(Read("[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 3\nstep_to = 20\n").Course(BreathingKeys.RatePerMin).Value(5), Is.EqualTo(20));

    private static KeyValues Read(string text) => ScenarioReader.ReadText(text, "a.toml").Values;
}
