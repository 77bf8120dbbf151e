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

    [TestCase("packet_loss_percent = 1\n", 0, 0)]
    [TestCase("packet_loss_percent = 5\n", 0, 0)]
    [TestCase("packet_loss_percent = 20\nloss_burst_packets = 1\n", 0, 0)]
    [TestCase("stalls_per_min = 4\nstall_ms = 800\n", 0, 0)]
    [TestCase("lost_samples_per_million = 100\n", 0, 0)]
    [TestCase("lost_samples_per_million = 1000\n", 0, 0)]
    [TestCase("repeated_samples_per_million = 5000\n", 0, 0)]
    [TestCase("stamp_wrap_s = 65.536\n", 0, 0)]
    public void Detector_WithLosses_Survives(string losses, double beats, double feet)
    {
        ScoreReport report = Run(Runs.Read(Seconds, "[device]\n" + losses));
        foreach (EventScore row in report.Scores)
        {
            TestContext.Out.WriteLine($"{losses.Trim()} {row.Channel} se {row.Sensitivity} ppv {row.PositivePredictivity} ref {row.ReferenceCount} unusable {row.UnusableTruth}");
        }
    }

    private static ScoreReport Run(Scenario scenario)
    {
        SensorStream stream = scenario.CreateStream();
        Scorer scorer = Runs.Scorer(stream);
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        var output = new DetectorOutput();
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + block.MaximumTicks));
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
        }

        return scorer.Finish();
    }
}
