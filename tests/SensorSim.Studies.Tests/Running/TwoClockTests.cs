// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;
using SensorSim.Studies.Tests.Detectors;

namespace SensorSim.Studies.Tests.Running;

/// <summary>
/// ECG and light on two devices: events are scored without their clocks, arrival readings with the error of synchronisation. The figures are
/// the model's own: an offset goes one to one into the arrival time, a drift as ppm × 10⁻⁶ × time (own arithmetic: 20 ppm, 10 min, 12 ms).
/// </summary>
[TestFixture]
public sealed class TwoClockTests
{
    private const double LightResolutionMs = 1000.0 / 100 / 256;

    [TestCase("clock_offset_ms = 20", 20)]
    [TestCase("clock_offset_ms = -250", -250)]
    [TestCase("clock_offset_ms = 5\nradio_delay_ms = 1000\ndeclared_delay_ms = 975", 30)]
    [TestCase("radio_delay_ms = 3000\ndeclared_delay_ms = 3000", 0)]
    public void Run_KnowingDetectorOnTwoDevices_ReadsTheOffsetAndFindsTheEvents(string clock, double expectedMs)
    {
        Scenario scenario = Light(60, clock);

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario)).Report!;

        EventScore foot = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        ReadingScore arrival = report.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        Assert.That((foot.Missed, foot.Extra), Is.EqualTo((0L, 0L)));
        Assert.That(foot.TimingBiasMs, Is.EqualTo(0).Within(LightResolutionMs / 2));
        Assert.That(foot.ClockOffsetMs, Is.EqualTo(expectedMs).Within(1e-9));
        Assert.That(arrival.Count, Is.GreaterThan(40));
        Assert.That(arrival.Bias, Is.EqualTo(expectedMs).Within(0.001));
        Assert.That(arrival.Sd, Is.LessThan(0.001));
        Assert.That(report.FindReading(ChannelName.Ecg, MarkKind.HeartRateBpm)!.Rms, Is.LessThan(0.001), "the clock of the ECG is right");
        Assert.That(report.Find(ChannelName.Ecg, MarkKind.RPeak)!.TimingBiasMs, Is.EqualTo(0).Within(0.01));
        Assert.That(report.IsExact);
    }

    [Test]
    public void Run_TwentyPpmForTenMinutes_PutsTwelveMillisecondsIntoTheArrival()
    {
        Scenario scenario = Light(611, "clock_ppm = 20");
        SensorStream stream = scenario.CreateStream();
        var scorer = new Scorer(stream, new ScoringOptions { LeadInNs = 590_000_000_000 });

        // Scored from 590 to 610 s: the mean is that of ten minutes, and the spread that of 20 s even: 0.4 ms / √12.
        ScoreReport report = new Runner(stream, stream.Truth, new KnowingDetector(scenario), scorer).Run().Report!;

        ReadingScore arrival = report.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!;
        EventScore foot = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That(arrival.Count, Is.InRange(15, 30));
        Assert.That(arrival.Bias, Is.EqualTo(12).Within(0.03));
        Assert.That(arrival.Sd, Is.EqualTo(0.4 / Math.Sqrt(12)).Within(0.03));
        Assert.That(foot.TimingBiasMs, Is.EqualTo(0).Within(LightResolutionMs / 2));
        Assert.That(foot.ClockPpm, Is.EqualTo(20));
    }

    // The widest the clocks can part: 14.4 s in two hours. Truth of the slow device waits that long for answers of the fast one.
    [Test]
    public void Run_ClocksThatPartByTwoThousandPpm_IsStillExact()
    {
        Scenario scenario = Runs.Read(
            7200, "[device]\nclock_ppm = 1000\nclock_offset_ms = 2000\n[second_device]\ncarries = \"light\"\nclock_ppm = -1000\nclock_offset_ms = -2000\n");

        ScoreReport report = Runs.Run(scenario, new KnowingDetector(scenario)).Report!;

        EventScore foot = report.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        EventScore r = report.Find(ChannelName.Ecg, MarkKind.RPeak)!;
        Assert.That(report.IsExact);
        Assert.That((foot.Missed, foot.Extra, r.Missed, r.Extra), Is.EqualTo((0L, 0L, 0L, 0L)));
        Assert.That(r.ReferenceCount, Is.GreaterThan(5000));
        Assert.That(foot.TimingBiasMs, Is.EqualTo(0).Within(LightResolutionMs / 2));
        Assert.That(r.TimingBiasMs, Is.EqualTo(0).Within(0.01));
    }

    // The chain as a whole: sampling instants moved by the sensor, found by a real detector, mapped back by the scorer.
    [Test]
    public void Run_LibraryDetectorOnTwoDevices_HasTheSameEventErrorsAndTheOffsetInItsReadings()
    {
        ScoreReport one = Library(Light(120, ""));
        ScoreReport two = Library(Light(120, "clock_offset_ms = 20"));

        EventScore foot = one.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        EventScore moved = two.Find(ChannelName.Infrared, MarkKind.PulseFootTangent)!;
        Assert.That((moved.Missed, moved.Extra, foot.Missed, foot.Extra), Is.EqualTo((0L, 0L, 0L, 0L)));

        // 20 ms are two whole samples of light: the same instants, and the same marks two samples later.
        Assert.That(moved.TimingBiasMs, Is.EqualTo(foot.TimingBiasMs!.Value).Within(0.05));
        Assert.That(two.Find(ChannelName.Ecg, MarkKind.RPeak)!.TimingBiasMs, Is.EqualTo(one.Find(ChannelName.Ecg, MarkKind.RPeak)!.TimingBiasMs));
        double apart = two.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!.Bias!.Value
            - one.FindReading(ChannelName.Infrared, MarkKind.ArrivalTimeMs)!.Bias!.Value;
        Assert.That(apart, Is.EqualTo(20).Within(0.05));
    }

    private static Scenario Light(double seconds, string clock) => Runs.Read(seconds, $"[second_device]\ncarries = \"light\"\n{clock}\n");

    private static ScoreReport Library(Scenario scenario)
    {
        using IDetector detector = new LibraryDetector();
        return Runs.Run(scenario, detector).Report!;
    }
}
