// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Detectors with known errors get exactly these errors as scores. A mark resolves 1/256 sample: 16 µs of ECG, 39 µs of light.</summary>
[TestFixture]
public sealed class RunnerScoreTests
{
    private const double EcgResolutionMs = 1000.0 / 250 / 256;
    private const double LightResolutionMs = 1000.0 / 100 / 256;
    private const string Quiet = "[pulse]\narrival_spread_ms = 0\n";

    [Test]
    public void Run_DetectorThatKnows_ScoresOneAndNoBias()
    {
        Scenario scenario = Runs.Read(60);

        RunOutcome outcome = Runs.Run(scenario, new KnowingDetector(scenario));

        ScoreReport report = outcome.Report!;
        EventScore r = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        EventScore foot = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That(outcome.Verdict, Is.EqualTo(Verdict.Answered));
        Assert.That(outcome.VerdictReason, Is.Empty);
        Assert.That(outcome.DetectorName, Is.EqualTo("knowing 1.0"));
        Assert.That(r.ReferenceCount, Is.InRange(45, 65));
        Assert.That((r.Sensitivity, r.PositivePredictivity, foot.Sensitivity, foot.PositivePredictivity), Is.EqualTo((1.0, 1.0, 1.0, 1.0)));
        Assert.That(r.TimingBiasMs, Is.EqualTo(0).Within(EcgResolutionMs / 2));
        Assert.That(foot.TimingBiasMs, Is.EqualTo(0).Within(LightResolutionMs / 2));
        Assert.That(foot.TimingSdMs, Is.LessThan(LightResolutionMs));
        Assert.That(report.IsExact);
    }

    [Test]
    public void Run_DetectorThatKnows_ReadingsHaveNoBias()
    {
        Scenario scenario = Runs.Read(60);

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario)).Report!;

        ReadingScore arrival = report.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        ReadingScore rate = report.FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!;
        Assert.That(arrival.Count, Is.GreaterThan(40));
        Assert.That(arrival.Bias, Is.EqualTo(0).Within(0.001));
        Assert.That(arrival.Rms, Is.LessThan(0.001));
        Assert.That(rate.Count, Is.GreaterThan(40));
        Assert.That(rate.Rms, Is.LessThan(0.001));
        Assert.That(arrival.Wrong + rate.Wrong, Is.Zero);
    }

    [TestCase(10)]
    [TestCase(-25)]
    public void Run_DetectorThatIsLate_ScoresItsLateness(double lateMs)
    {
        Scenario scenario = Runs.Read(30, Quiet);

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario) { ErrorMs = _ => lateMs }).Report!;

        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.TimingBiasMs, Is.EqualTo(lateMs).Within(EcgResolutionMs / 2));
        Assert.That(report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!.TimingBiasMs, Is.EqualTo(lateMs).Within(LightResolutionMs / 2));
    }

    [Test]
    public void Run_DetectorThatSkipsEveryFourthBeat_MissesThese()
    {
        Scenario scenario = Runs.Read(60);
        var sink = new KeepSink();

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario) { Answers = id => id % 4 != 0 }, sink).Report!;

        // Scored: after max(8 s, a tenth of the record) and before the last second.
        long missed = sink.Truth.Count(t => t.Kind == MarkKind.RPeak && t.BeatId % 4 == 0 && t.TimeNs is >= 8_000_000_000 and < 59_000_000_000);
        EventScore r = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(missed, Is.GreaterThan(8));
        Assert.That((r.Missed, r.Extra), Is.EqualTo((missed, 0)));
    }

    [TestCase(151, 0)]
    [TestCase(149, 1)]
    public void Run_DetectorAtTheEdgeOfTheWindow_MatchesInsideOnly(double lateMs, double sensitivity)
    {
        Scenario scenario = Runs.Read(30);

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario) { ErrorMs = _ => lateMs }).Report!;

        // Windows of 150 ms (ANSI/AAMI EC57, from memory).
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.Sensitivity, Is.EqualTo(sensitivity));
    }
}
