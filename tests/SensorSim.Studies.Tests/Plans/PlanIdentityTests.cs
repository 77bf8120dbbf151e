// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>The identity of a study changes with whatever changes a row, and with nothing else.</summary>
[TestFixture]
public sealed class PlanIdentityTests
{
    private const string Base = """
        title = "one"
        seed_count = 3
        [[vary]]
        key = "heart.rate_bpm"
        values = [60, 70.5]
        [[vary]]
        key = "detector.threshold"
        values = [1, 2]
        [[detector]]
        label = "ours"
        constants = { other = 3 }
        [requirements]
        r_peak_sensitivity_min = 0.9
        """;

    private StudyFolder _folder = null!;

    [SetUp]
    public void SetUp() => _folder = new StudyFolder();

    [TearDown]
    public void TearDown() => _folder.Dispose();

    [TestCase("title = \"one\"", "title = \"two\"")]
    [TestCase("label = \"ours\"", "label = \"mine\"")]
    [TestCase("seed_count = 3", "seeds = [1, 2, 3]")]
    [TestCase("[requirements]", "[failure_point]\nresamples = 100\n[requirements]")]
    public void Of_WhatChangesNoRow_ChangesNothing(string text, string other) =>
        Assert.That(Identity(Base.Replace(text, other, StringComparison.Ordinal)), Is.EqualTo(Identity(Base)));

    [TestCase("seed_count = 3", "seed_count = 4")]
    [TestCase("seed_count = 3", "seed_count = 3\nfirst_seed = 2")]
    [TestCase("seed_count = 3", "seed_count = 3\nsubject_count = 1")]
    [TestCase("seed_count = 3", "seed_count = 3\nduration_s = 30")]
    [TestCase("70.5", "70.25")]
    [TestCase("heart.rate_bpm", "heart.slow_variability_ms")]
    [TestCase("[1, 2]", "[1, 3]")]
    [TestCase("other = 3", "other = 4")]
    [TestCase("sensitivity_min = 0.9", "sensitivity_min = 0.91")]
    [TestCase("[requirements]", "[tuning]\n[requirements]")]
    [TestCase("label = \"ours\"", "label = \"ours\"\nclosed_loop = true")]
    [TestCase("label = \"ours\"", "label = \"ours\"\nclosed_loop = true\nlatency_ms = 200")]
    [TestCase("label = \"ours\"", "label = \"ours\"\ncalibration = \"c.toml\"")]
    public void Of_WhatChangesRows_ChangesIt(string text, string other)
    {
        _folder.Write("c.toml", "[oxygen]\nratio = [0.4, 1.6]\nsaturation_percent = [100, 70]\n");
        Assert.That(Identity(Base.Replace(text, other, StringComparison.Ordinal)), Is.Not.EqualTo(Identity(Base)));
    }

    [Test]
    public void Of_OneCalibrationOrAnother_IsNotTheSame()
    {
        string with = Base.Replace("label = \"ours\"", "label = \"ours\"\ncalibration = \"c.toml\"", StringComparison.Ordinal);
        _folder.Write("c.toml", "[oxygen]\nratio = [0.4, 1.6]\nsaturation_percent = [100, 70]\n");
        string first = Identity(with);
        _folder.Write("c.toml", "[oxygen]\nratio = [0.4, 1.6]\nsaturation_percent = [100, 71]\n");
        string second = Identity(with);
        _folder.Write("c.toml", "[calibration]\ntitle = \"x\"\n[oxygen]\nratio = [0.4, 1.6]\nsaturation_percent = [100, 71]\n");

        Assert.That(second, Is.Not.EqualTo(first));
        Assert.That(Identity(with), Is.EqualTo(second), "its title says nothing to the detector");
    }

    [Test]
    public void Of_Detector_EntersByItsIdentity() =>
        Assert.That(PlanIdentity.Of(_folder.Read(Base), [new KnobFactory("b")]), Is.Not.EqualTo(PlanIdentity.Of(_folder.Read(Base), [new KnobFactory("a")])));

    [Test]
    public void Of_ScenarioAndItsFiles_EnterByContent()
    {
        const string Named = "[scenario]\nsensor = \"w.toml\"\n";
        _folder.Write("w.toml", "[ecg_amplifier]\nbits = 12\n");
        _folder.Write("s.toml", Named);
        string first = Identity(Base);
        _folder.Write("s.toml", Named.Replace("\n", "\r\n", StringComparison.Ordinal));
        Assert.That(Identity(Base), Is.EqualTo(first), "line ends of the scenario do not count");
        _folder.Write("w.toml", "[ecg_amplifier]\nbits = 14\n");
        Assert.That(Identity(Base), Is.Not.EqualTo(first), "the sensor's bytes do");
        _folder.Write("w.toml", "[ecg_amplifier]\nbits = 12\n");
        _folder.Write("s.toml", Named + "# said again\n");
        Assert.That(Identity(Base), Is.Not.EqualTo(first));
    }

    [Test]
    public void Of_AnotherFolderOrCulture_IsTheSame()
    {
        string here = Identity(Base);
        using var there = new StudyFolder();
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.That(PlanIdentity.Of(there.Read(Base), [new KnobFactory("a")]), Is.EqualTo(here));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private string Identity(string study) => PlanIdentity.Of(_folder.Read(study), [new KnobFactory("a")]);
}
