// SPDX-License-Identifier: MIT
using SensorSim.Links.Bluetooth;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Links.Tests.Bluetooth;

/// <summary>From marks to values of characteristics.</summary>
public sealed class VitalsGathererTests
{
    private const int RateHz = 250;
    private static readonly StreamFormat s_format = new(new[] { ChannelName.Ecg, ChannelName.Infrared }.Select(n => new ChannelFormat
    {
        Name = n, Device = "d", RateHz = RateHz, Bits = 18, IsSigned = n == ChannelName.Ecg, UnitPerCode = 1,
    }));

    private readonly byte[] _value = new byte[20];

    [Test]
    public void HeartRate_BeatsAndReading_GiveRateAndIntervals()
    {
        var vitals = new VitalsGatherer(s_format) { Contact = SkinContact.Yes };
        vitals.Take(Peak(0));
        vitals.Take(Peak(208.25));
        vitals.Take(Peak(458.25));
        vitals.Take(Reading(MarkKind.HeartRateBpm, 0, 71_700, 500));

        // 208.25 samples of 4 ms are 833 ms, 853 units; a second is 1024 of them.
        Assert.That(Hex(vitals.WriteHeartRate(_value)), Is.EqualTo("164855030004"));
        Assert.That(Hex(vitals.WriteHeartRate(_value)), Is.EqualTo("0648"), "each interval once");
    }

    [Test]
    public void HeartRate_MoreIntervalsThanFit_GoOldestFirst()
    {
        var vitals = new VitalsGatherer(s_format);
        for (int i = 0; i <= 12; i++)
        {
            vitals.Take(Peak(i * (200 + i)));
        }

        vitals.Take(Reading(MarkKind.HeartRateFusedBpm, 0, 60_499, 3000));
        vitals.Take(Reading(MarkKind.HeartRateBpm, 0, 99_000, 3000));
        Assert.That(vitals.WriteHeartRate(_value), Is.EqualTo(20));
        Assert.That(_value[1], Is.EqualTo(60), "the fused one comes first");
        Assert.That(BitConverter.ToUInt16(_value, 2), Is.EqualTo(823), "201 samples: 823.3 units");
        Assert.That(vitals.WriteHeartRate(_value), Is.EqualTo(8));
        Assert.That(BitConverter.ToUInt16(_value, 2), Is.EqualTo(897), "219 samples: 897.02 units");
    }

    [Test]
    public void HeartRate_GateShutOrLongPause_TellsNoIntervalOverIt()
    {
        var vitals = new VitalsGatherer(s_format);
        vitals.Take(Peak(0));
        vitals.Take(new Mark { Kind = MarkKind.GateShut, Channel = 0, Sample = 100, EmittedTick = 100 });
        vitals.Take(Peak(250));
        vitals.Take(Peak(250 + 1001));
        vitals.Take(new Mark { Kind = MarkKind.GateShut, Channel = 1, Sample = 1300, EmittedTick = 1300 });
        vitals.Take(Peak(250 + 1001 + 1000));
        vitals.Take(Reading(MarkKind.HeartRateBpm, 0, 60_000, 2300));
        Assert.That(Hex(vitals.WriteHeartRate(_value)), Is.EqualTo("103C0010"), "only the 4 s between the last two");
    }

    [Test]
    public void HeartRate_OldOrNoReading_IsNotTold()
    {
        var vitals = new VitalsGatherer(s_format);
        Assert.That(vitals.WriteHeartRate(_value), Is.Zero);
        vitals.Take(Reading(MarkKind.HeartRateBpm, 0, 60_000, 250));
        vitals.Advance(250 + (10 * RateHz));
        Assert.That(vitals.WriteHeartRate(_value), Is.EqualTo(2));
        vitals.Advance(251 + (10 * RateHz));
        Assert.That(vitals.WriteHeartRate(_value), Is.Zero);
        Assert.That(vitals.WriteOximeter(_value), Is.Zero);
        Assert.That(vitals.WriteSpotCheck(null, _value), Is.Zero);
        Assert.That(vitals.WriteBloodPressure(null, _value), Is.Zero);
    }

    [Test]
    public void Oximeter_Readings_AreToldToATenth()
    {
        var vitals = new VitalsGatherer(s_format);
        vitals.Take(Reading(MarkKind.Spo2Percent, 1, 96_520, 100));
        Assert.That(Hex(vitals.WriteOximeter(_value)), Is.EqualTo("04C5F3FF072000"), "no pulse rate yet");
        vitals.Take(Reading(MarkKind.HeartRateBpm, 1, 72_060, 100));
        vitals.Take(Reading(MarkKind.PerfusionIndexPercent, 1, 1_460, 100, quality: 3));
        Assert.That(Hex(vitals.WriteOximeter(_value)), Is.EqualTo("14C5F3D1F220000FF0"));
        Assert.That(Hex(vitals.WriteSpotCheck(new DeviceTime(2026, 3, 2, 10, 11, 12), _value)), Is.EqualTo("09C5F3D1F2EA0703020A0B0C0FF0"));
        vitals.Take(Reading(MarkKind.Spo2Percent, 1, 96_520, 200, quality: 127));
        Assert.That(Hex(vitals.WriteOximeter(_value)), Is.EqualTo("14C5F3D1F220400FF0"), "questionable");
    }

    [Test]
    public void BloodPressure_PairOfReadings_IsToldOnce()
    {
        var vitals = new VitalsGatherer(s_format);
        vitals.Take(Reading(MarkKind.SystolicMmhg, 1, 121_040, 100));
        Assert.That(vitals.WriteBloodPressure(null, _value), Is.Zero, "half a pair");
        vitals.Take(Reading(MarkKind.DiastolicMmhg, 1, 79_960, 100));
        Assert.That(Hex(vitals.WriteBloodPressure(null, _value)), Is.EqualTo("00BAF420F3FF07"), "121.0, 80.0, no mean");
        Assert.That(vitals.WriteBloodPressure(null, _value), Is.Zero);
    }

    [Test]
    public void Take_ManyBeats_KeepsTheNewestAndAllocatesNothing()
    {
        var vitals = new VitalsGatherer(s_format);
        for (int i = 0; i < 70; i++)
        {
            vitals.Take(Peak(i * 200));
        }

        Assert.That(vitals.IntervalsLost, Is.EqualTo(69 - VitalsGatherer.WaitingIntervals));
        Assert.That(Allocations.Least(() =>
        {
            for (int i = 0; i < 1000; i++)
            {
                vitals.Take(Peak(100_000 + (i * 200)));
                vitals.Take(Reading(MarkKind.HeartRateBpm, 0, 60_000, 100_000));
                vitals.Take(Reading(MarkKind.Spo2Percent, 1, 97_000, 100_000));
                vitals.WriteHeartRate(_value);
                vitals.WriteOximeter(_value);
            }
        }), Is.Zero);
    }

    private static Mark Peak(double sample) => new()
    {
        Kind = MarkKind.RPeak, Channel = 0, Sample = (long)sample, Fraction256 = (byte)((sample - Math.Floor(sample)) * 256), EmittedTick = (long)sample + 50,
    };

    private static Mark Reading(MarkKind kind, int channel, int milli, long tick, byte quality = 255)
        => new() { Kind = kind, Channel = channel, HasValue = true, ValueMilli = milli, Sample = tick, EmittedTick = tick, Quality = quality };

    private string Hex(int length) => Convert.ToHexString(_value, 0, length);
}
