// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

[TestFixture]
public sealed class LibraryDetectorTests
{
    // Template foot: 0.0641 of the beat after its start (computed from the published parameters).
    private const double TrueArrivalMs = 1000 * (StreamMaker.TemplateDelayS + (0.0641 * StreamMaker.RrS));

    [Test]
    public void Process_BothSignals_GivesRateAndArrivalOfTheTruth()
    {
        var maker = Both();
        List<Mark> marks = maker.Run(() => 500);

        List<Mark> rates = Of(marks, MarkKind.HeartRateBpm);
        Assert.That(rates, Has.Count.GreaterThan(20));
        Assert.That(rates.Select(m => m.Value), Is.All.EqualTo(60 / StreamMaker.RrS).Within(0.2));
        foreach (int channel in new[] { 0, 1 })
        {
            // Whole intervals, four at first, then one more with each beat, then eight.
            double perBeat = StreamMaker.RrS * maker.Format.Channels[channel].RateHz;
            double[] beats = [.. rates.Where(m => m.Channel == channel).Select(m => m.WindowSamples / perBeat)];
            Assert.That(beats, Has.Length.GreaterThan(20));
            Assert.That(beats, Is.All.InRange(3.98, 8.02));
            Assert.That(beats.Select(b => Math.Round(b)), Is.Ordered);
            Assert.That(beats.Select(b => b - Math.Round(b)), Is.All.Zero.Within(0.012));
            Assert.That(beats.Skip(4), Is.All.EqualTo(8).Within(0.012));
        }

        List<Mark> fused = Of(marks, MarkKind.HeartRateFusedBpm);
        Assert.That(fused, Has.Count.GreaterThan(20));
        Assert.That(fused.Select(m => m.Value), Is.All.EqualTo(60 / StreamMaker.RrS).Within(0.2));

        List<Mark> arrivals = Of(marks, MarkKind.ArrivalTimeMs);
        Assert.That(arrivals, Has.Count.GreaterThan(25));
        Assert.That(arrivals.Select(m => m.Value), Is.All.EqualTo(TrueArrivalMs).Within(3));
        Assert.That(arrivals.Average(m => m.Value), Is.EqualTo(TrueArrivalMs).Within(1.5));
        foreach (Mark arrival in arrivals)
        {
            long footNs = maker.Format.DeviceTimeNs(arrival.Channel, arrival.Sample, arrival.Fraction256);
            long peakNs = maker.Format.DeviceTimeNs(arrival.PairedChannel, arrival.PairedSample, arrival.PairedFraction256);
            Assert.That(arrival.ValueMilli, Is.EqualTo((footNs - peakNs) / 1000.0).Within(1));
        }
    }

    [Test]
    public void Process_DeclaredDelays_AreTakenOffTheArrival()
    {
        var maker = new StreamMaker(
            40, StreamMaker.Channel(ChannelName.Ecg, 250, 1, 8_000_000), StreamMaker.Channel(ChannelName.Infrared, 100, 1, 21_000_000));
        Assert.That(Of(maker.Run(() => 500), MarkKind.ArrivalTimeMs).Average(m => m.Value), Is.EqualTo(TrueArrivalMs).Within(1.5));
    }

    [TestCase(-1, 1)]
    [TestCase(1, -1)]
    [TestCase(-1, -1)]
    public void Process_TurnedPolarity_GivesTheSameMarks(int ecg, int optical)
    {
        List<Mark> expected = Both().Run(() => 500);
        var turned = new StreamMaker(40, StreamMaker.Channel(ChannelName.Ecg, 250, ecg), StreamMaker.Channel(ChannelName.Infrared, 100, optical));
        List<Mark> marks = turned.Run(() => 500);

        // Rounding of codes at halves and of shifts is not mirrored: compare to 1/10 sample.
        Assert.That(marks.Select(m => m.Kind), Is.EqualTo(expected.Select(m => m.Kind)));
        for (int i = 0; i < marks.Count; i++)
        {
            Assert.That(marks[i].Position256, Is.EqualTo(expected[i].Position256).Within(26));
        }

        Assert.That(Of(marks, MarkKind.RPeak).Select(m => m.Value), Is.All.EqualTo(1).Within(0.06));
    }

    [Test]
    public void Process_AnyCut_GivesTheSameMarks([Values(1, 7, 17, 250, 20_000)] int ticks)
    {
        StreamMaker maker = Damaged();
        List<Mark> whole = maker.Run(() => maker.EndTick);
        Assert.That(Of(whole, MarkKind.ArrivalTimeMs), Has.Count.GreaterThan(10));
        Assert.That(maker.Run(() => ticks), Is.EqualTo(whole));
    }

