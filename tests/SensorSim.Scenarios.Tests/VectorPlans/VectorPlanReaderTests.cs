// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.VectorPlans;

/// <summary>A plan is read whole, and every mistake gets one sentence with its place and what would be right.</summary>
[TestFixture]
public sealed class VectorPlanReaderTests
{
    private const string Set = "[set]\ntitle = \"t\"\n";
    private const string Need = "[[requirement]]\nid = \"R-1\"\ntext = \"t\"\nclause = \"own\"\nkind = \"r_peak\"\nrule = \"marks\"\nsensitivity_min = 0.9\n";
    private const string One = "[[case]]\nname = \"a\"\nscenario = \"rest-finger.toml\"\nlevel = \"pass\"\nrequirements = [\"R-1\"]\n";
    private static readonly string s_file = Path.Combine(Repository.Root, "waveforms", "scenarios", "p.toml");

    [Test]
    public void ReadText_Everything_IsThere()
    {
        VectorPlan plan = VectorPlanReader.ReadText(
            Set + "about = \"what for\"\n" + Need + "channel = \"ecg\"\nwindow_ms = 100\nfrom_s = 1\nuntil_s = 50\n"
            + "[[requirement]]\nid = \"W.2\"\ntext = \"u\"\nclause = \"IEC 60601-2-27\"\nkind = \"heart_rate_bpm\"\nrule = \"withheld\"\ngrace_s = 3\n"
            + One.Replace("[\"R-1\"]", "[\"W.2\", \"R-1\"]", StringComparison.Ordinal).Replace("\"pass\"", "\"must_refuse\"", StringComparison.Ordinal)
            + "about = \"b\"\nseed = 7\nduration_s = 20\ndisturbance = \"mains\"\nwithhold_s = [[1, 2.5], [3, 20]]\nstimulus = [\"raw\"]\n"
            + "calibration = \"../calibrations/finger-one-cuff.toml\"\n"
            + "[[case.header]]\nchannels = [\"infrared\", \"ecg\"]\nbits = 32\nkeep_every = 2\nmax_bytes = 1000\n"
            + "[[case.header]]\nname = \"slow\"\nchannels = [\"ecg\"]\n"
            + "[[case.deviation]]\nrequirement = \"R-1\"\nreason = \"because\"\n"
            + One.Replace("\"a\"", "\"b-2\"", StringComparison.Ordinal),
            s_file);

        Assert.That((plan.Title, plan.About, plan.Hash.Length), Is.EqualTo(("t", "what for", 64)));
        PlannedRequirement need = plan.Requirements[0];
        Assert.That((need.Id, need.Kind, need.Channel, need.Rule, need.WindowMs, need.SensitivityMin, need.PositivePredictivityMin, need.FromS, need.UntilS), Is.EqualTo(
            ("R-1", MarkKind.RPeak, (ChannelName?)ChannelName.Ecg, RequirementRule.Marks, 100.0, (double?)0.9, (double?)null, (double?)1.0, (double?)50.0)));
        Assert.That((plan.Requirements[1].Clause, plan.Requirements[1].GraceS, plan.Requirements[1].WindowMs), Is.EqualTo(("IEC 60601-2-27", 3.0, 150.0)));
        PlannedCase first = plan.Cases[0];
        Assert.That((first.Name, first.Seed, first.DurationS, first.Scenario.DurationS, first.Level, first.Disturbance), Is.EqualTo(("a", 7UL, 20.0, 20.0, CaseLevel.MustRefuse, "mains")));
        Assert.That(first.Requirements.Select(r => r.Id), Is.EqualTo(new[] { "R-1", "W.2" }), "in the order of the plan");
        Assert.That(first.Withhold, Is.EqualTo(new[] { new WithheldStretch(1, 2.5), new WithheldStretch(3, 20) }));
        Assert.That(first.Stimulus, Is.EqualTo(new[] { StimulusForm.Raw }));
        Assert.That(first.Calibration, Is.Not.Null);
        Assert.That(first.Headers.Select(h => (h.Name, h.Bits, h.KeepEvery, h.MaxBytes)), Is.EqualTo(new[] { ("a", 32, 2, 1000L), ("slow", 16, 1, 65536L) }));
        Assert.That(first.Headers[0].Channels, Is.EqualTo(new[] { ChannelName.Ecg, ChannelName.Infrared }), "in the order of the stream");
        Assert.That(first.DeviationFrom("R-1")!.Reason, Is.EqualTo("because"));
        Assert.That((plan.Cases[1].Seed, plan.Cases[1].DurationS, plan.Cases[1].Stimulus.Count), Is.EqualTo((1UL, 60.0, 2)), "as the scenario says");
    }

