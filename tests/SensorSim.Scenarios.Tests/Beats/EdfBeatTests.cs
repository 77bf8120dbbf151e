// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Beats;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;
using SensorSim.Tests.Shared;

namespace SensorSim.Scenarios.Tests.Beats;

/// <summary>Lists of beats from annotations of EDF+ files, which are put together by hand from the published layout.</summary>
[TestFixture]
public sealed class EdfBeatTests
{
    private static readonly ForeignSignal s_ecg = new("ECG", "mV", 10, 100, i => (short)i);

    // Letters: ANSI/AAMI EC57 (N, V, S); the others are common practice.
    private static readonly (double, string)[] s_notes = [(0.5, "N"), (1.3, "V"), (2.5, "artefact"), (2.55, "N"), (3.35, "S"), (4.25, "/"), (5.0, "N"), (5.9, "N")];

    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("edfbeats-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void ReadFile_Annotations_AreBeatsWithTheirIntervalsAndHash()
    {
        byte[] bytes = ForeignEdf.Bytes(7, [s_ecg], s_notes);
        Scenario scenario = Read(bytes, "");
        Assert.That(
            scenario.Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile)!.Select(b => (b.Class, Math.Round(b.RrSeconds, 9))),
            Is.EqualTo(new[]
            {
                (BeatClass.Normal, 0.8), (BeatClass.VentricularPremature, 1.25), (BeatClass.Normal, 0.8), (BeatClass.AtrialPremature, 0.9), (BeatClass.Paced, 0.75), (BeatClass.Normal, 0.9),
            }));
        Assert.That(scenario.ReferencedFiles.Single().Sha256, Is.EqualTo(Convert.ToHexStringLower(SHA256.HashData(bytes))));
    }

    [Test]
    public void ReadFile_LabelOfOnesOwn_TakesThatTextOnly()
    {
        Scenario scenario = Read(ForeignEdf.Bytes(7, [s_ecg], (0.5, "QRS"), (1.0, "N"), (1.5, "QRS"), (2.25, "QRS")), "beats_label = \"QRS\"\n");
        Assert.That(
            scenario.Values.Attached<IReadOnlyList<ScriptedBeat>>(HeartKeys.BeatsFile)!.Select(b => (b.Class, Math.Round(b.RrSeconds, 9))),
            Is.EqualTo(new[] { (BeatClass.Normal, 1.0), (BeatClass.Normal, 0.75) }));
    }

    [Test]
    public void Read_NoOrOddBeats_AreToldInOneSentence()
    {
        Assert.That(() => Read(ForeignEdf.Bytes(3, [s_ecg], (1, "sleep")), ""), Throws.TypeOf<ScenarioException>().With.Message.Contains(
            "beats.edf: no annotation of the file is a beat; beats are " + SensorSim.Files.Rows.BeatAnnotations.Known));
        Assert.That(() => Read(ForeignEdf.Bytes(3, [s_ecg], (1, "N")), ""), Throws.TypeOf<ScenarioException>().With.Message.Contains("there are fewer than two beats among the annotations"));
        Assert.That(() => Read(ForeignEdf.Bytes(3, [s_ecg], (1, "N"), (1.1, "N")), ""), Throws.TypeOf<ScenarioException>().With.Message.Contains(
            "the beat at 1.000 s has the next one 100 ms later; an interval must be 200 to 15000 ms"));
        Assert.That(() => Read(ForeignEdf.Bytes(3, [s_ecg], (1, "N")), "beats_label = \"QRS\"\n"), Throws.TypeOf<ScenarioException>().With.Message.Contains(
            "no annotation of the file has the text \"QRS\" that heart.beats_label names"));
        File.WriteAllText(Path.Combine(_folder, "a.csv"), "rr_ms\n800\n");
        Assert.That(() => ReadText("beats_file = \"a.csv\"\nbeats_label = \"QRS\"\n"), Throws.TypeOf<ScenarioException>().With.Message.Contains(
            "heart.beats_label chooses annotations of an EDF+ or BDF+ file; a CSV file holds beats only"));
    }

    private Scenario Read(byte[] bytes, string more)
    {
        File.WriteAllBytes(Path.Combine(_folder, "beats.edf"), bytes);
        return ReadText("beats_file = \"beats.edf\"\n" + more);
    }

    private Scenario ReadText(string text)
    {
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[heart]\nrhythm = \"scripted\"\n" + text);
        return ScenarioReader.ReadFile(path);
    }
}
