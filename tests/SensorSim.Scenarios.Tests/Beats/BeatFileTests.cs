// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Beats;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Reading;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Tests.Beats;

/// <summary>A file of beats beside a scenario: found from the scenario's folder, limited in size, known by its SHA-256.</summary>
[TestFixture]
public sealed class BeatFileTests
{
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("beats-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    // SHA-256 of "abc": FIPS 180-2, appendix B.1.
    [Test]
    public void Read_File_HasThePublishedHash()
    {
        File.WriteAllText(Path.Combine(_folder, "abc.csv"), "abc");
        BeatFile? file = BeatFile.Read("abc.csv", Path.Combine(_folder, "s.toml"), Fail);

        Assert.That(file!.Reference.Sha256, Is.EqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"));
        Assert.That((file.Reference.Path, file.Text), Is.EqualTo(("abc.csv", "abc")));
    }

    [Test]
    public void Read_PathFromTheScenariosFolderOn_IsFound()
    {
        Directory.CreateDirectory(Path.Combine(_folder, "lists"));
        File.WriteAllBytes(Path.Combine(_folder, "lists", "a.csv"), [.. Encoding.UTF8.GetPreamble(), .. "rr_ms\n800\n"u8]);
        BeatFile? file = BeatFile.Read("lists/a.csv", Path.Combine(_folder, "s.toml"), Fail);

        Assert.That(BeatListReader.ReadCsv(file!.Text, (l, c, m) => Assert.Fail(m)), Is.EqualTo(new[] { (BeatClass.Normal, 0.8) }));
        Assert.That(file.Reference.Path, Is.EqualTo("lists/a.csv"));
    }

    [TestCase("none.csv", "is no file; give the path of a CSV file with the column rr_ms, or of an EDF+ or BDF+ file, from the scenario's folder on")]
    [TestCase("none/a.csv", "is no file; give the path of a CSV file with the column rr_ms, or of an EDF+ or BDF+ file, from the scenario's folder on")]
    [TestCase(".", "is a folder; give the path of a CSV file with the column rr_ms, or of an EDF+ or BDF+ file, from the scenario's folder on")]
    [TestCase("a\0b", "is no file; give the path of a CSV file with the column rr_ms, or of an EDF+ or BDF+ file, from the scenario's folder on")]
    public void Read_NoFile_SaysWhatWouldBeRight(string path, string expected)
    {
        string found = "";

        Assert.That(BeatFile.Read(path, Path.Combine(_folder, "s.toml"), m => found = m), Is.Null);
        Assert.That(found, Is.EqualTo(expected));
    }

    [TestCase(1 << 22, true)]
    [TestCase((1 << 22) + 1, false)]
    public void Read_Size_IsLimited(int bytes, bool isRead)
    {
        File.WriteAllBytes(Path.Combine(_folder, "a.csv"), new byte[bytes]);
        string found = "";

        Assert.That(BeatFile.Read("a.csv", Path.Combine(_folder, "s.toml"), m => found = m), isRead ? Is.Not.Null : Is.Null);
        Assert.That(found, isRead ? Is.Empty : Does.StartWith("is larger than 4 MiB"));
    }

    [Test]
    public void ReadFile_ScenarioWithBeats_AttachesThemAndKnowsTheFile()
    {
        File.WriteAllText(Path.Combine(_folder, "a.csv"), "rr_ms\n800\n900\n");
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[heart]\nrhythm = \"scripted\"\nbeats_file = \"a.csv\"\n");
        Scenario scenario = ScenarioReader.ReadFile(path);

        Assert.That(scenario.Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile), Is.Not.Null);
        Assert.That(scenario.ReferencedFiles.Select(f => f.Path), Is.EqualTo(new[] { "a.csv" }));
        Assert.That(scenario.WithSubject(3).Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile), Is.SameAs(scenario.Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile)));

        Scenario own = ScenarioReader.ReadText("[heart]\nrhythm = \"scripted\"\nbeats = \"normal 800, ventricular 480, normal 1120\"\n", "a.toml");
        Assert.That(own.Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.Beats), Has.Count.EqualTo(3));
        Assert.That(own.ReferencedFiles, Is.Empty);
    }

    [Test]
    public void ReadFile_ScenarioWithWrongBeats_NamesFileLineAndColumn()
    {
        string list = Path.Combine(_folder, "a.csv");
        File.WriteAllText(list, "rr_ms,class\n800,\n900,odd\n");
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[heart]\nrhythm = \"scripted\"\nrate_bpmm = 1\nbeats_file = \"a.csv\"\n");

        Assert.That(
            () => ScenarioReader.ReadFile(path),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{path}, line 3, column 1: heart.rate_bpmm is no key; the nearest is heart.rate_bpm\n"
                + $"{list}, line 3, column 5: \"odd\" is no beat; the nearest is paced of normal, atrial, ventricular, junctional, paced"));
        Assert.That(
            Mistaken.Line("[heart]\nrhythm = \"scripted\"\nbeats = \"normal 800, norml 700\"\n"),
            Does.StartWith("a.toml, line 3, column 22: heart.beats: \"norml\" is no beat"));
        Assert.That(
            ScenarioReaderMistakes("[heart]\nrhythm = \"scripted\"\nbeats = \"normal 800\"\nbeats_file = \"a.csv\"\n"),
            Does.Contain("heart.beats_file and heart.beats both give the beats"));
        Assert.That(
            Mistaken.Line("[heart]\nrhythm = \"scripted\"\nbeats_file = \"none.csv\"\n"),
            Does.StartWith("a.toml, line 3, column 14: heart.beats_file = \"none.csv\" is no file"));
    }

    private static string ScenarioReaderMistakes(string text) => string.Join('\n', Mistaken.In(text));

    private static void Fail(string message) => Assert.Fail(message);
}
