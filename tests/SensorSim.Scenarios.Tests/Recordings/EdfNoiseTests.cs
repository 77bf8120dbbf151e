// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Processes;
using SensorSim.Tests.Shared;

namespace SensorSim.Scenarios.Tests.Recordings;

/// <summary>Recorded noise from signals of EDF files, which are put together by hand from the published layout.</summary>
[TestFixture]
public sealed class EdfNoiseTests
{
    // 327.67 of the unit is the largest: a step is 0.01 of it. Noise that means nothing.
    private static readonly ForeignSignal s_muscle = new("EMG left", "uV", 32767, 200, i => (short)(((i * 7919) % 4001) - 2000));
    private static readonly ForeignSignal s_light = new("Light", "nA", 32767, 50, i => (short)((i * 31) % 700));
    private static readonly ForeignSignal s_flat = new("Flat", "uV", 100, 50, _ => 5);
    private static readonly ForeignSignal s_slow = new("Slow", "uV", 100, 10, i => (short)i);

    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("edfnoise-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void ReadFile_SignalsByLabel_AreAttachedWithTheirRatesAndHash()
    {
        byte[] bytes = ForeignEdf.Bytes(10, [s_muscle, s_light]);
        Scenario scenario = Read(
            bytes,
            "[ecg_noise]\nrecording_file = \"noise.dat\"\nrecording_label = \"emg LEFT\"\nrecording_uv_rms = 30\n[optics]\nnoise_recording_file = \"noise.dat\"\nnoise_recording_label = \"Light\"\nnoise_recording_na_rms = 3\n");

        NoiseRecording muscle = scenario.Values.Attached<NoiseRecording>(EcgNoiseKeys.RecordingFile)!;
        NoiseRecording light = scenario.Values.Attached<NoiseRecording>(RecordedLightKeys.File)!;
        Assert.That((muscle.RateHz, light.RateHz), Is.EqualTo((200.0, 50.0)));
        Assert.That(scenario.ReferencedFiles.Select(f => f.Sha256).Distinct().Single(), Is.EqualTo(Convert.ToHexStringLower(SHA256.HashData(bytes))));
        StreamCheck.ReadAll(scenario.CreateStream());
    }

    // The same numbers as a table of values give the same stream: the file is another form, not another noise.
    [Test]
    public void ReadFile_SameNumbersAsCsv_GivesTheSameCodes()
    {
        File.WriteAllText(Path.Combine(_folder, "n.csv"), "value\n" + string.Concat(Enumerable.Range(0, 2000).Select(i => FormattableString.Invariant($"{s_muscle.Code(i)}\n"))));
        Scenario table = ReadText("[ecg_noise]\nrecording_file = \"n.csv\"\nrecording_rate_hz = 200\nrecording_uv_rms = 80\n");
        Scenario edf = Read(ForeignEdf.Bytes(10, [s_muscle]), "[ecg_noise]\nrecording_file = \"noise.dat\"\nrecording_uv_rms = 80\n");
        Scenario without = ReadText("");

        Assert.That(Codes(edf), Is.EqualTo(Codes(table)));
        Assert.That(Codes(edf), Is.Not.EqualTo(Codes(without)));
    }

    [TestCase("", "there is not one signal but 4; say which of \"EMG left\", \"Light\", \"Flat\", \"Slow\" (a signal is chosen by ecg_noise.recording_label)")]
    [TestCase("recording_label = \"EMG\"\n", "there is no signal \"EMG\"; the signals are \"EMG left\", \"Light\", \"Flat\", \"Slow\"")]
    [TestCase("recording_label = \"Flat\"\n", "all values of the signal are the same; noise must vary")]
    [TestCase("recording_label = \"Slow\"\n", "the signal has 10 Hz; 20 to 10000 Hz are taken")]
    [TestCase("recording_label = \"Light\"\nrecording_rate_hz = 50\n", "the file says its rate, and ecg_noise.recording_rate_hz gives one as well; leave out ecg_noise.recording_rate_hz")]
    public void ReadFile_Mistake_IsToldInOneSentence(string keys, string message) => Assert.That(
        () => Read(ForeignEdf.Bytes(10, [s_muscle, s_light, s_flat, s_slow]), $"[ecg_noise]\nrecording_file = \"noise.dat\"\nrecording_uv_rms = 3\n{keys}"),
        Throws.TypeOf<ScenarioException>().With.Message.EqualTo($"{Path.Combine(_folder, "noise.dat")}: {message}"));

    [Test]
    public void ReadFile_LabelWithoutOrWithAnotherFile_IsRefused()
    {
        File.WriteAllText(Path.Combine(_folder, "n.csv"), "value\n" + string.Concat(Enumerable.Range(0, 100).Select(i => FormattableString.Invariant($"{i}\n"))));
        Assert.That(
            () => ReadText("[ecg_noise]\nrecording_label = \"EMG\"\n"),
            Throws.TypeOf<ScenarioException>().With.Message.Contains("ecg_noise.recording_label needs a recording; set ecg_noise.recording_file, or leave out ecg_noise.recording_label"));
        Assert.That(
            () => ReadText("[ecg_noise]\nrecording_file = \"n.csv\"\nrecording_rate_hz = 100\nrecording_uv_rms = 3\nrecording_label = \"EMG\"\n"),
            Throws.TypeOf<ScenarioException>().With.Message.Contains("line 7, column 19: ecg_noise.recording_label chooses a signal of an EDF or BDF file; a CSV file holds one"));
    }

    [Test]
    public void ReadFile_DamagedFile_IsToldAndNeverACrash()
    {
        byte[] good = ForeignEdf.Bytes(10, [s_muscle]);
        var random = new Random(20260303);
        for (int i = 0; i < 200; i++)
        {
            byte[] bytes = [.. good[..(i % 4 == 0 ? random.Next(8, good.Length) : good.Length)]];
            bytes[random.Next(8, Math.Min(768, bytes.Length))] = (byte)random.Next(256);
            try
            {
                Read(bytes, "[ecg_noise]\nrecording_file = \"noise.dat\"\nrecording_uv_rms = 3\n");
            }
            catch (ScenarioException e)
            {
                Assert.That(e.Message, Does.Contain("noise.dat").And.Not.Contains("\n"));
            }
        }
    }

    private Scenario Read(byte[] bytes, string text)
    {
        File.WriteAllBytes(Path.Combine(_folder, "noise.dat"), bytes);
        return ReadText(text);
    }

    private Scenario ReadText(string text)
    {
        string path = Path.Combine(_folder, "s.toml");
        File.WriteAllText(path, "[scenario]\nduration_s = 3\n" + text);
        return ScenarioReader.ReadFile(path);
    }

    private static int[] Codes(Scenario scenario)
    {
        Sensing.SensorStream stream = scenario.CreateStream();
        var block = new Signals.Streams.SampleBlock(stream.Format, stream.EndTick);
        stream.Read(block, stream.EndTick);
        return block.Channels[0].Codes.ToArray();
    }
}
