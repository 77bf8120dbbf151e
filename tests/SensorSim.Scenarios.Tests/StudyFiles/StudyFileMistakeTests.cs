// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;

namespace SensorSim.Scenarios.Tests.StudyFiles;

/// <summary>Every mistake in a study file gets one sentence with its place and what would be right.</summary>
[TestFixture]
public sealed class StudyFileMistakeTests
{
    private const string Head = "[study]\nscenario = \"s.toml\"\n";

    [TestCase("", "a.toml: [study] is missing; a study begins with [study] and scenario = \"path of a scenario\"")]
    [TestCase("[study]\n", "a.toml, line 1, column 2: [study] needs scenario: up to 1000 characters")]
    [TestCase("[study\n", "a.toml, line 1, column 7: not TOML")]
    [TestCase("[study]\nscenario = 3\n", "a.toml, line 2, column 12: study.scenario = 3 must be text on one line")]
    [TestCase(Head + "sead_count = 3\n", "a.toml, line 3, column 1: study.sead_count is no key of a study; the nearest is study.seed_count")]
    [TestCase(Head + "seed_count = 0\n", "a.toml, line 3, column 14: study.seed_count = 0 is outside of 1 to 1000000")]
    [TestCase(Head + "seed_count = 2.5\n", "study.seed_count = 2.5 must be a whole number")]
    [TestCase(Head + "duration_s = 0\n", "study.duration_s = 0 is outside of 1 to 30000000 s")]
    [TestCase(Head + "seeds = [1, 2, 1]\n", "a.toml, line 3, column 16: study.seeds has 1 twice; each seed may stand once")]
    [TestCase(Head + "seeds = []\n", "study.seeds = [] must be a list of whole numbers")]
    [TestCase(Head + "seeds = [1, -2]\n", "a.toml, line 3, column 13: study.seeds = -2 is outside of 0 to 9007199254740991")]
    [TestCase(Head + "seeds = [1]\nseed_count = 3\n", "a.toml, line 4, column 14: study.seed_count and study.seeds both say which seeds; keep one of the two ways")]
    [TestCase(Head + "first_seed = 9007199254740991\nseed_count = 2\n", "study.first_seed = 9007199254740991 with 2 seeds goes beyond 9007199254740991; begin lower")]
    [TestCase(Head + "first_subject_seed = 4\n", "study.first_subject_seed says nothing here; it is for study.subject_count, leave it out")]
    [TestCase(Head + "arrangement = \"gird\"\n", "study.arrangement = \"gird\" must be one of \"grid\", \"one_at_a_time\", \"latin_hypercube\"; the nearest is \"grid\"")]
    [TestCase(Head + "point_count = 10\n", "study.point_count says nothing here; it is for arrangement = \"latin_hypercube\", leave it out")]
    [TestCase(Head + "arrangement = \"latin_hypercube\"\n[[vary]]\nkey = \"heart.rate_bpm\"\nfrom = 60\nto = 90\n", "[study] needs point_count for arrangement = \"latin_hypercube\": 2 to 100000, whole")]
    [TestCase(Head + "arrangement = \"latin_hypercube\"\npoint_count = 9\n", "needs a [[vary]]; there is nothing to arrange")]
    [TestCase("x = 3\n" + Head, "a.toml, line 1, column 1: x stands outside of every section; a study holds [study], [[vary]], [[detector]], [requirements], [failure_point], [tuning]")]
    [TestCase(Head + "[heart]\nrate_bpm = 60\n", "a.toml, line 3, column 2: [heart] belongs into the scenario; a study sets its keys with [[vary]]")]
    [TestCase(Head + "[tunning]\n", "[tunning] is no section of a study; the nearest is [tuning]")]
    [TestCase(Head + "[[detectr]]\n", "[detectr] is no section of a study; the nearest is [[detector]]")]
    [TestCase(Head + "[vary]\nkey = \"heart.rate_bpm\"\n", "[vary] may stand many times and has two brackets: [[vary]]")]
    [TestCase(Head + "[[tuning]]\n", "[[tuning]] is a list of sections; a section stands once: [tuning]")]
    [TestCase(Head + "[requirements]\n[requirements]\n", "a.toml, line 4, column 2: [requirements] stands twice, first in line 3; put its keys there")]
    [TestCase(Head + "title = \"a\"\ntitle = \"b\"\n", "a.toml, line 4, column 1: study.title stands twice, first in line 3; keep one")]
    [TestCase(Head + "[requirements]\nr_peak_sensitivity = 0.9\n", "requirements.r_peak_sensitivity is no key of a study; the nearest is requirements.r_peak_sensitivity_min")]
    [TestCase(Head + "[requirements]\nr_peak_sensitivity_min = 99\n", "requirements.r_peak_sensitivity_min = 99 is outside of 0 to 1")]
    [TestCase(Head + "[detector.constants]\na = 1\n", "a.toml, line 3, column 2: [detector.constants] stands before every [[detector]]; put it below the detector that it is for")]
    public void ReadText_Mistake_IsTold(string text, string expected) => AssertTold(text, expected);

