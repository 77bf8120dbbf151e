// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Tests.Reading;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>Changes that are wrong: file, line, column, key, what is wrong and what would be right.</summary>
[TestFixture]
public sealed class ChangeMistakeTests
{
    private const string Head = "[[change]]\nat_s = 5\n";
    private const string Rate = Head + "key = \"heart.rate_bpm\"\n";

    [TestCase("key = \"heart.rate_bmp\"\nstep_to = 70\n", "3, column 7: heart.rate_bmp is no key; the nearest is heart.rate_bpm")]
    [TestCase("key = \"rate_bpm\"\nstep_to = 70\n", "3, column 7: rate_bpm is no key; the nearest is heart.rate_bpm")]
    [TestCase("key = 3\nstep_to = 70\n", "3, column 7: key = 3 must be text in quotation marks")]
    [TestCase("step_to = 70\n", "1, column 3: [[change]] needs key: a key that may change over time")]
    [TestCase("key = \"subject.age_years\"\nstep_to = 70\n", "3, column 7: subject.age_years holds for the whole scenario; no key of [subject] may change")]
    [TestCase("key = \"scenario.title\"\nstep_to = \"x\"\n", "3, column 7: scenario.title holds for the whole scenario; no key of [scenario] may change")]
    public void ReadText_WrongKey_NamesWhatMayChange(string rest, string expected) =>
        Assert.That(Mistaken.Line(Head + rest), Is.EqualTo("a.toml, line " + expected));

    [TestCase("heart.slow_frequency_hz", "rate_bpm")]
    [TestCase("optics.rate_hz", "red_na")]
    public void ReadText_FixedKey_ListsTheLiveOnesOfItsSection(string name, string live) => Assert.That(
        Mistaken.Line($"{Head}key = \"{name}\"\nstep_to = 100\n"),
        Does.StartWith($"a.toml, line 3, column 7: {name} holds for the whole scenario; of [{name.Split('.')[0]}] may change: ").And.Contain($"{live}, "));

    [TestCase("step_to = 300\n", "4, column 11: step_to of heart.rate_bpm = 300 is outside of 20 to 250 bpm")]
    [TestCase("step_to = \"fast\"\n", "4, column 11: step_to of heart.rate_bpm = \"fast\" must be a number, 20 to 250 bpm")]
    [TestCase("step_to = nan\n", "4, column 11: step_to of heart.rate_bpm = NaN is outside of 20 to 250 bpm")]
    [TestCase("ramp_to = 19\nover_s = 3\n", "4, column 11: ramp_to of heart.rate_bpm = 19 is outside of 20 to 250 bpm")]
    [TestCase("settle_to = 1e9\ntime_constant_s = 3\n", "4, column 13: settle_to of heart.rate_bpm = 1000000000 is outside of 20 to 250 bpm")]
    [TestCase("follow = [[0, 70], [3, 251]]\n", "4, column 24: follow of heart.rate_bpm = 251 is outside of 20 to 250 bpm")]
    public void ReadText_ValueOutOfRange_SaysTheRange(string rest, string expected) =>
        Assert.That(Mistaken.Line(Rate + rest), Is.EqualTo("a.toml, line " + expected));

    [TestCase("", "1, column 3: [[change]] needs one of step_to, ramp_to, settle_to, swing_by, follow")]
    [TestCase("ramp_to = 70\n", "1, column 3: [[change]] needs over_s: above 0")]
    [TestCase("settle_to = 70\n", "1, column 3: [[change]] needs time_constant_s: above 0")]
    [TestCase("swing_by = 7\nperiod_s = 3\n", "1, column 3: [[change]] needs for_s: above 0")]
    [TestCase("step_to = 70\nramp_to = 80\nover_s = 3\n", "5, column 11: step_to and ramp_to stand together; one [[change]] goes one way, so write another [[change]]")]
    [TestCase("step_to = 70\nover_s = 3\n", "5, column 10: over_s belongs to ramp_to; leave it out beside step_to")]
    [TestCase("ramp_to = 70\nover_s = 3\nfor_s = 5\n", "6, column 9: for_s belongs to swing_by; leave it out beside ramp_to")]
    [TestCase("step_to = 70\nsteps_to = 70\n", "5, column 1: steps_to is no field of [[change]]; the nearest is step_to")]
    [TestCase("step_to = 70\nheart.rate_bpm = 70\n", "5, column 1: heart.rate_bpm is no field of [[change]]; the nearest is settle_to")]
    [TestCase("step_to = 70\n\"step_to\" = 70\n", "5, column 1: step_to stands twice, first in line 4; keep one")]
    public void ReadText_FieldsDoNotFit_SaysWhichAreMissingOrTooMany(string rest, string expected) =>
        Assert.That(Mistaken.Line(Rate + rest), Is.EqualTo("a.toml, line " + expected));