    [Test]
    public void Process_RandomCuts_GivesTheSameMarks([Range(1, 5)] int seed)
    {
        StreamMaker maker = Damaged();
        var random = new Random(seed);
        Assert.That(maker.Run(() => random.Next(1, 3000)), Is.EqualTo(maker.Run(() => maker.EndTick)));
    }

    [Test]
    public void Process_MarksInOrder_AreEmittedAfterTheirSample()
    {
        StreamMaker maker = Damaged();
        List<Mark> marks = maker.Run(() => 333);
        Assert.That(marks.Select(m => m.EmittedTick), Is.Ordered);
        foreach (Mark mark in marks)
        {
            // A gate is told with the time at which it turned, the end of what was seen; all else lies within that.
            long tick = mark.Sample * maker.Format.TicksPerSample(mark.Channel);
            bool isGate = mark.Kind is MarkKind.GateOpen or MarkKind.GateShut or MarkKind.JointGateOpen or MarkKind.JointGateShut;
            Assert.That(mark.EmittedTick, isGate ? Is.GreaterThanOrEqualTo(tick) : Is.GreaterThan(tick), mark.ToString());
        }
    }

    [Test]
    public void Process_GapInTheEcg_GivesNoFalseBeatAndGoesOn()
    {
        StreamMaker maker = Both();
        maker.Lose(0, 4_950, 700); // 19.8 to 22.6 s
        double[] peaks = [.. Of(maker.Run(() => 500), MarkKind.RPeak).Select(m => m.Position256 / 256.0 / 250)];
        Assert.That(peaks.Select(OffBeatMs), Is.All.LessThan(10));
        Assert.That(peaks.Count(t => t is > 23.5 and < 38), Is.EqualTo(TrueBeats(23.5, 38)));
        Assert.That(peaks.Count(t => t is > 8 and < 19), Is.EqualTo(TrueBeats(8, 19)));
    }

    [Test]
    public void Process_GapInTheLight_KeepsFeetInPlace()
    {
        StreamMaker maker = Both();
        maker.Lose(1, 1_503, 217); // 15.03 to 17.20 s
        double[] feet = [.. Of(maker.Run(() => 500), MarkKind.PulseFootTangent).Select(m => m.Position256 / 256.0 / 100)];
        Assert.That(feet.Select(t => OffBeatMs(t - (TrueArrivalMs / 1000))), Is.All.LessThan(5));
        Assert.That(feet.Count(t => t is > 18.5 and < 38), Is.EqualTo(TrueBeats(18.5 - (TrueArrivalMs / 1000), 38 - (TrueArrivalMs / 1000))));
    }

    [TestCase(SampleStatus.LeadOffPositive)]
    [TestCase(SampleStatus.Saturated)]
    public void Process_FlaggedSamples_AreNotUsed(SampleStatus status)
    {
        StreamMaker maker = Both();
        maker.Flag(0, 5_000, 500, status);
        var random = new Random(4);
        for (int i = 5_000; i < 5_500; i++)
        {
            maker.Spoil(0, i, 1, random.Next(-130_000, 130_000));
        }

        double[] peaks = [.. Of(maker.Run(() => 500), MarkKind.RPeak).Select(m => m.Position256 / 256.0 / 250)];
        Assert.That(peaks.Select(OffBeatMs), Is.All.LessThan(10));
        Assert.That(peaks.Count(t => t is > 23 and < 38), Is.EqualTo(TrueBeats(23, 38)));
    }

    [Test]
    public void Process_PacingFlag_IsNoGap()
    {
        StreamMaker maker = Both();
        List<Mark> expected = maker.Run(() => 500);

        // Two flagged samples of every beat, half an interval after its R peak: a line takes their place, and nothing else changes.
        for (int k = 0; k < 45; k++)
        {
            maker.Flag(0, (int)((StreamMaker.FirstRS + ((k + 0.5) * StreamMaker.RrS)) * 250), 2, SampleStatus.PacingSpike);
        }

        List<Mark> marks = maker.Run(() => 500);
        Assert.That(marks.Select(m => (m.Kind, m.Channel)), Is.EqualTo(expected.Select(m => (m.Kind, m.Channel))));
        Assert.That(Of(marks, MarkKind.RPeak).Zip(Of(expected, MarkKind.RPeak), (a, b) => Math.Abs(a.Position256 - b.Position256)), Is.All.LessThan(26));
    }

