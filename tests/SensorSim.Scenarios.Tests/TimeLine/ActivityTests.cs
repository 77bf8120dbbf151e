// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Movement;
using SensorSim.Body.Pressure;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>Activities: what they do to the body, how fast, and what wins over them.</summary>
[TestFixture]
public sealed class ActivityTests
{
    private const string Long = "[scenario]\nduration_s = 2000\n";

    [Test]
    public void Keys_OfActivities_MayChange()
    {
        KeyDefinition[] missing = [.. Activities.Keys.Where(key => AllKeys.Find(key.Name) != key || !ChangingKeys.MayChange(key))];

        Assert.That(missing, Is.Empty);
        Assert.That(Activities.Keys, Does.Contain(HeartKeys.RateBpm).And.Contain(BreathingKeys.RatePerMin));
    }

    // The words must be among those of the keys, or nothing would change.
    [Test]
    public void Words_OfActivities_AreThoseOfTheirKeys() => Assert.That(
        Activities.All.Where(a => !MovementKeys.Activity.Choices.Contains(a.Movement) || !MovementKeys.Posture.Choices.Contains(a.Posture)), Is.Empty);

    // 208 - 0.7 x 40 = 180 bpm is the largest rate (Tanaka et al., J Am Coll Cardiol 37:153, 2001, from memory). From 60 bpm at rest the
    // reserve is 120 bpm. Light to moderate work is 20 to 59 % of the reserve, vigorous 60 % and more (ACSM's guidelines, from memory).
    [TestCase("walking", "0", 0.2, 0.59)]
    [TestCase("walking", "1", 0.2, 0.59)]
    [TestCase("running", "0", 0.6, 1)]
    [TestCase("running", "1", 0.6, 1)]
    public void HeartRate_Exercise_UsesItsShareOfTheReserve(string name, string intensity, double least, double most)
    {
        double rate = Rate(Activity(10, name, $"intensity = {intensity}\n")).Value(1000);

        Assert.That((rate - 60) / 120, Is.InRange(least - 1e-9, most + 1e-9));
    }

    // Order of the trade: sleep below lying below sitting below standing below walking below running (from memory).
    [Test]
    public void HeartRate_Activities_StandInTheirOrder()
    {
        string[] order = ["sleeping", "lying", "sitting", "standing", "walking", "running"];
        double[] rates = [.. order.Select(n => Rate(Activity(10, n)).Value(1900))];

        Assert.That(rates, Is.Ordered.Ascending);
        Assert.That(rates[2], Is.EqualTo(60));
        Assert.That(rates[0] / 60, Is.InRange(0.8, 0.9), "10 to 20 % down in sleep (from memory)");
        Assert.That(rates[3] - 60, Is.InRange(8, 15), "about 10 bpm on standing (from memory)");
    }

    // A larger resting rate leaves less reserve, and so does age.
    [TestCase("[heart]\nrate_bpm = 60\n[subject]\nage_years = 20\n", 60 + (0.35 * (194 - 60)))]
    [TestCase("[heart]\nrate_bpm = 80\n[subject]\nage_years = 70\n", 80 + (0.35 * (159 - 80)))]
    public void HeartRate_Walking_IsRelativeToThePerson(string person, double expected) => Assert.That(
        ScenarioReader.ReadText(Long + person + Activity(10, "walking"), "a").Values.Course(HeartKeys.RateBpm).Value(900), Is.EqualTo(expected).Within(1e-6));

    // Moderate exercise begins with a time constant of 20 to 60 s (from memory); 55 s separates fit from unfit after it (Wang et al., IEEE
    // EMBS 2006). After one time constant 63.2 % is done.
    [TestCase("walking")]
    [TestCase("running")]
    public void HeartRate_OnAndOff_FollowTheBodysTimeConstants(string name)
    {
        Course rate = Rate(Activity(100, name, "for_s = 600\n"));
        double top = rate.Value(699.9);

        Assert.That(TimeOf(rate, 100, 60 + (0.632 * (top - 60))), Is.InRange(20, 60), "on");
        Assert.That(TimeOf(rate, 700, 60 + (0.368 * (top - 60))), Is.EqualTo(55).Within(0.5), "off");
        Assert.That(rate.Value(1900), Is.EqualTo(60).Within(1e-3));
    }

