// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>What never bends, with all noise of the ECG on: cuts, copies, memory, one knob one change.</summary>
public sealed class EcgNoiseBedrockTests
{
    // 65,536 ticks of 1/500 s and something over.
    private const double Seconds = 140;

    private static KeyValues Everything() => Settings.Fine(Settings.Everything())
        .Set(EcgNoiseKeys.WhiteNoiseSnrDb, 20)
        .Set(EcgNoiseKeys.BaselineWanderSnrDb, 20)
        .Set(EcgNoiseKeys.MainsSnrDb, 30)
        .Set(EcgNoiseKeys.MuscleUvRms, 30)
        .Set(EcgNoiseKeys.MuscleBurstUvRms, 60).Set(EcgNoiseKeys.MuscleBurstPerMin, 30).Set(EcgNoiseKeys.MuscleBurstS, 1.5)
        .Set(EcgNoiseKeys.SlowMotionSnrDb, 6).Set(EcgNoiseKeys.SlowMotionRestPerMin, 10)
        .Set(EcgNoiseKeys.SharpMotionUvRms, 80).Set(EcgNoiseKeys.SharpMotionPerMin, 60)
        .Attach(EcgNoiseKeys.RecordingFile, new NoiseRecording([.. Enumerable.Range(0, 700).Select(i => Math.Sin(i * 0.37) + Math.Cos(i * i * 0.01))], 200))
        .Set(EcgNoiseKeys.RecordingUvRms, 40)
        .SetChanges(MovementKeys.Activity, [(20, "rest"), (41, "running"), (90, "walking")])
        .SetChanges(EcgNoiseKeys.SharpMotionUvRms, [new CourseChange(50, ChangeKind.Ramp, 20, 30)], [])
        .SetChanges(EcgNoiseKeys.MuscleBurstUvRms, [new CourseChange(30, ChangeKind.Step, 0, 0), new CourseChange(60.3, ChangeKind.Step, 50, 0)], []);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSameAnalogBits(long ticks)
    {
        double[] whole = AnalogEcg.Of(Everything(), Seconds, blockTicks: 500);
        Assert.That(AnalogEcg.Of(Everything(), Seconds, blockTicks: ticks), Is.EqualTo(whole));
        Assert.That(whole, Has.All.Matches<double>(double.IsFinite));
    }

    [Test]
    public void Copy_HalfWay_ReadsOnWithTheSameBits()
    {
        double[] whole = AnalogEcg.Of(Everything(), Seconds);
        foreach (double seconds in new[] { 0.3, 20.9, 41.7, 60.31, 97.123 })
        {
            var stream = new SensorStream(Everything(), 7, Seconds);
            double[] head = Head(stream, (long)(seconds * 500));
            SensorStream copy = stream.Copy();
            double[] ofCopy = AnalogEcg.OfRest(copy, 333);
            Assert.That((double[])[.. head, .. ofCopy], Is.EqualTo(whole), $"copied at {seconds} s");
            Assert.That((double[])[.. head, .. AnalogEcg.OfRest(stream, 4999)], Is.EqualTo(whole), $"the original after {seconds} s");
        }
    }

    [Test]
    public void Read_AfterWarmUp_AllocatesNothing()
    {
        var stream = new SensorStream(Everything(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 1000);
        Advance(stream, block, 200);
        Assert.That(Allocations.Least(() => Advance(stream, block, 1000)), Is.Zero);
    }

    private static IEnumerable<TestCaseData> AddingKnobs()
    {
        yield return Case(EcgNoiseKeys.MuscleUvRms, 10, 70, 7);
        yield return Case(EcgNoiseKeys.MuscleSnrDb, 20, 0, 10);
        yield return Case(EcgNoiseKeys.MuscleBurstUvRms, 10, 70, 7);
        yield return Case(EcgNoiseKeys.MuscleBurstSnrDb, 20, 0, 10);
        yield return Case(EcgNoiseKeys.SlowMotionUvRms, 10, 70, 7);
        yield return Case(EcgNoiseKeys.SlowMotionSnrDb, 20, 0, 10);
        yield return Case(EcgNoiseKeys.SharpMotionUvRms, 10, 70, 7);
        yield return Case(EcgNoiseKeys.SharpMotionSnrDb, 20, 0, 10);
        yield return Case(EcgNoiseKeys.RecordingUvRms, 10, 70, 7);
        yield return Case(EcgNoiseKeys.RecordingSnrDb, 20, 0, 10);
    }

    // What a knob adds at one level is so many times what it adds at another, sample by sample, while everything else is on.
    [TestCaseSource(nameof(AddingKnobs))]
    public void Knob_AtTwoLevels_AddsTheSameSignalScaled(NumberKey key, double low, double high, double factor)
    {
        KeyValues none = Settings.Everything()
            .Set(EcgNoiseKeys.MuscleBurstPerMin, 30).Set(EcgNoiseKeys.SharpMotionPerMin, 90)
            .Attach(EcgNoiseKeys.RecordingFile, new NoiseRecording([.. Enumerable.Range(0, 700).Select(i => Math.Sin(i * 0.37))], 200));
        double[] atLow = AnalogEcg.Added(none.Copy().Set(key, low), none, 20);
        double[] atHigh = AnalogEcg.Added(none.Copy().Set(key, high), none, 20);
        Assert.That(Measure.Rms(atLow), Is.GreaterThan(1e-3));
        Assert.That(atHigh, Is.EqualTo(atLow.Select(v => factor * v)).Within(1e-12));
        Recording with = Recording.Of(none.Copy().Set(key, high), 20);
        Recording without = Recording.Of(none, 20);
        Assert.That(with.TruthText(20), Is.EqualTo(without.TruthText(20)));
        foreach (ChannelFormat channel in without.Format.Channels.Where(c => c.Name != ChannelName.Ecg))
        {
            Assert.That(with.Codes(channel.Name), Is.EqualTo(without.Codes(channel.Name)), channel.Name.Text());
        }
    }

    [Test]
    public void Levels_OfZero_ChangeNoBit()
    {
        KeyValues values = Settings.Everything();
        double[] expected = AnalogEcg.Of(values, 20);
        foreach (NumberKey rate in EcgNoiseKeys.All.OfType<NumberKey>().Where(k => !k.IsLive))
        {
            Assert.That(AnalogEcg.Of(values.Copy().Set(rate, rate.Maximum), 20), Is.EqualTo(expected), rate.Name);
        }

        foreach (NumberKey level in EcgNoiseKeys.All.OfType<NumberKey>().Where(k => k.IsLive && k.HasDefault))
        {
            Assert.That(AnalogEcg.Of(values.Copy().Set(level, 0), 20), Is.EqualTo(expected), level.Name);
        }
    }

    private static TestCaseData Case(NumberKey key, double low, double high, double factor) =>
        new TestCaseData(key, low, high, factor).SetArgDisplayNames(key.Name);

    private static double[] Head(SensorStream stream, long untilTick)
    {
        var samples = new List<double>();
        stream.AnalogTap = (channel, _, values) => samples.AddRange(channel == ChannelName.Ecg ? values : []);
        stream.Read(new SampleBlock(stream.Format, untilTick), untilTick);
        return [.. samples];
    }

    private static void Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _))
            {
            }
        }
    }
}