    [Test]
    public void Process_EcgOnly_GivesBeatsAndRate()
    {
        List<Mark> marks = new StreamMaker(30, StreamMaker.Channel(ChannelName.Ecg, 250)).Run(() => 100);
        Assert.That(marks.Select(m => m.Kind).Distinct(), Is.EqualTo(new[] { MarkKind.GateShut, MarkKind.RPeak, MarkKind.GateOpen, MarkKind.HeartRateBpm }));
        Assert.That(Of(marks, MarkKind.GateShut).Select(m => m.Value), Is.EqualTo(new[] { 1.0 }), "waiting, told after a second");
        Assert.That(Of(marks, MarkKind.GateOpen), Has.Count.EqualTo(1));
    }

    [TestCase(ChannelName.Red)]
    [TestCase(ChannelName.Green)]
    public void Process_OtherLightOnly_GivesPulses(ChannelName name)
    {
        List<Mark> marks = new StreamMaker(30, StreamMaker.Channel(name, 100)).Run(() => 100);
        Assert.That(
            marks.Select(m => m.Kind).Distinct(),
            Is.EqualTo(new[]
            {
                MarkKind.GateShut, MarkKind.PulseFootTangent, MarkKind.PulseFootSecondDerivative, MarkKind.SteepestPoint, MarkKind.SystolicPeak,
                MarkKind.GateOpen, MarkKind.HeartRateBpm, MarkKind.PerfusionIndexPercent,
            }));
        Assert.That(Of(marks, MarkKind.HeartRateBpm).Select(m => m.Value), Is.All.EqualTo(60 / StreamMaker.RrS).Within(0.2));
    }

    [Test]
    public void Start_NothingToWorkOn_SaysWhatItNeeds()
    {
        using var detector = new LibraryDetector();
        var format = new StreamFormat([StreamMaker.Channel(ChannelName.AccelX, 50)]);
        Assert.That(() => detector.Start(format), Throws.TypeOf<NotSupportedException>().With.Message.Contains("ecg"));
    }

    [TestCase(ChannelName.Ecg, 2000, "100 to 1000 Hz")]
    [TestCase(ChannelName.Infrared, 10, "25 to 500 Hz")]
    public void Start_RateOutOfRange_SaysWhatIsAllowed(ChannelName name, int rateHz, string expected)
    {
        using var detector = new LibraryDetector();
        var format = new StreamFormat([StreamMaker.Channel(name, rateHz)]);
        Assert.That(() => detector.Start(format), Throws.TypeOf<NotSupportedException>().With.Message.Contains(expected));
    }

    [Test]
    public void Process_AfterWarmUp_AllocatesNothing()
    {
        StreamMaker maker = Damaged();
        using var detector = new LibraryDetector();
        detector.Start(maker.Format);
        var output = new DetectorOutput();
        var blocks = new List<SampleBlock>();
        for (long tick = 0; tick < maker.EndTick; tick += 500)
        {
            var block = new SampleBlock(maker.Format, 500);
            maker.Fill(block, tick, tick + 500);
            blocks.Add(block);
        }

        foreach (SampleBlock block in blocks.Take(20))
        {
            detector.Process(block, output);
        }

        int marks = 0;
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 20; i < blocks.Count; i++)
        {
            detector.Process(blocks[i], output);
            marks += output.Marks.Count;
            output.Marks.Clear();
        }

        Assert.That(GC.GetAllocatedBytesForCurrentThread() - before, Is.Zero);
        Assert.That(marks, Is.GreaterThan(50));
    }

    private static StreamMaker Both() =>
        new(40, StreamMaker.Channel(ChannelName.Ecg, 250), StreamMaker.Channel(ChannelName.Infrared, 100));

    /// <summary>Both signals with gaps and flagged stretches in each.</summary>
    private static StreamMaker Damaged()
    {
        StreamMaker maker = Both();
        maker.Lose(0, 3_000, 1);
        maker.Lose(0, 5_010, 600);
        maker.Flag(0, 7_000, 60, SampleStatus.LeadOffNegative);
        maker.Flag(0, 7_100, 5, SampleStatus.PacingSpike);
        maker.Lose(1, 1_500, 40);
        maker.Flag(1, 2_600, 25, SampleStatus.OverRange);
        return maker;
    }

    private static List<Mark> Of(List<Mark> marks, MarkKind kind) => [.. marks.Where(m => m.Kind == kind)];

    private static double OffBeatMs(double t)
    {
        double beats = (t - StreamMaker.FirstRS) / StreamMaker.RrS;
        return Math.Abs(beats - Math.Round(beats)) * StreamMaker.RrS * 1000;
    }

    private static int TrueBeats(double fromS, double untilS) =>
        Enumerable.Range(0, 100).Count(k => StreamMaker.FirstRS + (k * StreamMaker.RrS) is double t && t > fromS && t < untilS);
}