    [TestCase("", "p.toml: [set] is missing; a vector plan begins with [set] and title = \"what the set is\"")]
    [TestCase("[set]\n" + Need + One, "p.toml, line 1, column 2: [set] needs title: up to 500 characters")]
    [TestCase(Set, "[[case]] is missing; a vector plan has at least one")]
    [TestCase("x = 1\n" + Set + One, "line 1, column 1: x stands outside of every section; a vector plan holds [set], [[requirement]], [[case]], [[case.header]], [[case.deviation]]")]
    [TestCase(Set + "titel = \"a\"\n", "line 3, column 1: set.titel is no key of a vector plan; the nearest is set.title")]
    [TestCase(Set + "[[cases]]\n", "[cases] is no section of a vector plan; the nearest is [[case]]")]
    [TestCase(Set + "[case]\n", "line 3, column 2: [case] may stand many times and has two brackets: [[case]]")]
    [TestCase("[[set]]\n", "[[set]] is a list of sections; a section stands once: [set]")]
    [TestCase(Set + Set, "line 3, column 2: [set] stands twice, first in line 1; put its keys there")]
    [TestCase(Set + "[[case.header]]\n", "[[case.header]] stands before every [[case]]; put it below the case that it is for")]
    [TestCase(Set + "[[requirement]]\n", "[[requirement]] needs id: up to 40 characters")]
    [TestCase(Set + Need + Need + One, "line 11, column 6: requirement.id = \"R-1\" stands twice, first in line 4; each requirement has a name of its own")]
    [TestCase(Set + Need + One + One, "case.name = \"a\" stands twice, first in line 11; each case has a name of its own")]
    public void ReadText_Mistake_IsTold(string text, string expected) => AssertTold(text, expected);

    [TestCase("id = \"R,1\"", "requirement.id = \"R,1\" must be letters, digits, hyphens, dots and underscores of ASCII, a letter or digit first")]
    [TestCase("kind = \"r_peek\"", "requirement.kind = \"r_peek\" is no kind of mark; the nearest is \"r_peak\"")]
    [TestCase("kind = \"heart_rate_bpm\"", "requirement.kind = \"heart_rate_bpm\": truth does not say what rule = \"marks\" asks of it; it can be r_peak, pulse_foot_minimum")]
    [TestCase("channel = \"ekg\"", "requirement.channel has \"ekg\", which is no channel; the nearest is \"ecg\"")]
    [TestCase("rule = \"mark\"", "requirement.rule = \"mark\" must be one of \"marks\", \"readings\", \"withheld\", \"shown\", \"prompt\"; the nearest is \"marks\"")]
    [TestCase("sensitivity_min = 99", "requirement.sensitivity_min = 99 is outside of 0 to 1")]
    [TestCase("error_max = 3", "requirement.error_max says nothing here; it is for rule = \"readings\", leave it out")]
    [TestCase("share_min = 1", "requirement.share_min says nothing here; it is for rule = \"readings\" and rule = \"prompt\", leave it out")]
    [TestCase("from_s = 5\nuntil_s = 5", "requirement.until_s = 5 must be above requirement.from_s = 5")]
    [TestCase("rule = \"shown\"", "[[requirement]] needs within_s for rule = \"shown\": 0 to 3600 s")]
    public void ReadText_WrongRequirement_IsTold(string line, string expected)
    {
        string key = line.Split(' ')[0];
        AssertTold(Set + string.Join('\n', Need.Split('\n').Where(l => l.Split(' ')[0] != key)) + line + "\n" + One, expected);
    }

    [TestCase("", "requirement.rule = \"readings\" asks nothing without a limit; give error_max or error_percent_max or low or share_min or first_within_s")]
    [TestCase("low = 5", "requirement.low stands alone; low and high go together")]
    [TestCase("low = 5\nhigh = 4", "requirement.high = 4 must be at least requirement.low = 5")]
    [TestCase("low = 5\nhigh = 6\nerror_max = 1", "requirement.error_max says nothing here; it is for readings that are held against truth; low and high stand in its place")]
    [TestCase("share_min = 1\nbeats_max = 4", "requirement.beats_max says nothing here; it is for error_max and error_percent_max, leave it out")]
    [TestCase("error_max = 1\nstands_s = 4", "requirement.stands_s says nothing here; it is for share_min, leave it out")]
    [TestCase("error_max = 1\nbeats_min = 5\nbeats_max = 4", "requirement.beats_max = 4 must be at least requirement.beats_min = 5")]
    public void ReadText_WrongReadings_IsTold(string lines, string expected) => AssertTold(
        Set + "[[requirement]]\nid = \"R-1\"\ntext = \"t\"\nclause = \"own\"\nkind = \"spo2_percent\"\nrule = \"readings\"\n" + lines + "\n" + One, expected);

