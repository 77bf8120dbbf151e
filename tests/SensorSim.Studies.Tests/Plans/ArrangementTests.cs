// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>Which combinations a study has.</summary>
[TestFixture]
public sealed class ArrangementTests
{
    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [Test]
    public void Grid_FirstKey_VariesSlowest()
    {
        StudyPlan plan = _folder.Read("""
            [[vary]]
            key = "heart.rate_bpm"
            values = [60, 70]
            [[vary]]
            key = "heart.slow_variability_ms"
            values = [1, 2, 3]
            """);

        Assert.That(plan.Points.Select(p => $"{p.Index}: {p.Values[0]} {p.Values[1]}"), Is.EqualTo(new[] { "0: 60 1", "1: 60 2", "2: 60 3", "3: 70 1", "4: 70 2", "5: 70 3" }));
    }

    [TestCase("from = 0\nto = 1\ncount = 11", new[] { 0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0 })]
    [TestCase("from = 24\nto = -8\ncount = 5", new[] { 24.0, 16, 8, 0, -8 })]
    [TestCase("from = 0.1\nto = 100\ncount = 4\nspacing = \"ratio\"", new[] { 0.1, 1, 10, 100 })]
    [TestCase("from = 64\nto = 1\ncount = 4\nspacing = \"ratio\"", new[] { 64.0, 16, 4, 1 })]
    public void Grid_Range_HasShortNumbers(string range, double[] expected)
    {
        StudyPlan plan = _folder.Read($"[[vary]]\nkey = \"detector.x\"\n{range}\n");

        Assert.That(plan.Factors[0].Levels, Is.EqualTo(expected.Cast<object>()), "to the bit");
        Assert.That(plan.Factors[0].IsInRatios, Is.EqualTo(range.Contains("ratio", StringComparison.Ordinal)));
    }

    [Test]
    public void Grid_WholeKey_IsRounded()
    {
        StudyPlan plan = _folder.Read("[[vary]]\nkey = \"ecg_amplifier.bits\"\nfrom = 10\nto = 20\ncount = 4\n");

        // 10, 13 1/3, 16 2/3, 20.
        Assert.That(plan.Factors[0].Levels, Is.EqualTo(new object[] { 10.0, 13.0, 17.0, 20.0 }));
    }

    [Test]
    public void Grid_WholeKeyByRatio_RefusesTwoTheSame()
    {
        // 8, 8.8, 9.7, 10.7, ...: 9 and 10 stand alone, but with 14 values neighbours fall together.
        Assert.That(
            _folder.Mistakes("[[vary]]\nkey = \"ecg_amplifier.bits\"\nfrom = 8\nto = 21\ncount = 14\nspacing = \"ratio\"\n"),
            Is.EqualTo("a.toml, line 4, column 7: the values of ecg_amplifier.bits lie so close that two are the same once rounded; lower vary.count"));
    }

    [Test]
    public void OneAtATime_BasePoint_StandsOnce()
    {
        StudyPlan plan = _folder.Read("""
            arrangement = "one_at_a_time"
            [[vary]]
            key = "heart.rate_bpm"
            values = [60, 70, 80]
            [[vary]]
            key = "ecg_noise.muscle_snr_db"
            values = [6, 0]
            [[vary]]
            key = "heart.rhythm"
            values = ["sinus", "atrial_fibrillation"]
            """);

        // The scenario says 70 bpm and 12 dB; its rhythm is the default.
        Assert.That(plan.Points.Select(p => string.Join(' ', p.Values)), Is.EqualTo(new[]
        {
            "70 12 sinus", "60 12 sinus", "80 12 sinus", "70 6 sinus", "70 0 sinus", "70 12 atrial_fibrillation",
        }));
        Assert.That(plan.Points.Select(p => p.Index), Is.EqualTo(Enumerable.Range(0, 6)));
    }

    [Test]
    public void OneAtATime_KeyThatIsOff_HasNoBase()
    {
        Assert.That(
            _folder.Mistakes("arrangement = \"one_at_a_time\"\n[[vary]]\nkey = \"ecg_noise.slow_motion_snr_db\"\nvalues = [6, 0]\n"),
            Is.EqualTo("a.toml, line 5, column 7: one_at_a_time needs a base value of ecg_noise.slow_motion_snr_db, and the scenario does not set it; set it there"));
    }

    [Test]
    public void OneAtATime_Constant_HasTheBaseOfTheDetectors()
    {
        const string Vary = "arrangement = \"one_at_a_time\"\n[[vary]]\nkey = \"detector.x\"\nvalues = [1, 2]\n";
        StudyPlan plan = _folder.Read(Vary + "[[detector]]\nconstants = { x = 5 }\n");

        Assert.That(plan.Points.Select(p => p.Values[0]), Is.EqualTo(new object[] { 5.0, 1.0, 2.0 }));
        Assert.That(_folder.Mistakes(Vary), Does.Contain("one_at_a_time needs a base value of detector.x; give every detector the same one: constants = { x = … }"));
        Assert.That(
            _folder.Mistakes(Vary + "[[detector]]\nlabel = \"a\"\nconstants = { x = 5 }\n[[detector]]\nlabel = \"b\"\nconstants = { x = 6 }\n"),
            Does.Contain("one_at_a_time needs a base value"));
    }
}
