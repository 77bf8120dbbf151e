// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;

namespace SensorSim.Scenarios.Tests.Sensors;

/// <summary>A sensor file under a scenario: the scenario's own keys win, mistakes name the file they stand in, its SHA-256 is known.</summary>
[TestFixture]
public sealed class SensorFileTests
{
    private const string Patch = "[sensor]\ntitle = \"a patch\"\n[optics]\nrate_hz = 50\nbits = 20\n[ecg_amplifier]\nrate_hz = 500\n";

    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("sensors-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void ReadFile_ScenarioWithSensor_TakesItsValuesUnderItsOwn()
    {
        Write("patch.toml", Patch);
        Scenario scenario = ScenarioReader.ReadFile(Write("s.toml", "[scenario]\nsensor = \"patch.toml\"\n[optics]\nbits = 16\n"));

        Assert.That(scenario.Values[OpticsKeys.RateHz], Is.EqualTo(50));
        Assert.That(scenario.Values[OpticsKeys.Bits], Is.EqualTo(16), "the scenario's own");
        Assert.That(scenario.Values[EcgAmplifierKeys.RateHz], Is.EqualTo(500));
        Assert.That(scenario.Values[AccelerometerKeys.RateHz], Is.EqualTo(50), "neither says: the default");
        Assert.That(scenario.SensorTitle, Is.EqualTo("a patch"));
    }

    // The file is part of the identity. SHA-256 of "[sensor]\n": sha256sum of the GNU core utilities.
    [Test]
    public void ReferencedFiles_OfAScenario_HoldTheSensorsHash()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "sensors"));
        Directory.CreateDirectory(Path.Combine(_folder, "scenarios"));
        Write("sensors/plain.toml", "[sensor]\n");
        Scenario scenario = ScenarioReader.ReadFile(Write("scenarios/s.toml", "[scenario]\nsensor = \"../sensors/plain.toml\"\n"));

        Assert.That(
            scenario.ReferencedFiles,
            Is.EqualTo(new[] { new ReferencedFile("../sensors/plain.toml", "1c21f7d6f5e3c288751da9f54e1516d7dc5ab291429a4cd72f29fff920df1d1b") }));
        Assert.That(scenario.SensorTitle, Is.EqualTo("plain"), "without a title: the file's name");
        Assert.That(ScenarioReader.ReadText("", "a.toml").SensorTitle, Is.Empty);
    }

    [Test]
    public void WithSubject_OfAScenarioWithSensor_KeepsBoth()
    {
        Write("patch.toml", Patch);
        Scenario scenario = ScenarioReader.ReadFile(Write("s.toml", "[scenario]\nsensor = \"patch.toml\"\n")).WithSubject(3).WithSeed(9);

        Assert.That(scenario.Values[OpticsKeys.RateHz], Is.EqualTo(50));
        Assert.That(scenario.Subject, Is.Not.Null);
        Assert.That(scenario.ReferencedFiles.Select(f => f.Path), Is.EqualTo(new[] { "patch.toml" }));
    }

    // What the command line names stands in for the scenario's own, even for one that is not there.
    [Test]
    public void ReadFile_AnotherSensor_ReplacesTheScenariosOwn()
    {
        Write("patch.toml", Patch);
        string scenario = Write("s.toml", "[scenario]\nsensor = \"missing.toml\"\n[optics]\nbits = 16\n");
        Scenario other = ScenarioReader.ReadFile(scenario, SensorReader.ReadFile(Path.Combine(_folder, "patch.toml")));

        Assert.That((other.Values[OpticsKeys.RateHz], other.Values[OpticsKeys.Bits]), Is.EqualTo((50.0, 16.0)));
        Assert.That(other.ReferencedFiles.Single().Path, Is.EqualTo(Path.Combine(_folder, "patch.toml")));
    }

    // A sensor gives the same samples as its keys written into the scenario.
    [Test]
    public void CreateStream_SensorOrItsKeys_HasTheSameValues()
    {
        Write("patch.toml", Patch);
        Scenario named = ScenarioReader.ReadFile(Write("s.toml", "[scenario]\nsensor = \"patch.toml\"\n"));
        Scenario own = ScenarioReader.ReadText(Patch, "a.toml");
        foreach (var key in SensorKeys.OfAFile.OfType<Signals.Keys.NumberKey>())
        {
            Assert.That((named.Values.IsSet(key), named.Values[key]), Is.EqualTo((own.Values.IsSet(key), own.Values[key])), key.Name);
        }
    }

    // A change starts from the sensor's value.
    [Test]
    public void ReadFile_ChangeOfASensorsKey_BeginsAtItsValue()
    {
        Write("patch.toml", "[optics]\nred_na = 700\n");
        Scenario scenario = ScenarioReader.ReadFile(
            Write("s.toml", "[scenario]\nsensor = \"patch.toml\"\n[[change]]\nkey = \"optics.red_na\"\nat_s = 10\nramp_to = 900\nover_s = 10\n"));

        Assert.That(new[] { 5.0, 15, 30 }.Select(scenario.Values.Course(OpticsKeys.RedNa).Value), Is.EqualTo(new[] { 700.0, 800, 900 }).Within(1e-9));
    }

    [TestCase("[optics]\nrate = 50\n", "2, column 1: optics.rate is no key; the nearest is optics.rate_hz")]
    [TestCase("[optics]\nrate_bpm = 50\n", "2, column 1: optics.rate_bpm is no key; the nearest is optics.rate_hz")]
    [TestCase("[optics]\nrate_hz = \"fast\"\n", "2, column 11: optics.rate_hz = \"fast\" must be a whole number, 20 to 1000 Hz")]
    [TestCase("[optics]\nrate_hz = 50\nrate_hz = 50\n", "3, column 1: optics.rate_hz stands twice, first in line 2; keep one")]
    [TestCase("[optic]\nrate_hz = 50\n", "1, column 2: [optic] is no section of a sensor; the nearest is [optics]")]
    [TestCase("[heart]\nrate_bpm = 50\n", "1, column 2: [heart] belongs into a scenario, not into a sensor file; a sensor file holds [sensor], [electrodes], [ecg_amplifier], [optics], ")]
    [TestCase("[ambient]\nlevel_na = 50\n", "1, column 2: [ambient] belongs into a scenario, not into a sensor file; a sensor file holds [sensor], ")]
    [TestCase("[[change]]\nat_s = 50\n", "1, column 3: [change] belongs into a scenario, not into a sensor file; ")]
    [TestCase("title = \"a\"\n", "1, column 1: title stands outside of every section; a sensor file holds [sensor], ")]
    [TestCase("[sensor\n", "1, column ")]
    public void ReadFile_WrongSensor_NamesItsFileLineAndColumn(string text, string expected)
    {
        string sensor = Write("wrong.toml", text);
        string scenario = Write("s.toml", "[scenario]\nsensor = \"wrong.toml\"\n");

        Assert.That(
            () => ScenarioReader.ReadFile(scenario),
            Throws.TypeOf<ScenarioException>().With.Message.StartsWith($"{sensor}, line {expected}").And.Message.Not.Contains("\n"));
        Assert.That(() => SensorReader.ReadFile(sensor), Throws.TypeOf<ScenarioException>().With.Message.StartsWith($"{sensor}, line {expected}"));
    }

    // Contradictions point to the file that says the value.
    [Test]
    public void ReadFile_SensorContradictsItself_IsToldInItsFile()
    {
        string sensor = Write("wrong.toml", "[optics]\nintegration_us = 300\n");
        string scenario = Write("s.toml", "[scenario]\nsensor = \"wrong.toml\"\n");
        string own = Write("t.toml", "[scenario]\nsensor = \"wrong.toml\"\n[optics]\nslot_spacing_us = 200\n");

        Assert.That(
            () => ScenarioReader.ReadFile(scenario),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{sensor}, line 2, column 18: optics.integration_us = 300 is longer than the slot spacing; at most 250 µs fit"));
        Assert.That(
            () => ScenarioReader.ReadFile(own),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{sensor}, line 2, column 18: optics.integration_us = 300 is longer than the slot spacing; at most 200 µs fit"));
    }

    [TestCase("none.toml", "is no file")]
    [TestCase(".", "is a folder")]
    public void ReadFile_NoSensorThere_SaysWhatWouldBeRight(string path, string expected)
    {
        string scenario = Write("s.toml", $"[scenario]\nsensor = \"{path}\"\n");

        Assert.That(
            () => ScenarioReader.ReadFile(scenario),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{scenario}, line 2, column 10: scenario.sensor = \"{path}\" {expected}; give the path of a sensor file (TOML), from the scenario's folder on"));
    }

    [TestCase("")]
    [TestCase("none.toml")]
    public void ReadFile_NamedByTheUserButNotThere_SaysSo(string path) => Assert.That(
        () => SensorReader.ReadFile(path), Throws.TypeOf<ScenarioException>().With.Message.EndsWith("; give the path of a sensor (TOML)"));

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllText(path, text);
        return path;
    }
}
