// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Delivery;

/// <summary>What is told of losses, counted out by hand.</summary>
public sealed class GapTests
{
    private const double Seconds = 60;

    // A gap of 24 samples at 250 Hz is 96 ms, one of 25 is 100 ms.
    [TestCase(24, false)]
    [TestCase(25, true)]
    [TestCase(700, true)]
    public void Lose_AGap_IsUnusableFrom100MsOn(int samples, bool isUnusable)
    {
        AcquisitionEvent[] told = Tell((500, 500 + samples));
        Assert.That(told[0], Is.EqualTo(new AcquisitionEvent(ChannelName.Ecg, AcquisitionKind.Gap, 2_000_000_000, 2_000_000_000 + (samples * 4_000_000L), samples)));
        Assert.That(told.Skip(1).Select(t => (t.Kind, t.BeginNs, t.EndNs)), Is.EqualTo(
            isUnusable ? [(AcquisitionKind.UnusableLost, told[0].BeginNs, told[0].EndNs)] : Array.Empty<(AcquisitionKind, long, long)>()));
    }

    // In pieces of 10 samples: the third makes it long enough, and tells it back to its begin.
    [Test]
    public void Lose_PiecesThatTouch_AreToldBackToTheBeginOfTheGap()
    {
        AcquisitionEvent[] told = Tell((500, 510), (510, 520), (520, 530), (530, 540), (600, 610));
        Assert.That(
            told.Where(t => t.Kind == AcquisitionKind.UnusableLost).Select(t => (t.BeginNs / 4_000_000, t.EndNs / 4_000_000)),
            Is.EqualTo(new[] { (500L, 530L), (530L, 540L) }));
        Assert.That(told.Count(t => t.Kind == AcquisitionKind.Gap), Is.EqualTo(5));
    }

    // Rates that do not divide a second: nominal times are rounded down, as the stream's own.
    [TestCase(1, 3)]
    [TestCase(77, 256)]
    [TestCase(123_456_789_012, 360)]
    public void Ns_OfASample_IsThatOfTheStream(long sample, int rateHz)
    {
        var format = new StreamFormat([new ChannelFormat { Name = ChannelName.Ecg, Device = "a", RateHz = rateHz, Bits = 8, IsSigned = true, UnitPerCode = 1 }]);
        Assert.That(NominalTime.Ns(sample, rateHz), Is.EqualTo(format.DeviceTimeNs(0, sample, 0)));
        Assert.That(NominalTime.FirstSample(NominalTime.Ns(sample, rateHz), rateHz), Is.EqualTo(sample), "back");
        Assert.That(NominalTime.FirstSample(NominalTime.Ns(sample, rateHz) + 1, rateHz), Is.InRange(sample, sample + 1));
    }

    // What arrives is what would have arrived without losses, and everything else is told.
    [Test]
    public void Stream_WithEveryLoss_DeliversTheSameCodesAndTellsTheRest()
    {
        KeyValues values = Settings.Everything();
        Recording whole = Recording.Of(values, Seconds);
        whole.AssertGapsAreTold(Seconds);
        Recording lossy = Recording.Of(EveryLoss(values), Seconds);
        lossy.AssertGapsAreTold(Seconds);
        foreach (ChannelFormat channel in whole.Format.Channels)
        {
            int[] codes = whole.Codes(channel.Name);
            long[] indices = lossy.Indices(channel.Name);
            Assert.That(indices, Has.Length.InRange(0.5 * codes.Length, 0.98 * codes.Length));
            Assert.That(lossy.Codes(channel.Name), Is.EqualTo(indices.Select(i => codes[i])), channel.Name.Text());

            // The gaps that are told are those of the indices.
            AcquisitionEvent[] gaps = lossy.Stretches(channel.Name, AcquisitionKind.Gap);
            long[] missing = [.. Enumerable.Range(0, codes.Length).Select(i => (long)i).Except(indices)];
            Assert.That(
                gaps.SelectMany(g => Enumerable.Range(0, (int)g.Value).Select(i => (long)Math.Round(g.BeginNs * 1e-9 * channel.RateHz) + i)),
                Is.EqualTo(missing), channel.Name.Text());
            Assert.That(
                lossy.Stretches(channel.Name, AcquisitionKind.UnusableLost).Select(u => (u.BeginNs, u.EndNs)),
                Is.EqualTo(gaps.Where(g => g.Value >= 0.1 * channel.RateHz).Select(g => (g.BeginNs, g.EndNs))), channel.Name.Text());
        }

        Assert.That(lossy.TruthText(Seconds), Is.EqualTo(whole.TruthText(Seconds)));
    }

    /// <summary>Every way to lose samples at once.</summary>
    internal static KeyValues EveryLoss(KeyValues values) => values.Copy()
        .Set(DataPathKeys.First.PacketMs, 70).Set(DataPathKeys.First.PacketLossPercent, 8).Set(DataPathKeys.First.LossBurstPackets, 2)
        .Set(DataPathKeys.First.PacketDelayMs, 60).Set(DataPathKeys.First.LateMs, 50).Set(DataPathKeys.First.PatienceMs, 250)
        .Set(DataPathKeys.First.StampWrapS, 7.77).Set(DataPathKeys.First.StallsPerMin, 6).Set(DataPathKeys.First.StallMs, 900)
        .Set(DataPathKeys.First.LostSamplesPerMillion, 4000);

    private static AcquisitionEvent[] Tell(params (long Begin, long End)[] lost)
    {
        var events = new EventRing<AcquisitionEvent>(100);
        var teller = new GapTeller(ChannelName.Ecg, 250);
        foreach ((long begin, long end) in lost)
        {
            teller.Lose(begin, end, events);
        }

        List<AcquisitionEvent> told = [];
        while (events.TryTake(out AcquisitionEvent one))
        {
            told.Add(one);
        }

        return [.. told];
    }
}
