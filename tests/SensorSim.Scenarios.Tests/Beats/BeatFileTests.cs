// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Scenarios.Beats;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Reading;
using SensorSim.Signals.Keys;
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

    [TestCase("none.csv", "is no file; give the path of a CSV file with the column rr_ms, from the scenario's folder on")]
    [TestCase("none/a.csv", "is no file; give the path of a CSV file with the column rr_ms, from the scenario's folder on")]
    [TestCase(".", "is a folder; give the path of a CSV file with the column rr_ms, from the scenario's folder on")]
    [TestCase("a\0b", "is no file; give the path of a CSV file with the column rr_ms, from the scenario's folder on")]
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
        TextKey inFile = Awaited("heart.beats_file");
        TextKey inline = Awaited("heart.beats");
        File.WriteAllText(Path.Combine(_folder, "a.csv"), "rr_ms\n800\n900\n");
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[heart]\nbeats_file = \"a.csv\"\n");
        Scenario scenario = ScenarioReader.ReadFile(path);

        Assert.That(scenario.Values.Attached<object>(inFile), Is.Not.Null);
        Assert.That(scenario.ReferencedFiles.Select(f => f.Path), Is.EqualTo(new[] { "a.csv" }));
        Assert.That(scenario.WithSubject(3).Values.Attached<object>(inFile), Is.SameAs(scenario.Values.Attached<object>(inFile)));

        Scenario own = ScenarioReader.ReadText("[heart]\nbeats = \"normal 800, ventricular 480, normal 1120\"\n", "a.toml");
        Assert.That(own.Values.Attached<object>(inline), Is.Not.Null);
        Assert.That(own.ReferencedFiles, Is.Empty);
    }

    [Test]
    public void ReadFile_ScenarioWithWrongBeats_NamesFileLineAndColumn()
    {
        _ = Awaited("heart.beats_file");
        string list = Path.Combine(_folder, "a.csv");
        File.WriteAllText(list, "rr_ms,class\n800,\n900,odd\n");
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[heart]\nrate_bpmm = 1\nbeats_file = \"a.csv\"\n");

        Assert.That(
            () => ScenarioReader.ReadFile(path),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                $"{path}, line 2, column 1: heart.rate_bpmm is no key; the nearest is heart.rate_bpm\n"
                + $"{list}, line 3, column 5: \"odd\" is no beat; the nearest is paced of normal, atrial, ventricular, junctional, paced"));
        Assert.That(
            Mistaken.Line("[heart]\nbeats = \"normal 800, norml 700\"\n"),
            Does.StartWith("a.toml, line 2, column 22: heart.beats: \"norml\" is no beat"));
        Assert.That(
            Mistaken.Line("[heart]\nbeats = \"normal 800\"\nbeats_file = \"a.csv\"\n"),
            Is.EqualTo("a.toml, line 3, column 14: heart.beats_file and heart.beats of line 2 both give the beats; keep one"));
        Assert.That(
            Mistaken.Line("[heart]\nbeats_file = \"none.csv\"\n"),
            Does.StartWith("a.toml, line 2, column 14: heart.beats_file = \"none.csv\" is no file"));
    }

    private static TextKey Awaited(string name)
    {
        if (AllKeys.Find(name) is not TextKey key)
        {
            Assert.Ignore($"{name} is not there yet");
            throw new InvalidOperationException();
        }

        return key;
    }

    private static void Fail(string message) => Assert.Fail(message);
}
