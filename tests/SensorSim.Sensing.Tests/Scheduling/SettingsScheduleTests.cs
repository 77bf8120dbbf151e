// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Scheduling;

/// <summary>Settings that change while the sensor runs: at which sample, what is given, and what is told. Definitions of this project.</summary>
[TestFixture]
public sealed class SettingsScheduleTests
{
    private const double Seconds = 12;

    private static KeyValues Base() => Settings.Everything().Set(OpticsKeys.GreenNa, 900);

    private static SettingChange Row(ChannelName channel, SensorSetting setting, int milli, double at) =>
        new(channel, setting, milli, (long)Math.Round(at * 1e9));

    // Every kind of change, several to a sample, at 0, close together, and without effect.
    private static SettingChange[] Busy() =>
    [
        Row(ChannelName.Infrared, SensorSetting.Decimation, 2000, 0),
        Row(ChannelName.Ecg, SensorSetting.Gain, 2500, 2.0013),
        Row(ChannelName.Ecg, SensorSetting.Gain, 500, 2.0053),
        Row(ChannelName.Red, SensorSetting.Decimation, 0, 3.333),
        Row(ChannelName.Green, SensorSetting.Decimation, 3000, 3.5),
        Row(ChannelName.AccelX, SensorSetting.Decimation, 7000, 4.01),
        Row(ChannelName.Red, SensorSetting.Decimation, 1000, 5.678),
        Row(ChannelName.Red, SensorSetting.Gain, 2000, 5.678),
        Row(ChannelName.Ecg, SensorSetting.Decimation, 0, 6),
        Row(ChannelName.Ecg, SensorSetting.Decimation, 4000, 6.9),
        Row(ChannelName.Ecg, SensorSetting.Decimation, 4000, 7),
        Row(ChannelName.Infrared, SensorSetting.Decimation, 1000, 8),
        Row(ChannelName.Dark, SensorSetting.PulseWidthUs, 50000, 9),
        Row(ChannelName.Infrared, SensorSetting.LedCurrentMa, 7000, 9.1),
    ];

