// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Security.Cryptography;
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Everything of electrodes and amplifier at once: the same for every cut, no byte allocated, truth untouched. Promises of this project.</summary>
public sealed class ElectrodeBedrockTests
{
    private const double Seconds = 70;

    private static KeyValues Everything() => Settings.Everything()
        .Set(HeartKeys.Rhythm, "paced").Set(PacingKeys.SpikeMv, 400)
        .Set(EcgAmplifierKeys.FlickerNoiseUvRms, 5).Set(EcgAmplifierKeys.InputRangeMv, 300).Set(EcgAmplifierKeys.HighPassHz, 0.05)
        .Set(EcgAmplifierKeys.LowPassHz, 100).Set(EcgAmplifierKeys.PacingFlag, "on").Set(EcgAmplifierKeys.FullScaleMv, 50)
        .Set(ElectrodeKeys.OffsetMv, 40).Set(ElectrodeKeys.OffsetDriftUvPerS, 200).Set(ElectrodeKeys.StepsPerMin, 30).Set(ElectrodeKeys.PopsPerMin, 60)
        .Set(ElectrodeKeys.ContactLossPerH, 400).Set(ElectrodeKeys.ContactLossS, 1).Set(ElectrodeKeys.OverloadAtS, 21.3).Set(ElectrodeKeys.OverloadPerH, 60)
        .Set(MainsKeys.BodyCouplingPf, 3).Set(MainsKeys.LeadCouplingPf, 0.05).Set(MainsKeys.ModulationPercent, 50)
        .SetChanges(ElectrodeKeys.Off, [(9, "positive"), (12, "none"), (31.7, "third"), (33, "negative"), (34.1, "none")])
        .SetChanges(ElectrodeKeys.ImpedancePositiveKohm, [new CourseChange(5, ChangeKind.Ramp, 300, 40)], [])
        .SetChanges(ElectrodeKeys.PopsPerMin, [new CourseChange(20, ChangeKind.Step, 10, 0), new CourseChange(40, ChangeKind.Step, 120, 0)], []);

    // Constant knobs too: then a channel latches only once.
    private static KeyValues Still()
    {
        KeyValues values = Everything();
        return Settings.Everything().Set(ElectrodeKeys.ContactLossPerH, 600).Set(ElectrodeKeys.StepsPerMin, 60).Set(ElectrodeKeys.OffsetDriftUvPerS, 30)
            .Set(EcgAmplifierKeys.InputRangeMv, 200).Set(EcgAmplifierKeys.HighPassHz, values[EcgAmplifierKeys.HighPassHz]).Set(EcgAmplifierKeys.LowPassHz, 40)
            .Set(EcgAmplifierKeys.FlickerNoiseUvRms, 5).Set(MainsKeys.BodyCouplingPf, 3).Set(MainsKeys.ModulationPercent, 50);
    }

    [Test]
    public void Read_BlocksOfAnyLength_GiveTheSameCodesAndStatus([Values(1, 17, 500, 65536)] long ticks, [Values] bool isStill)
    {
        KeyValues values = isStill ? Still() : Everything();
        Recording whole = Recording.Of(values, Seconds);
        Recording.Of(values, Seconds, blockTicks: ticks).AssertSameAs(whole, $"blocks of {ticks} ticks");
        SampleStatus seen = whole.Status(ChannelName.Ecg).Aggregate(SampleStatus.None, (all, s) => all | (SampleStatus)s);
        Assert.That(
            seen,
            Is.EqualTo(
                SampleStatus.LeadOffPositive | SampleStatus.LeadOffNegative | SampleStatus.LeadOffThird | SampleStatus.Saturated | SampleStatus.OverRange
                | (isStill ? SampleStatus.None : SampleStatus.PacingSpike)),
            "everything happened");
    }

    [Test]
    public void Copy_OnTheWay_ReadsOnWithTheSameBits()
    {
        Recording whole = Recording.Of(Everything(), Seconds);
        foreach (double seconds in new[] { 0.002, 0.7, 10.123, 21.31, 33.5, 61 })
        {
            var stream = new SensorStream(Everything(), 7, Seconds);
            Recording head = Recording.OfPart(stream, (long)(seconds * 500));
            SensorStream copy = stream.Copy();
            head.Then(Recording.OfRest(copy, 777, 13)).AssertSameAs(whole, $"copied at {seconds} s");
            head.Then(Recording.OfRest(stream, 500)).AssertSameAs(whole, $"original after its copy at {seconds} s");
        }
    }

    [Test]
    public void Read_AfterWarmUp_AllocatesNothing([Values(17, 5000)] int ticks)
    {
        var stream = new SensorStream(Everything(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, ticks);
        Advance(stream, block, 300_000 / ticks);
        Assert.That(Allocations.Least(() => Advance(stream, block, 300_000 / ticks)), Is.Zero);
    }

    [Test]
    public void Values_OfEverything_AreFiniteAndTruthIsTheBodys()
    {
        KeyValues values = Everything();
        Assert.That(EcgTap.Of(values, Seconds).Millivolts, Has.All.Matches<double>(double.IsFinite));
        Assert.That(
            Recording.Of(values, Seconds).TruthText(Seconds),
            Is.EqualTo(Recording.Of(new KeyValues().Set(HeartKeys.Rhythm, "paced").Set(PacingKeys.SpikeMv, 400).Set(Body.Movement.MovementKeys.Activity, "walking"), Seconds).TruthText(Seconds)));
    }

    // The same on every system: pinned, as the codes of the whole sensor are. SHA-256 of the codes, lowest byte first, then the status words.
    [Test]
    public void Codes_OfEverything_AreThePinnedOnes()
    {
        Recording recording = Recording.Of(Everything(), Seconds, seed: 20260101);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] bytes = new byte[4];
        foreach (int code in recording.Codes(ChannelName.Ecg).Concat(recording.Status(ChannelName.Ecg).Select(s => (int)s)))
        {
            BinaryPrimitives.WriteInt32LittleEndian(bytes, code);
            hash.AppendData(bytes);
        }

        Assert.That(Convert.ToHexStringLower(hash.GetHashAndReset())[..16], Is.EqualTo("95d06a59a2ae1ea8"));
    }

    // The other channels know nothing of electrodes.
    [Test]
    public void Everything_OfTheElectrodes_LeavesTheOtherChannelsAlone()
    {
        KeyValues values = Settings.Everything();
        Recording without = Recording.Of(values.Set(HeartKeys.Rhythm, "paced"), 20);
        Recording with = Recording.Of(Everything(), 20);
        foreach (ChannelFormat channel in without.Format.Channels.Where(c => c.Name != ChannelName.Ecg))
        {
            Assert.That(with.Codes(channel.Name), Is.EqualTo(without.Codes(channel.Name)), channel.Name.Text());
        }
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
