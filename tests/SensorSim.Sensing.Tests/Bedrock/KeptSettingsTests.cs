// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// A stream whose settings are kept is made in stretches of 2.56 s, ahead of its reader: codes, status, indices, truth and what is told are those of
/// a stream that is made as it is read, for every cut and copy. Promises of this project.
/// </summary>
public sealed class KeptSettingsTests
{
    private const double Seconds = 60;

    private static readonly Recording s_asRead = Recording.OfRest(New(), 499);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(500)]
    [TestCase(2560)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSame(long ticks) => AssertSame(Recording.OfRest(Kept(), ticks), $"blocks of {ticks} ticks");

    [Test]
    public void Read_AnySequenceOfCuts_GivesTheSame() =>
        Gen.Long[1, 9000].Array[1, 9].Sample(
            cuts => AssertSame(Recording.OfRest(Kept(), cuts), $"cuts {string.Join(' ', cuts)}"), iter: 20, threads: 1);

    // Kept anywhere: what had been read before was made as it was read.
    [TestCase(1)]
    [TestCase(1279)]
    [TestCase(2560)]
    [TestCase(12_345)]
    public void KeepSettings_OnTheWay_ReadsOnWithTheSame(long tick)
    {
        SensorStream stream = New();
        Recording head = Recording.OfPart(stream, tick);
        stream.KeepSettings();
        stream.KeepSettings();
        AssertSame(head.Then(Recording.OfRest(stream, 500)), $"kept at tick {tick}");
    }

    [TestCase(1)]
    [TestCase(2559)]
    [TestCase(2560)]
    [TestCase(5751)]
    [TestCase(8334)]
    public void Copy_WithinAStretch_ReadsOnWithTheSame(long tick)
    {
        SensorStream stream = Kept();
        Recording head = Recording.OfPart(stream, tick);
        SensorStream copy = stream.Copy();
        Recording original = Recording.OfRest(stream, 5000);
        AssertSame(head.Then(original), $"original, copied at tick {tick}");
        Recording rest = Recording.OfRest(copy, 777, 13);
        AssertSame(head.Then(rest), $"copy at tick {tick}");
    }

    // Fast channels make stretches shorter, slow clocks make them few ticks long.
    [TestCase(2000, 100, 50)]
    [TestCase(125, 25, 25)]
    [TestCase(250, 400, 1000)]
    public void Read_OtherRates_GiveTheSame(double ecgHz, double opticalHz, double axisHz)
    {
        SensorStream Of() => new(
            AllOn.Busy().Set(EcgAmplifierKeys.RateHz, ecgHz).Set(OpticsKeys.RateHz, opticalHz).Set(AccelerometerKeys.RateHz, axisHz), 7, 30);
        SensorStream kept = Of();
        kept.KeepSettings();
        long second = kept.Format.Clock.TicksPerSecond;
        Recording asRead = Recording.OfRest(Of(), Math.Max(1, (second / 3) - 1));
        Recording made = Recording.OfRest(kept, second);
        made.AssertSameAs(asRead, "kept");
        Assert.That(made.TruthText(30), Is.EqualTo(asRead.TruthText(30)));
    }

    [Test]
    public void Schedule_OfKeptSettings_IsRefused()
    {
        SensorStream stream = Kept();
        Assert.That(() => stream.Schedule(new SettingsRequest(0, SensorSetting.Gain, 2000, 1000)), Throws.InvalidOperationException);
    }

    // In the rhythm of a run: a second, then everything is taken out.
    [Test]
    public void Read_AnHourAfterWarmUp_AllocatesNothingAndLosesNothing()
    {
        var stream = new SensorStream(AllOn.Busy(), 7, double.PositiveInfinity, AllOn.Schedule());
        stream.KeepSettings();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        Advance(stream, block, 300);
        Assert.That(Allocations.Least(() => Advance(stream, block, 3600)), Is.Zero);
        Assert.That((stream.Truth.OverflowCount, stream.Acquisition.OverflowCount), Is.EqualTo((0L, 0L)));
    }

    private static SensorStream New() => new(AllOn.Busy(), 7, Seconds, AllOn.Schedule());

    private static SensorStream Kept()
    {
        SensorStream stream = New();
        stream.KeepSettings();
        return stream;
    }

    private static void Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _))
            {
            }

            while (stream.Acquisition.TryTake(out _))
            {
            }
        }
    }

    private static void AssertSame(Recording recording, string what)
    {
        recording.AssertSameAs(s_asRead, what);
        Assert.That(recording.TruthText(Seconds), Is.EqualTo(s_asRead.TruthText(Seconds)), what);
    }
}
