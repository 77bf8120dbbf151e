// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// Everything on at once, two devices, level control, losses and a settings schedule: the same for every cut and copy in codes, status,
/// indices, what is told, and truth; and no byte is allocated. Promises of this project.
/// </summary>
public sealed class AllOnTests
{
    private const double Seconds = 60;

    private static readonly Recording s_whole = Recording.OfRest(New(), 10_000);

    private static SensorStream New(double seconds = Seconds) => new(AllOn.Busy(), 7, seconds, AllOn.Schedule());

    // What must happen in this minute, or the cuts say nothing.
    [Test]
    public void Minute_WithEverythingOn_HasSomeOfEverything()
    {
        AcquisitionKind[] kinds = [.. s_whole.Told.Select(t => t.Kind).Distinct()];
        Assert.That(kinds, Is.EquivalentTo(Enum.GetValues<AcquisitionKind>()));
        Assert.That(s_whole.HasOverflow, Is.False);
        Assert.That(s_whole.Told.Where(t => t.Kind == AcquisitionKind.Setting).Select(t => t.Channel).Distinct().Count(), Is.GreaterThan(3));
        foreach (SampleStatus flag in new[] { SampleStatus.LeadOffPositive, SampleStatus.Saturated, SampleStatus.NoContact })
        {
            Assert.That(s_whole.Format.Channels.Sum(c => s_whole.Status(c.Name).Count(s => (s & (ushort)flag) != 0)), Is.GreaterThan(10), flag.ToString());
        }
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(500)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSame(long ticks) => AssertSame(Recording.OfRest(New(), ticks), $"blocks of {ticks} ticks");

    [Test]
    public void Read_AnySequenceOfCuts_GivesTheSame() =>
        Gen.Long[1, 9000].Array[1, 9].Sample(
            cuts => AssertSame(Recording.OfRest(New(), cuts), $"cuts {string.Join(' ', cuts)}"), iter: 20, threads: 1);

    // In the middle of whatever happens: 500 ticks a second, so many of these lie in gaps, lift-offs, losses of contact and settlings.
    [Test]
    public void Copy_Anywhere_ReadsOnWithTheSame()
    {
        long[] inTrouble =
        [
            .. s_whole.Told.Where(t => t.EndNs - t.BeginNs > 20_000_000).GroupBy(t => (t.Channel, t.Kind)).SelectMany(g => g.Take(2))
                .Select(t => (t.BeginNs + t.EndNs) / 2 / 2_000_000),
        ];
        Assert.That(inTrouble, Has.Length.GreaterThan(8));
        foreach (long tick in (long[])[1, 129, 2503, 5006, 5751, 8334, .. inTrouble])
        {
            SensorStream stream = New();
            Recording head = Recording.OfPart(stream, tick);
            SensorStream copy = stream.Copy();
            AssertSame(head.Then(Recording.OfRest(copy, 777, 13)), $"copied at tick {tick}");
            AssertSame(head.Then(Recording.OfRest(stream, 5000)), $"original after its copy at tick {tick}");
        }
    }

    // The slot before hands its light over: when only one of the two slots is cut by a change, the other one's samples stay where they are.
    [TestCase(ChannelName.Red, SensorSetting.LedCurrentMa, 30)]
    [TestCase(ChannelName.Red, SensorSetting.Decimation, 0)]
    [TestCase(ChannelName.Infrared, SensorSetting.Gain, 2)]
    [TestCase(ChannelName.Infrared, SensorSetting.PulseWidthUs, 50)]
    [TestCase(ChannelName.Dark, SensorSetting.Decimation, 3)]
    public void Read_ChangesOfOneSlotWithCrosstalk_GiveTheSame(ChannelName channel, SensorSetting setting, double value)
    {
        SettingChange[] settings =
        [
            .. Enumerable.Range(1, 9).Select(i => new SettingChange(
                channel, setting, (int)(1000 * (i % 2 == 1 ? value : setting == SensorSetting.LedCurrentMa ? 10 : setting == SensorSetting.PulseWidthUs ? 100 : 1)), i * 1_337_000_000L)),
        ];
        KeyValues values = AllOn.Busy().Set(OpticsKeys.CrosstalkPercent, 20).Set(OpticsKeys.GreenNa, 900);
        Recording whole = Recording.OfRest(new SensorStream(values, 7, 15, settings), 10_000);
        foreach (long[] cuts in new long[][] { [1], [17], [333, 5, 4001] })
        {
            Recording.OfRest(new SensorStream(values, 7, 15, settings), cuts).AssertSameAs(whole, $"cuts {string.Join(' ', cuts)}");
        }
    }

    [Test]
    public void Read_AnHourAfterWarmUp_AllocatesNothingAndLosesNothing() => AssertFlat(3600);

    [Test]
    [Category("Slow")]
    public void Read_AWeekAfterWarmUp_AllocatesNothingAndLosesNothing() => AssertFlat(7 * 86400);

    // In the rhythm of a run: a second, then everything is taken out.
    private static void AssertFlat(int seconds)
    {
        SensorStream stream = New(double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        Advance(stream, block, 120);
        (long truth, long told) = (0, 0);
        Assert.That(Allocations.Least(() => (truth, told) = Advance(stream, block, seconds)), Is.Zero);
        Assert.That(truth, Is.GreaterThan(seconds));
        Assert.That(told, Is.GreaterThan(seconds));
        Assert.That((stream.Truth.OverflowCount, stream.Acquisition.OverflowCount), Is.EqualTo((0L, 0L)));
    }

    private static (long Truth, long Told) Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        long truth = 0;
        long told = 0;
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _))
            {
                truth++;
            }

            while (stream.Acquisition.TryTake(out _))
            {
                told++;
            }
        }

        return (truth, told);
    }

    private static void AssertSame(Recording recording, string what)
    {
        recording.AssertSameAs(s_whole, what);
        Assert.That(recording.TruthText(Seconds), Is.EqualTo(s_whole.TruthText(Seconds)), what);
    }
}