    [TestCase("-0.5", "at_s = -0.5 lies before the start of the scenario; at least 0 s")]
    [TestCase("60", "at_s = 60 lies after the end of the scenario; below scenario.duration_s = 60")]
    [TestCase("inf", "at_s = inf must be a finite number")]
    [TestCase("\"5\"", "at_s = \"5\" must be a finite number")]
    public void ReadText_WrongTime_SaysWhichAreRight(string at, string expected) => Assert.That(
        Mistaken.Line($"[[change]]\nat_s = {at}\nkey = \"heart.rate_bpm\"\nstep_to = 70\n"), Is.EqualTo("a.toml, line 2, column 8: " + expected));

    [Test]
    public void ReadText_LengthStandsBelow_CountsAllTheSame() => Assert.That(
        Mistaken.Line("[[change]]\nat_s = 30\nkey = \"heart.rate_bpm\"\nstep_to = 70\n[scenario]\nduration_s = 20\n"),
        Is.EqualTo("a.toml, line 2, column 8: at_s = 30 lies after the end of the scenario; below scenario.duration_s = 20"));

    [Test]
    public void ReadText_LengthIsWrongItself_OnlyThatIsTold() => Assert.That(
        Mistaken.Line("[scenario]\nduration_s = \"long\"\n[[change]]\nat_s = 3000\nkey = \"heart.rate_bpm\"\nstep_to = 70\n"),
        Does.StartWith("a.toml, line 2, column 14: scenario.duration_s = \"long\" must be a number"));

    [TestCase("ramp_to = 70\nover_s = 0\n", "5, column 10: over_s = 0 must be above 0 s")]
    [TestCase("settle_to = 70\ntime_constant_s = -3\n", "5, column 19: time_constant_s = -3 must be above 0 s")]
    [TestCase("swing_by = 7\nperiod_s = 0\nfor_s = 4\n", "5, column 12: period_s = 0 must be above 0 s")]
    [TestCase("swing_by = 7\nperiod_s = 1\nfor_s = -4\n", "6, column 9: for_s = -4 must be above 0 s")]
    public void ReadText_LengthNotAboveZero_IsRefused(string rest, string expected) =>
        Assert.That(Mistaken.Line(Rate + rest), Is.EqualTo("a.toml, line " + expected));

    [TestCase("3", "4, column 10: follow of heart.rate_bpm = 3 must be points such as [[0, 70], [30, 120]]")]
    [TestCase("[]", "4, column 10: follow of heart.rate_bpm = [] must be points such as [[0, 70], [30, 120]]")]
    [TestCase("[70, 80]", "4, column 11: follow of heart.rate_bpm: 70 is no point; it must be points such as [[0, 70], [30, 120]]", "4, column 15: follow of heart.rate_bpm: 80 is no point; it must be points such as [[0, 70], [30, 120]]")]
    [TestCase("[[0, 70], [0, 71]]", "4, column 20: follow of heart.rate_bpm: the time 0 comes too early; times rise, so it must be above 0")]
    [TestCase("[[-1, 70]]", "4, column 11: follow of heart.rate_bpm: the time -1 comes too early; the first time is 0 or more")]
    [TestCase("[[0, 70], [55.5, 71]]", "4, column 20: follow of heart.rate_bpm: the time 55.5 lies after the end of the scenario; at most 55 from at_s = 5 on")]
    [TestCase("[[0, 70], [1, 70, 3]]", "4, column 20: follow of heart.rate_bpm: [1, 70, 3] is no point; it must be points such as [[0, 70], [30, 120]]")]
    [TestCase("[[\"0\", 70]]", "4, column 12: time = \"0\" must be a finite number")]
    public void ReadText_WrongPoints_AreNamedOneByOne(string points, params string[] expected) => Assert.That(
        Mistaken.In(Rate + $"follow = {points}\n").Select(m => m.ToString()), Is.EqualTo(expected.Select(e => "a.toml, line " + e)));

