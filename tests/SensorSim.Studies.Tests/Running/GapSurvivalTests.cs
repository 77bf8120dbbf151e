// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Files.Output;
using SensorSim.Files.Recordings;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Streams with gaps through the library's detector and through files.</summary>
public sealed class GapSurvivalTests
{
    private const double Seconds = 1200;

    // What is left of sensitivity when beats inside gaps of 100 ms or more do not count: each gap costs the detector about one beat, for it
    // learns its levels anew. Floors of this project, set below what was measured; nothing is made up, so positive predictivity stays.
    [TestCase("packet_loss_percent = 1\n", 0.97, 0.95)]
    [TestCase("packet_loss_percent = 5\n", 0.92, 0.86)]
    [TestCase("stalls_per_min = 4\nstall_ms = 800\n", 0.96, 0.93)]
    [TestCase("stalls_per_min = 4\nstall_ms = 800\nfifo_keeps = \"newest\"\n", 0.96, 0.93)]
    [TestCase("lost_samples_per_million = 100\n", 0.99, 0.99)]
    [TestCase("lost_samples_per_million = 1000\n", 0.92, 0.92)]
    [TestCase("repeated_samples_per_million = 5000\n", 0.99, 0.99)]
    [TestCase("stamp_wrap_s = 65.536\n", 0.99, 0.99)]
    public void Detector_WithLosses_FindsWhatArrivesAndMakesNothingUp(string losses, double beats, double feet)
    {
        ScoreReport report = Run(Runs.Read(Seconds, "[device]\n" + losses));
        EventScore peaks = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        EventScore pulses = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That(peaks.ReferenceCount, Is.GreaterThan(1000));
        Assert.That(peaks.Sensitivity, Is.GreaterThan(beats), "beats");
        Assert.That(pulses.Sensitivity, Is.GreaterThan(feet), "feet");
        Assert.That(peaks.PositivePredictivity, Is.GreaterThan(0.999), "beats made up");
        Assert.That(pulses.PositivePredictivity, Is.GreaterThan(0.99), "feet made up");
    }

    // Indices, codes and status words of a stream with every kind of loss, written to a folder and read back.
    [Test]
    public void Recording_OfAStreamWithGaps_IsTheSameStream()
    {
        Scenario scenario = Runs.Read(60, "[device]\npacket_loss_percent = 10\nstalls_per_min = 6\nstall_ms = 900\nlost_samples_per_million = 3000\n");
        string path = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        try
        {
            SensorStream stream = scenario.CreateStream();
            using (var folder = new OutputFolder(path))
            {
                using (var writer = new RecordingFolderWriter(folder, stream.Format))
                {
                    Each(stream, stream.Format.Clock.TicksPerSecond, writer.Write);
                    writer.Complete();
                }

                folder.Commit();
            }

            List<string> expected = Rows(scenario.CreateStream(), 4321);
            using var reader = new RecordingFolderReader(path);
            Assert.That(Rows(reader, 777), Is.EqualTo(expected));
            Assert.That(expected, Has.Count.LessThan(0.95 * 60 * 700).And.Count.GreaterThan(0.6 * 60 * 700));
            Assert.That(expected.Count(r => r.EndsWith(" 32", StringComparison.Ordinal)), Is.GreaterThan(5), "the buffer's flag is among them");
        }
        finally
        {
            if (Directory.Exists(path))
            {
                Directory.Delete(path, recursive: true);
            }
        }
    }

    private static void Each(ISampleStream stream, long ticks, Action<SampleBlock> take)
    {
        var block = new SampleBlock(stream.Format, ticks);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + ticks));
            take(block);
        }
    }

    private static List<string> Rows(ISampleStream stream, long ticks)
    {
        var rows = stream.Format.Channels.Select(_ => new List<string>()).ToArray();
        Each(stream, ticks, block =>
        {
            for (int c = 0; c < rows.Length; c++)
            {
                foreach (SampleRun run in block.Channels[c].Runs)
                {
                    for (int i = 0; i < run.Count; i++)
                    {
                        rows[c].Add($"{c} {run.FirstIndex + i} {block.Channels[c].Codes[run.Offset + i]} {block.Channels[c].Status[run.Offset + i]}");
                    }
                }
            }
        });
        return [.. rows.SelectMany(r => r)];
    }

    private static ScoreReport Run(Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        Scorer scorer = Runs.Scorer(stream);
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        var output = new DetectorOutput();
        Each(stream, stream.Format.Clock.TicksPerSecond, block =>
        {
            detector.Process(block, output);
            while (stream.Truth.TryTake(out TruthEvent truth))
            {
                scorer.AddTruth(truth);
            }

            while (stream.Acquisition.TryTake(out AcquisitionEvent told))
            {
                if (told.Kind == AcquisitionKind.UnusableLost)
                {
                    scorer.AddUnusable(told.Channel, told.BeginNs, told.EndNs);
                }
            }

            while (output.Marks.TryTake(out Mark mark))
            {
                scorer.AddMark(mark);
            }

            scorer.AdvanceTo(stream.Format.Clock.Nanoseconds(stream.PositionTick));
        });
        return scorer.Finish();
    }
}