    [TestCase("name = \"A\"", "case.name = \"A\" must be lower-case letters, digits and hyphens of ASCII, a letter first")]
    [TestCase("name = \"../a\"", "case.name = \"../a\" must be lower-case letters")]
    [TestCase("scenario = \"no.toml\"", "case.scenario = \"no.toml\" is no file; give a path from the plan's folder on")]
    [TestCase("duration_s = 0", "case.duration_s = 0 is outside of 1 to")]
    [TestCase("seed = -1", "case.seed = -1 is outside of 0 to 9007199254740991")]
    [TestCase("level = \"easy\"", "case.level = \"easy\" must be one of \"pass\", \"near_limit\", \"must_refuse\"")]
    [TestCase("level = \"must_refuse\"", "case.level = \"must_refuse\" needs a requirement with rule = \"withheld\" or rule = \"shown\"; without one nothing must be refused")]
    [TestCase("requirements = [\"R-2\"]", "case.requirements has \"R-2\", which is no requirement of the plan; the nearest is \"R-1\"")]
    [TestCase("requirements = [\"R-1\", \"R-1\"]", "case.requirements has \"R-1\" twice; each may stand once")]
    [TestCase("requirements = \"R-1\"", "case.requirements = \"R-1\" must be a list of requirement ids")]
    [TestCase("withhold_s = [[5, 4]]", "case.withhold_s has [5, 4]; each must be [from, to] in seconds, from at least 0")]
    [TestCase("withhold_s = [[1, 3], [2, 4]]", "case.withhold_s has [2, 4]; each must be [from, to] in seconds, from at least 3 (the end of the one before)")]
    [TestCase("withhold_s = [[1, 61]]", "to above from and at most 60, the length of the case")]
    [TestCase("stimulus = [\"edf\"]", "case.stimulus has \"edf\"; it must be a list of \"bdf\" and \"raw\", each at most once")]
    [TestCase("calibration = \"no.toml\"", "case.calibration = \"no.toml\" is no file")]
    [TestCase("[[case.header]]\nbits = 16", "[[case.header]] needs channels: a list of channels, for example [\"ecg\"]")]
    [TestCase("[[case.header]]\nchannels = []", "case.header.channels must be a list of channels, for example [\"ecg\"], at least one")]
    [TestCase("[[case.header]]\nchannels = [\"ecg\"]\nbits = 24", "case.header.bits = 24 must be 16 or 32")]
    [TestCase("[[case.header]]\nchannels = [\"ecg\"]\n[[case.header]]\nchannels = [\"red\"]", "two headers of the case are named \"a\"; give each a name of its own: name = \"a-slow\"")]
    [TestCase("[[case.deviation]]\nrequirement = \"R-2\"\nreason = \"x\"", "case.deviation.requirement = \"R-2\" is no requirement of the case a; the nearest is \"R-1\"")]
    [TestCase("[[case.deviation]]\nrequirement = \"R-1\"", "[[case.deviation]] needs reason")]
    public void ReadText_WrongCase_IsTold(string line, string expected)
    {
        string key = line.Split(' ')[0];
        AssertTold(Set + Need + string.Join('\n', One.Split('\n').Where(l => l.Split(' ')[0] != key)) + line + "\n", expected);
    }

    [Test]
    public void ReadText_MistakeInTheScenario_IsToldAtItsPlaceThere()
    {
        string folder = Directory.CreateTempSubdirectory("plan-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "s.toml"), "[scenario]\nduration_s = 0\n");
            var e = Assert.Throws<ScenarioException>(() => VectorPlanReader.ReadText(
                Set + Need + One.Replace("rest-finger", "s", StringComparison.Ordinal), Path.Combine(folder, "p.toml")));
            Assert.That(e!.Mistakes.Single().ToString(), Is.EqualTo($"{Path.Combine(folder, "s.toml")}, line 2, column 14: scenario.duration_s = 0 is outside of 1 to 30000000 s"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [TestCase("no-such.toml", "no-such.toml: there is no such file; give the path of a vector plan (TOML)")]
    [TestCase("", "plan: there is no such file; give the path of a vector plan (TOML)")]
    public void ReadFile_Missing_IsTold(string path, string expected) =>
        Assert.That(Assert.Throws<ScenarioException>(() => VectorPlanReader.ReadFile(path))!.Message, Is.EqualTo(expected));

    [Test]
    public void Keys_AllHaveAMeaningAndANameOfTheirOwn()
    {
        Assert.That(PlanKeys.All.Select(k => k.Name), Is.Unique);
        Assert.That(PlanKeys.All.Select(k => k.Meaning), Has.All.EndsWith("."));
        Assert.That(PlanKeys.All.Select(k => k.Section).Distinct(), Is.EqualTo(PlanKeys.Sections));
    }

    private static void AssertTold(string text, string expected)
    {
        var e = Assert.Throws<ScenarioException>(() => VectorPlanReader.ReadText(text, s_file));
        Assert.That(e!.Mistakes.Select(m => m.ToString()), Has.Some.Contains(expected), e.Message);
    }
}