    [Test]
    public void HeartRate_RunningToWalking_FallsWithTheSlowConstant()
    {
        Course rate = Rate(Activity(100, "walking") + Activity(400, "running") + Activity(900, "walking"));

        Assert.That(rate.Changes.Select(c => c.OverSeconds), Is.EqualTo(new[] { 30, 30, 55 }));
    }

    // Protocol: walk, run, recover, sit; nothing jumps.
    [Test]
    public void HeartRate_Protocol_HasNoJump()
    {
        Course rate = Rate(Activity(60, "walking") + Activity(360, "running") + Activity(660, "recovering") + Activity(900, "sitting"));
        double largest = 0;
        for (double t = 0; t < 1200; t += 0.5)
        {
            largest = Math.Max(largest, Math.Abs(rate.Value(t + 0.5) - rate.Value(t)));
        }

        Assert.That(largest, Is.InRange(0.5, 3), "bpm in half a second");
        Assert.That(rate.Value(655), Is.GreaterThan(rate.Value(355) + 30));
    }

    [Test]
    public void HeartRate_AtTheStart_IsSettled()
    {
        Course rate = Rate(Activity(0, "walking", "for_s = 300\n"));

        Assert.That(new[] { -20.0, 0, 100, 299 }.Select(rate.Value), Is.All.EqualTo(102).Within(1e-9));
        Assert.That(rate.Value(1900), Is.EqualTo(60).Within(1e-3));
    }

    // A change that begins later speaks for the key from its time on, over the return to sitting too; the next activity takes the key again.
    [Test]
    public void HeartRate_ChangeDuringActivity_WinsUntilTheNextActivity()
    {
        const string Change = "[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 200\nstep_to = 75\n";
        Course rate = Rate(Activity(100, "walking", "for_s = 200\n") + Change + Activity(500, "lying"));

        Assert.That(new[] { 200.0, 299, 301, 499 }.Select(rate.Value), Is.All.EqualTo(75));
        Assert.That(rate.Value(1900), Is.EqualTo(57).Within(0.01));
        Assert.That(rate.Value(199), Is.GreaterThan(95));
    }

    [Test]
    public void HeartRate_ChangeAtTheSameTime_WinsOverTheActivity() => Assert.That(
        Rate("[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 100\nstep_to = 75\n" + Activity(100, "walking")).Value(500), Is.EqualTo(75));

    [Test]
    public void HeartRate_ActivityWithinAnother_DropsItsReturn() =>
        Assert.That(Rate(Activity(100, "walking", "for_s = 200\n") + Activity(250, "running")).Value(800), Is.GreaterThan(120));

    // Vagal: less respiratory variability on standing and in exercise, most lying and asleep (Task Force, Circulation 93:1043, 1996).
    [Test]
    public void Variability_Activities_StandInTheirOrder()
    {
        string[] order = ["running", "walking", "standing", "sitting", "lying", "sleeping"];

        Assert.That(
            order.Select(n => Read(Activity(10, n)).Course(HeartKeys.RespiratoryVariabilityMs).Value(1900)), Is.Ordered.Ascending);
        Assert.That(Read(Activity(10, "running")).Course(HeartKeys.SlowVariabilityMs).Value(1900), Is.LessThan(5));
    }

    // 12 to 20 breaths a minute at rest, about 50 in the hardest exercise (from memory).
    [Test]
    public void Breathing_Activities_StayWithinTheBodysRange()
    {
        Assert.That(Breathing("sitting", ""), Is.EqualTo(15));
        Assert.That(Breathing("walking", ""), Is.InRange(18, 30));
        Assert.That(Breathing("running", "intensity = 1\n"), Is.InRange(40, 50));
        Assert.That(Breathing("sleeping", ""), Is.InRange(12, 15));
    }

    // Dynamic exercise: systolic up by about 10 mmHg per MET to 180 to 210, diastolic flat or down (from memory; signs: Heimark et al.,
    // Blood Press Monit 2021). Walking 2 to 5 MET, running 7 to 12 MET, sitting 1 MET (from memory). Sleep: 11 / 8 mmHg down (Morris et
    // al., Am J Hypertens 26:822, 2013). At rest 120 / 80 mmHg.
    [TestCase("walking", 0, 10, 10)]
    [TestCase("walking", 1, 40, 10)]
    [TestCase("running", 0, 60, 10)]
    [TestCase("running", 1, 90, 10)]
    [TestCase("sleeping", 0.5, -11, 2)]
    public void Pressure_Systolic_ChangesAsPublished(string name, double intensity, double expected, double within)
    {
        string how = Activities.Find(name)!.IsExercise ? FormattableString.Invariant($"intensity = {intensity}\n") : "";
        KeyValues values = Read(Activity(10, name, how));
        double diastolic = values.Course(PressureKeys.DiastolicMmhg).Value(1990) - 80;
        double pulse = values.Course(PressureKeys.PulsePressureMmhg).Value(1990) - 40;

        Assert.That(diastolic + pulse, Is.EqualTo(expected).Within(within));
        Assert.That(diastolic, Is.LessThanOrEqualTo(0));
    }