    // At 65 bpm there is room for 45 down; during the ramp to 110 the same; 30 of another swing leave 15.
    [TestCase("swing_by = 46\nperiod_s = 9\nfor_s = 10\n", "4, column 12: swing_by of heart.rate_bpm = 46 would leave 20 to 250 bpm; at most 45 fits")]
    [TestCase("swing_by = -46\nperiod_s = 9\nfor_s = 10\n", "4, column 12: swing_by of heart.rate_bpm = -46 would leave 20 to 250 bpm; at most 45 fits")]
    public void ReadText_SwingLeavesTheRange_SaysHowMuchFits(string rest, string expected) =>
        Assert.That(Mistaken.Line(Rate + rest), Is.EqualTo("a.toml, line " + expected));

    [Test]
    public void ReadText_SwingOnRampAndOtherSwing_CountsBoth()
    {
        // 52 breaths a minute after the ramp leave 8 below 60, of which each swing takes its share.
        const string Others = "[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 10\nramp_to = 52\nover_s = 10\n"
            + "[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 15\nswing_by = 3\nperiod_s = 2\nfor_s = 40\n";

        Assert.That(
            Mistaken.In(Others + "[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 14\nswing_by = 6\nperiod_s = 3\nfor_s = 26\n").Select(m => m.ToString()),
            Is.EqualTo(new[] { "a.toml, line 9, column 12: swing_by of breathing.rate_per_min = 3 would leave 4 to 60 breaths/min; at most 2 fits", "a.toml, line 15, column 12: swing_by of breathing.rate_per_min = 6 would leave 4 to 60 breaths/min; at most 5 fits" }));
        Assert.That(
            () => Mistaken.In(Others + "[[change]]\nkey = \"breathing.rate_per_min\"\nat_s = 14\nswing_by = 5\nperiod_s = 3\nfor_s = 26\n"),
            Throws.TypeOf<AssertionException>(), "five fit");
    }

    [TestCase("step_to = \"sinuss\"\n", "4, column 11: step_to of heart.rhythm = \"sinuss\" must be one of ")]
    [TestCase("ramp_to = \"paced\"\nover_s = 3\n", "4, column 11: heart.rhythm holds a word, which cannot go by ramp_to; use step_to with one of \"sinus\", ")]
    [TestCase("step_to = 3\n", "4, column 11: step_to of heart.rhythm = 3 must be one of \"sinus\", ")]
    public void ReadText_WordThatCannotBe_IsRefused(string rest, string expected)
    {
        Assert.That(Mistaken.In(Head + "key = \"heart.rhythm\"\n" + rest)[0].ToString(), Does.StartWith("a.toml, line " + expected));
    }

    [TestCase("[change]\nat_s = 5\n", "1, column 2: [change] may stand many times and has two brackets: [[change]]")]
    [TestCase("[[chnage]]\nat_s = 5\n", "1, column 3: [chnage] is no section; the nearest is [[change]]")]
    [TestCase("[activty]\nat_s = 5\n", "1, column 2: [activty] is no section; the nearest is [[activity]]")]
    [TestCase("change = 3\n", "1, column 1: change is a table that may stand many times; write [[change]] on a line of its own and its fields below")]
    public void ReadText_WrongBrackets_SaysWhichAreRight(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo("a.toml, line " + expected));

    [Test]
    public void ReadText_ManyMistakes_AreAllReportedAtOnce()
    {
        var mistakes = Mistaken.In(
            "[[change]]\nat_s = -1\nky = 3\n[heart]\nrate_bpm = 3\n[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nramp_to = 7\nover_s = 0\n[[activity]]\nat_s = 99\nname = \"swimming\"\n");

        Assert.That(mistakes.Select(m => m.Line), Is.EqualTo(new[] { 1, 1, 2, 3, 5, 9, 10, 12, 13 }));
    }
}