    [Test]
    public void Read_EmptySchedule_IsTheSameToTheBit() =>
        Recording.OfRest(new SensorStream(Base(), 7, Seconds, []), 500).AssertSameAs(Recording.Of(Base(), Seconds), "empty schedule");

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(65536)]
    public void Read_AnyCut_GivesTheSame(long cut)
    {
        Given whole = Given.OfRest(new SensorStream(Base(), 7, Seconds, Busy()), 500);

        Given.OfRest(new SensorStream(Base(), 7, Seconds, Busy()), cut).AssertSameAs(whole, $"cut {cut}");
    }

    [TestCase(1003)]
    [TestCase(1666)]
    [TestCase(2839)]
    [TestCase(3200)]
    public void Copy_OnTheWay_GoesOnAlike(long tick)
    {
        Given whole = Given.Of(Base(), Seconds, Busy());
        var stream = new SensorStream(Base(), 7, Seconds, Busy());
        Given head = Given.OfPart(stream, tick);
        SensorStream copy = stream.Copy();

        head.Then(Given.OfRest(copy, 313)).AssertSameAs(whole, "copy");
        head.Then(Given.OfRest(stream, 77)).AssertSameAs(whole, "original after its copy");
    }

    [Test]
    public void Copy_ThenAChangeOfTheCopy_LeavesTheOriginalAlone()
    {
        var stream = new SensorStream(Base(), 7, Seconds);
        Given head = Given.OfPart(stream, 1000);
        SensorStream copy = stream.Copy();
        copy.Schedule(new SettingsRequest(0, SensorSetting.Gain, 3000, 1100));

        head.Then(Given.OfRest(stream, 500)).AssertSameAs(Given.Of(Base(), Seconds), "original");
        Assert.That(Given.OfRest(copy, 500)[ChannelName.Ecg].Any(s => s.Status >> StatusWord.SettingsShift == 1));
    }

    // The first sample at or after a time shows a change: index = ceil(time × rate).
    [TestCase(ChannelName.Ecg, 2.0, 500)]
    [TestCase(ChannelName.Ecg, 2.0001, 501)]
    [TestCase(ChannelName.Ecg, 1.999, 500)]
    [TestCase(ChannelName.Ecg, 0, 0)]
    [TestCase(ChannelName.Dark, 2.005, 201)]
    [TestCase(ChannelName.Infrared, 2.0, 200)]
    [TestCase(ChannelName.Green, 11.99, 1199)]
    public void Gain_FirstSample_IsTheOneAtOrAfterItsTime(ChannelName channel, double at, long first)
    {
        Given given = Given.Of(Base(), Seconds, Row(channel, SensorSetting.Gain, 2000, at));

        Assert.That(given[channel].Select(s => s.Status >> StatusWord.SettingsShift), Is.EqualTo(given[channel].Select(s => s.Index < first ? 0 : 1)));
        foreach (ChannelFormat other in given.Format.Channels.Where(c => c.Name != channel))
        {
            Assert.That(given[other.Name].Select(s => s.Status >> StatusWord.SettingsShift), Has.All.Zero, other.Name.Text());
        }
    }

    [Test]
    public void Gain_OfTheEcg_MultipliesWhatStandsAtTheConverter()
    {
        double[] before = Analog(Settings.Everything(), ChannelName.Ecg, []);
        Given given = Given.Of(Settings.Everything(), 4, Row(ChannelName.Ecg, SensorSetting.Gain, 2500, 2));
        ChannelFormat format = given.Format.Channels[0];

        // Round to even, full scale ±5 mV of 16 bits: worked out here from the analog values of a run with gain 1.
        IEnumerable<int> expected = before.Select((v, i) => (int)Math.Clamp(Math.Round((i < 500 ? v : 2.5 * v) / format.UnitPerCode), -32768, 32767));
        Assert.That(given[ChannelName.Ecg].Select(s => s.Code), Is.EqualTo(expected));
        Assert.That(given[ChannelName.Ecg].Select(s => s.Code), Is.Not.EqualTo(Given.Of(Settings.Everything(), 4)[ChannelName.Ecg].Select(s => s.Code)));
    }

    [TestCase(ChannelName.Ecg, 2)]
    [TestCase(ChannelName.Red, 3)]
    [TestCase(ChannelName.AccelY, 10)]
    [TestCase(ChannelName.Dark, 1000)]
    public void Decimation_Samples_AreThoseOfTheMultiplesAndNoneIsAnother(ChannelName channel, int every)
    {
        Given all = Given.Of(Base(), Seconds);
        Given given = Given.Of(Base(), Seconds, Row(channel, SensorSetting.Decimation, every * 1000, 0));

        Assert.That(given[channel].Select(s => (s.Index, s.Code)), Is.EqualTo(all[channel].Where(s => s.Index % every == 0).Select(s => (s.Index, s.Code))));
        foreach (ChannelFormat other in given.Format.Channels.Where(c => c.Name != channel))
        {
            Assert.That(given[other.Name], Is.EqualTo(all[other.Name]), other.Name.Text());
        }
    }

    [Test]
    public void Off_Samples_AreMissingUntilOnAgainAndTheGapIsTold()
    {
        Given all = Given.Of(Base(), Seconds);
        Given given = Given.Of(
            Base(), Seconds, Row(ChannelName.Red, SensorSetting.Decimation, 0, 3.333), Row(ChannelName.Red, SensorSetting.Decimation, 1000, 5.678));

        Assert.That(
            given[ChannelName.Red].Select(s => (s.Index, s.Code)),
            Is.EqualTo(all[ChannelName.Red].Where(s => s.Index is < 334 or >= 568).Select(s => (s.Index, s.Code))));
        AcquisitionEvent[] gaps = [.. given.Events.Where(e => e.Kind == AcquisitionKind.Gap)];
        Assert.That(gaps.Select(g => g.Channel), Has.All.EqualTo(ChannelName.Red));
        Assert.That((gaps[0].BeginNs, gaps[^1].EndNs), Is.EqualTo((3_340_000_000L, 5_680_000_000L)));
        Assert.That(gaps.Zip(gaps.Skip(1)), Has.All.Matches<(AcquisitionEvent First, AcquisitionEvent Second)>(p => p.First.EndNs == p.Second.BeginNs));
        Assert.That(gaps.Sum(g => g.Value), Is.EqualTo(568 - 334));
    }

    [Test]
    public void Changes_AreToldOnceEachInOrder()
    {
        Given given = Given.Of(Base(), Seconds, Busy());
        AcquisitionEvent[] ecg = [.. given.Events.Where(e => e.Kind == AcquisitionKind.Setting && e.Channel == ChannelName.Ecg)];

        // The second decimation by 4 changes nothing and is no change.
        Assert.That(
            ecg.Select(e => (e.BeginNs, e.EndNs, e.Setting, e.Value)),
            Is.EqualTo(new[]
            {
                (2_004_000_000L, 2_004_000_000L, SensorSetting.Gain, 2.5),
                (2_008_000_000L, 2_008_000_000L, SensorSetting.Gain, 0.5),
                (6_000_000_000L, 6_000_000_000L, SensorSetting.Decimation, 0),
                (6_900_000_000L, 6_900_000_000L, SensorSetting.Decimation, 4),
            }));
        Assert.That(given[ChannelName.Ecg][^1].Status >> StatusWord.SettingsShift, Is.EqualTo(4));
        Assert.That(given[ChannelName.Red].First(s => s.Index >= 568).Status >> StatusWord.SettingsShift, Is.EqualTo(3), "off, on and gain");
    }

    [Test]
    public void Number_After255_WrapsAndLeavesTheFlagsAlone()
    {
        SettingChange[] rows = [.. Enumerable.Range(0, 300).Select(i => Row(ChannelName.Ecg, SensorSetting.Gain, 1001 + i, 0.5 + (0.004 * i)))];
        Given given = Given.Of(Settings.Everything().Set(SensorSim.Sensing.Electrodes.EcgAmplifierKeys.FullScaleMv, 0.5), 3, rows);

        Assert.That(given[ChannelName.Ecg].Select(s => s.Status >> 8), Is.EqualTo(given[ChannelName.Ecg].Select(s => Math.Clamp(s.Index - 124, 0, 300) % 256)));
        Assert.That(given[ChannelName.Ecg].Select(s => s.Status & StatusWord.Flags).Distinct(), Is.EquivalentTo(new[] { 0, (int)SampleStatus.OverRange }));
    }

    [Test]
    public void Schedule_WhileRunning_IsAsIfPlanned()
    {
        Given planned = Given.Of(Base(), Seconds, Row(ChannelName.Infrared, SensorSetting.Decimation, 5000, 4.004), Row(ChannelName.Ecg, SensorSetting.Gain, 3000, 4));
        var stream = new SensorStream(Base(), 7, Seconds);
        Given head = Given.OfPart(stream, 1950);
        Assert.That(stream.Schedule(new SettingsRequest(0, SensorSetting.Gain, 3000, 2000)));
        Assert.That(stream.Schedule(new SettingsRequest(2, SensorSetting.Decimation, 5000, 2002)));

        head.Then(Given.OfRest(stream, 500)).AssertSameAs(planned, "added");
    }

    // Ticks are finer than samples: 2001 and 2002 are the same sample of infrared, and the later tick must win, planned or not.
    [TestCase(2001, 4.004, 4)]
    [TestCase(2002, 4.002, 5)]
    [TestCase(2002, 4.004, 5)]
    public void Schedule_SameSampleAsAPlannedChange_LaterTickWins(long addedTick, double plannedAt, int every)
    {
        var stream = new SensorStream(Base(), 7, Seconds, [Row(ChannelName.Infrared, SensorSetting.Decimation, 4000, plannedAt)]);
        Given.OfPart(stream, 1950);
        stream.Schedule(new SettingsRequest(2, SensorSetting.Decimation, 5000, addedTick));
        Given rest = Given.OfRest(stream, 500);

        Assert.That(rest[ChannelName.Infrared].Where(s => s.Index > 420).Select(s => s.Index % every), Has.All.Zero);
        Assert.That(rest[ChannelName.Infrared][^1].Status >> StatusWord.SettingsShift, Is.EqualTo(2));
    }

    [Test]
    public void Schedule_NoSuchThing_IsRefused()
    {
        var stream = new SensorStream(Base(), 7, Seconds);
        Given.OfPart(stream, 500);

        Assert.That(() => stream.Schedule(new SettingsRequest(0, SensorSetting.LedCurrentMa, 5000, 600)), Throws.ArgumentException);
        Assert.That(() => stream.Schedule(new SettingsRequest(9, SensorSetting.Decimation, 5000, 600)), Throws.ArgumentException);
        Assert.That(() => stream.Schedule(new SettingsRequest(0, SensorSetting.Decimation, 1500, 600)), Throws.ArgumentException);
        Assert.That(() => stream.Schedule(new SettingsRequest(0, SensorSetting.Gain, 5000, 499)), Throws.ArgumentException);
        Assert.That(() => new SensorStream(Settings.Everything(), 7, 5, [Row(ChannelName.Green, SensorSetting.Decimation, 0, 1)]), Throws.ArgumentException);
    }

    [Test]
    public void Schedule_MoreThanFit_SaysSo()
    {
        var stream = new SensorStream(Base(), 7, Seconds);
        bool[] hasRoom = [.. Enumerable.Range(0, 70).Select(i => stream.Schedule(new SettingsRequest(0, SensorSetting.Gain, 2000 + i, 10 + i)))];

        Assert.That(hasRoom.Count(r => r), Is.EqualTo(64));
        Assert.That(hasRoom[63] && !hasRoom[64]);
    }

    [TestCase(ChannelName.Ecg, "gain decimation")]
    [TestCase(ChannelName.Red, "led_current_ma pulse_width_us gain decimation")]
    [TestCase(ChannelName.Dark, "pulse_width_us gain decimation")]
    [TestCase(ChannelName.AccelZ, "decimation")]
    public void Limits_Channel_HasItsSettings(ChannelName channel, string settings)
    {
        var stream = new SensorStream(Base(), 7, Seconds);
        int number = stream.Format.IndexOf(channel);

        Assert.That(
            string.Join(' ', SensorSettings.All.Where((_, i) => stream.Limits(number, (SensorSetting)i).Exists)),
            Is.EqualTo(settings));
    }

    [Test]
    public void Limits_PulseWidth_EndsWhereTheNextSlotBegins()
    {
        var stream = new SensorStream(new KeyValues(), 7, Seconds);

        // Slots stand 250 µs apart unless set otherwise, 10 ms to a sample.
        Assert.That(stream.Limits(1, SensorSetting.PulseWidthUs), Is.EqualTo(new SettingLimits(5000, 250_000, 1)));
    }

    [Test]
    public void Read_WithChanges_AllocatesNothing()
    {
        SettingChange[] rows =
        [
            .. Enumerable.Range(0, 4000).Select(i => Row((ChannelName)(i % 8), SensorSetting.Decimation, 1000 * (i / 8 % 4), 0.5 + (i * 0.013))),
        ];
        var stream = new SensorStream(Base(), 7, double.PositiveInfinity, rows);
        var block = new SampleBlock(stream.Format, 500);
        Advance(stream, block, 5);
        Assert.That(Allocations.Least(() => Advance(stream, block, 40)), Is.Zero);
    }

    [Test]
    public void Truth_WithChanges_StaysTheSame()
    {
        string[] with = Truth(new SensorStream(Base(), 7, Seconds, Busy()));

        Assert.That(with, Is.Not.Empty.And.EqualTo(Truth(new SensorStream(Base(), 7, Seconds))));
    }

    private static string[] Truth(SensorStream stream)
    {
        stream.Read(new SampleBlock(stream.Format, stream.EndTick), stream.EndTick);
        var rows = new List<string>();
        while (stream.Truth.TryTake(out SensorSim.Signals.Marks.TruthEvent t))
        {
            rows.Add($"{t.Channel} {t.Kind} {t.TimeNs} {BitConverter.DoubleToInt64Bits(t.Value):x}");
        }

        return [.. rows];
    }

    private static double[] Analog(KeyValues values, ChannelName channel, SettingChange[] settings)
    {
        var kept = new List<double>();
        var stream = new SensorStream(values, 7, 4, settings)
        {
            AnalogTap = (name, _, analog) => kept.AddRange(name == channel ? analog.ToArray() : []),
        };
        stream.Read(new SampleBlock(stream.Format, stream.EndTick), stream.EndTick);
        return [.. kept];
    }

    private static void Advance(SensorStream stream, SampleBlock block, int blocks)
    {
        for (int i = 0; i < blocks; i++)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
        }
    }
}