    // Walking 1.98 +- 0.15 Hz (Wu et al., arXiv 2203.10563, 2022); range 1.4 to 2.5 and 2.5 to 3.2 Hz (from memory).
    [Test]
    public void Cadence_WalkingAndRunning_LieInTheirRanges()
    {
        Graded walking = Activities.Find("walking")!.CadenceHz!.Value;
        Graded running = Activities.Find("running")!.CadenceHz!.Value;

        Assert.That(walking.At(0.5), Is.EqualTo(1.98).Within(0.15));
        Assert.That((walking.Easy, walking.Hard, running.Easy, running.Hard), Is.EqualTo((1.4, 2.5, 2.5, 3.2)).Using<double>((a, b) => Math.Abs(a - b) <= 0.3));
        Assert.That(Activities.All.Where(a => !a.IsExercise).Select(a => a.CadenceHz), Is.All.Null);
    }

    [TestCase("name = \"runing\"\n", "3, column 8: \"runing\" is no activity; the nearest is \"running\" of \"lying\", \"sitting\", \"standing\", \"walking\", \"running\", \"recovering\", \"sleeping\"")]
    [TestCase("name = 3\n", "3, column 8: name = 3 must be text in quotation marks")]
    [TestCase("", "1, column 3: [[activity]] needs name: lying, sitting, standing, walking, running, recovering, sleeping")]
    [TestCase("name = \"lying\"\nintensity = 0.5\n", "4, column 13: intensity says how hard walking and running is; leave it out for lying")]
    [TestCase("name = \"walking\"\nintensity = 1.5\n", "4, column 13: intensity = 1.5 is outside of 0 to 1")]
    [TestCase("name = \"walking\"\nfor_s = 0\n", "4, column 9: for_s = 0 must be above 0 s")]
    [TestCase("name = \"walking\"\nintense = 1\n", "4, column 1: intense is no field of [[activity]]; the nearest is intensity")]
    public void ReadText_WrongActivity_SaysWhatWouldBeRight(string rest, string expected) =>
        Assert.That(Mistaken.Line("[[activity]]\nat_s = 5\n" + rest), Is.EqualTo("a.toml, line " + expected));

    [Test]
    public void ReadText_TwoAtOnce_NamesBoth() => Assert.That(
        Mistaken.Line(Activity(5, "lying") + Activity(5, "walking")),
        Is.EqualTo("a.toml, line 6, column 8: walking begins at 5 s like lying of line 3; one activity at a time"));

    // 20 bpm is the lowest rate there is: asleep, 22 bpm would become 19.4.
    [Test]
    public void ReadText_TargetOutOfRange_SaysWhichWay() => Assert.That(
        Mistaken.Line("[heart]\nrate_bpm = 22\n" + Activity(5, "sleeping")),
        Is.EqualTo("a.toml, line 5, column 8: sleeping would take heart.rate_bpm to 19.4, outside of 20 to 250 bpm; set rate_bpm in [heart] higher"));

    private static double Breathing(string name, string more) => Read(Activity(10, name, more)).Course(BreathingKeys.RatePerMin).Value(1900);

    private static Course Rate(string timeLine) => Read("[heart]\nrate_bpm = 60\n" + timeLine).Course(HeartKeys.RateBpm);

    private static KeyValues Read(string text) => ScenarioReader.ReadText(Long + text, "a.toml").Values;

    private static string Activity(double at, string name, string more = "") =>
        FormattableString.Invariant($"[[activity]]\nat_s = {at}\nname = \"{name}\"\n{more}");

    // How long after a time the course reaches a value.
    private static double TimeOf(Course course, double from, double value)
    {
        bool isBelow = course.Value(from) < value;
        double t = from;
        while (course.Value(t) < value == isBelow)
        {
            t += 0.05;
        }

        return t - from;
    }
}