    [TestCase("", "[[vary]] needs key: a key of a scenario with a number or a word, or detector. and the name of a constant")]
    [TestCase("key = 3", "vary.key = 3 must be a key in quotation marks, for example \"heart.rate_bpm\"")]
    [TestCase("key = \"heart.rate\"\nvalues = [60]", "a.toml, line 4, column 7: heart.rate is no key; the nearest is heart.rate_bpm")]
    [TestCase("key = \"scenario.title\"\nvalues = [\"a\"]", "scenario.title holds text and cannot be varied; a key with a number or a word can")]
    [TestCase("key = \"scenario.seed\"\nvalues = [1]", "scenario.seed cannot be varied; every point is run with the seeds of study.first_seed and study.seed_count")]
    [TestCase("key = \"subject.seed\"\nvalues = [1]", "subject.seed cannot be varied; every point is run with the persons")]
    [TestCase("key = \"requirements.r_peak_sensitivity_min\"\nvalues = [1]", "cannot be varied, it changes no run; set it in [requirements]")]
    [TestCase("key = \"heart.rate_bpm\"", "[[vary]] of heart.rate_bpm has no values; give from, to and count, or values")]
    [TestCase("key = \"heart.rhythm\"", "[[vary]] of heart.rhythm has no values; give values = [\"…\", …]")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = [60, 500]", "a.toml, line 5, column 15: heart.rate_bpm = 500 is outside of")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = [60, \"a\"]", "heart.rate_bpm = \"a\" must be a number")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = []", "vary.values = [] must be a list of numbers or words that the key may have, all different, at least one")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = [60, 70, 60.0]", "vary.values has 60.0 twice; each value may stand once")]
    [TestCase("key = \"heart.rhythm\"\nvalues = [\"sinus\", \"sinis\"]", "heart.rhythm = \"sinis\" must be one of")]
    [TestCase("key = \"heart.rhythm\"\nfrom = 1\nto = 2\ncount = 2", "heart.rhythm holds a word and has no range; give values, of ")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = [60]\nfrom = 60", "a.toml, line 5, column 10: [[vary]] has vary.values and a range as well; keep values, or from, to and count")]
    [TestCase("key = \"heart.rate_bpm\"\nfrom = 60\ncount = 3", "[[vary]] needs to for heart.rate_bpm: a number that the key may have")]
    [TestCase("key = \"heart.rate_bpm\"\nfrom = 60\nto = 90", "[[vary]] needs count for heart.rate_bpm: 2 to 10000, whole")]
    [TestCase("key = \"heart.rate_bpm\"\nfrom = 60\nto = 90\ncount = 1", "vary.count = 1 is outside of 2 to 10000")]
    [TestCase("key = \"heart.rate_bpm\"\nfrom = 60\nto = 900\ncount = 3", "vary.to of heart.rate_bpm = 900 is outside of")]
    [TestCase("key = \"heart.rate_bpm\"\nfrom = 60\nto = 60\ncount = 3", "vary.from and vary.to of heart.rate_bpm are both 60; a range has two ends")]
    [TestCase("key = \"ecg_noise.muscle_snr_db\"\nfrom = 10\nto = -10\ncount = 3\nspacing = \"ratio\"", "a.toml, line 8, column 11: vary.spacing = \"ratio\" needs both ends of ecg_noise.muscle_snr_db above 0, and they are 10 and -10; use \"even\"")]
    [TestCase("key = \"ecg_noise.muscle_snr_db\"\nfrom = 10\nto = 0\ncount = 3\nspacing = \"ratio\"", "above 0, and they are 10 and 0; use \"even\"")]
    [TestCase("key = \"ecg_noise.muscle_snr_db\"\nvalues = [3, 0]\nspacing = \"ratio\"", "vary.spacing = \"ratio\" needs values above 0, and one is 0; use \"even\"")]
    [TestCase("key = \"ecg_amplifier.bits\"\nfrom = 12\nto = 14\ncount = 5", "vary.count = 5, but ecg_amplifier.bits has only 3 whole numbers from 12 to 14; at most as many")]
    [TestCase("key = \"heart.rate_bpm\"\nvalues = [60]\n[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [70]", "a.toml, line 7, column 7: heart.rate_bpm is varied twice, first in line 4; keep one")]
    [TestCase("key = \"detector.x\"\nvalues = [nan]", "detector.x = NaN is outside of")]
    public void ReadText_MistakeInVary_IsTold(string vary, string expected) => AssertTold($"{Head}[[vary]]\n{vary}\n", expected);

    [TestCase("label = \"\"", "detector.label = \"\" must be text on one line, at least one character")]
    [TestCase("adapter = \"assembly\"", "[[detector]] needs file for adapter = \"assembly\": up to 1000 characters")]
    [TestCase("file = \"x\"", "detector.file says nothing here; it is for the adapters assembly and c_library, leave it out")]
    [TestCase("class = \"x\"", "detector.class says nothing here; it is for the adapter assembly, leave it out")]
    [TestCase("in_process = true", "detector.in_process says nothing here; it is for the adapter c_library, leave it out")]
    [TestCase("adapter = \"c_library\"\nfile = \"x\"\nin_process = 1", "detector.in_process = 1 must be true or false")]
    [TestCase("hang_s = 3", "detector.hang_s says nothing here; it is for the adapter c_library in a process of its own and the adapter process, leave it out")]
    [TestCase("adapter = \"c_library\"\nfile = \"x\"\nin_process = true\nhang_s = 3", "detector.hang_s says nothing here")]
    [TestCase("adapter = \"assembly\"\nfile = \"x\"\ncalibration = \"c.toml\"", "detector.calibration says nothing here; it is for the adapters library and process, leave it out")]
    [TestCase("adapter = \"process\"", "[[detector]] needs command for adapter = \"process\": a list of words, for example [\"python3\", \"detector.py\"]")]
    [TestCase("command = [\"x\"]", "detector.command says nothing here; it is for the adapter process, leave it out")]
    [TestCase("adapter = \"process\"\ncommand = []", "detector.command = [] must be a list of words, for example [\"python3\", \"detector.py\"]")]
    [TestCase("adapter = \"process\"\ncommand = \"x\"", "detector.command = \"x\" must be a list of words, for example [\"python3\", \"detector.py\"]")]
    [TestCase("adapter = \"process\"\ncommand = [\"x\", 3]", "detector.command has 3; each word must be text on one line, the first one not empty")]
    [TestCase("adapter = \"process\"\ncommand = [\"x\"]\nfile = \"x\"", "detector.file says nothing here; it is for the adapters assembly and c_library, leave it out")]
    [TestCase("control = \"light_level\"", "detector.control says nothing here; it is for a closed loop (closed_loop = true), leave it out")]
    [TestCase("closed_loop = true\nlatency_ms = 50", "detector.latency_ms = 50 is outside of 100 to 60000 ms")]
    [TestCase("constants = 3", "detector.constants = 3 must be a table of numbers, for example { some_constant = 3 }")]
    [TestCase("constants = { a = \"x\" }", "a.toml, line 4, column 19: detector.a = \"x\" must be a number")]
    [TestCase("constants = { a = 1 }\n[detector.constants]\na = 2", "detector.a stands twice among the constants of the detector; keep one")]
    [TestCase("label = \"a\"\n[[detector]]\nlabel = \"a\"", "a.toml, line 6, column 9: detector.label = \"a\" stands twice, first in line 4; each detector has a label of its own")]
    [TestCase("label = \"a\"\n[[detector]]", "a.toml, line 5, column 3: [[detector]] needs label, as there are several detectors: up to 40 characters")]
    public void ReadText_MistakeInDetector_IsTold(string detector, string expected) => AssertTold($"{Head}[[detector]]\n{detector}\n", expected);

    [TestCase("[failure_point]\npass_fraction = 0.9", "failure_point.pass_fraction says nothing here; it is for of = \"runs\", leave it out")]
    [TestCase("[failure_point]\nadaptive = true", "[failure_point] needs precision with adaptive = true: 1E-09 to 1000000000")]
    [TestCase("[failure_point]\nmost_runs = 5", "failure_point.most_runs says nothing here; it is for adaptive = true, leave it out")]
    [TestCase("[failure_point]\nadaptive = true\nprecision = 1\n[[vary]]\nkey = \"heart.rhythm\"\nvalues = [\"sinus\"]", "failure_point.adaptive needs numbers in the first [[vary]], and heart.rhythm holds words")]
    [TestCase("[tuning]\n", "[tuning] has nothing to choose; vary a constant of the detector")]
    [TestCase("[[vary]]\nkey = \"detector.a\"\nvalues = [1]\n[tuning]\nfirst_seed = 20", "a.toml, line 7, column 14: tuning.first_seed: seed 20 is one of [study] as well; constants are scored on seeds that they were not chosen on, take others")]
    [TestCase("[[vary]]\nkey = \"detector.a\"\nvalues = [1]\n[tuning]\nseeds = [100, 3]", "tuning.seeds: seed 3 is one of [study] as well")]
    public void ReadText_MistakeInOtherSections_IsTold(string more, string expected) => AssertTold($"{Head}{more}\n", expected);

    [Test]
    public void ReadText_TuningWithoutGrid_IsRefused() => AssertTold(
        "[study]\nscenario = \"s.toml\"\narrangement = \"one_at_a_time\"\n[[vary]]\nkey = \"detector.a\"\nvalues = [1]\n[[vary]]\nkey = \"heart.rate_bpm\"\nvalues = [60]\n[tuning]\n",
        "a.toml, line 10, column 2: [tuning] with keys of the scenario needs study.arrangement = \"grid\", so that all constants meet the same; it is \"one_at_a_time\"");

    [Test]
    public void ReadText_DurationTwice_IsRefused() => AssertTold(
        "[study]\nscenario = \"s.toml\"\nduration_s = 20\n[[vary]]\nkey = \"scenario.duration_s\"\nvalues = [60]\n",
        "a.toml, line 5, column 7: scenario.duration_s is varied, and study.duration_s sets it for all; keep one");

    [Test]
    public void ReadText_CountInAHypercube_IsRefused() => AssertTold(
        "[study]\nscenario = \"s.toml\"\narrangement = \"latin_hypercube\"\npoint_count = 9\n[[vary]]\nkey = \"heart.rate_bpm\"\nfrom = 60\nto = 80\ncount = 3\n",
        "a.toml, line 9, column 9: vary.count says nothing here; it is for a grid or one key at a time (a Latin hypercube takes study.point_count), leave it out");

    [Test]
    public void ReadText_SeveralMistakes_AllTold()
    {
        var e = Assert.Throws<ScenarioException>(() => StudyFileReader.ReadText(
            "[study]\nscenario = \"s.toml\"\nseed_count = 0\n[[vary]]\nkey = \"heart.rate\"\n[tuninng]\n", "a.toml"));

        Assert.That(e!.Mistakes.Select(m => m.Line), Is.EqualTo(new[] { 3, 5, 6 }));
    }

    [Test]
    public void ReadFile_Missing_IsTold()
    {
        var e = Assert.Throws<ScenarioException>(() => StudyFileReader.ReadFile("no-such.toml"));
        Assert.That(e!.Message, Is.EqualTo("no-such.toml: there is no such file; give the path of a study (TOML)"));
    }

    [TestCase("")]
    [TestCase("=")]
    [TestCase("[")]
    [TestCase("\"")]
    [TestCase("-")]
    [TestCase("9")]
    [TestCase("\n")]
    public void ReadText_AnyDamage_IsReadOrTold(string put)
    {
        string text = StudyFileTests.Everything;
        int told = 0;
        for (int i = 0; i < text.Length; i++)
        {
            string damaged = text[..i] + put + text[(i + 1)..];
            try
            {
                StudyFileReader.ReadText(damaged, "a.toml");
            }
            catch (ScenarioException e)
            {
                told++;
                Assert.That(e.Mistakes, Is.Not.Empty.And.All.Matches<ScenarioMistake>(m => m.File == "a.toml" && !m.Message.Any(char.IsControl)));
            }
        }

        Assert.That(told, Is.GreaterThan(text.Length / 4));
    }

    private static void AssertTold(string text, string expected)
    {
        var e = Assert.Throws<ScenarioException>(() => StudyFileReader.ReadText(text, "a.toml"));
        Assert.That(e!.Mistakes, Has.Count.EqualTo(1), e.Message);
        Assert.That(e.Message, Does.Contain(expected));
        Assert.That(e.Message.Any(char.IsControl), Is.False);
    }
}
