// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Devices;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Delivery;

public sealed class PacketLossTests
{
    private static readonly DataPathKeys s_keys = DataPathKeys.First;

    // Two states with chances p (to bad) and q (to good): share p / (p + q), bursts geometric with mean 1 / q (Gilbert, Bell System Technical
    // Journal 39:1253, 1960). Correlation of neighbours 1 − p − q (Markov chain, textbook): the variance of the share is s(1 − s)/n · (1 + ρ)/(1 − ρ).
    [TestCase(1, 1)]
    [TestCase(5, 3)]
    [TestCase(20, 2)]
    [TestCase(50, 10)]
    public void Loss_OfManyPackets_HasTheShareAndTheBurstsOfGilbertsModel(double percent, double burst)
    {
        const int Packets = 400_000;

        // At 10 Hz and 100 ms each sample is a packet.
        Delivered result = Delivered.Of(Values(percent, burst), Packets, 10);
        double s = percent / 100;
        double q = 1 / burst;
        double p = q * s / (1 - s);
        double rho = 1 - p - q;
        Assert.That(result.LostShare, Is.EqualTo(s).Within(4 * Math.Sqrt(s * (1 - s) / Packets * (1 + rho) / (1 - rho))), "share");
        int[] bursts = Delivered.Runs(result.IsLost);
        double wide = Math.Sqrt((1 - q) / (q * q) / bursts.Length);
        Assert.That(bursts.Average(), Is.EqualTo(burst).Within(4 * wide), "mean burst");

        // Geometric: the share of bursts of one packet is q.
        double ones = bursts.Count(b => b == 1) / (double)bursts.Length;
        Assert.That(ones, Is.EqualTo(q).Within(4 * Math.Sqrt(q * (1 - q) / bursts.Length)), "bursts of one packet");
    }

    [Test]
    public void Loss_Higher_AddsLostPacketsAndGivesNoneBack()
    {
        bool[] little = Delivered.Of(Values(3, 3), 20_000, 10).IsLost;
        bool[] much = Delivered.Of(Values(12, 3), 20_000, 10).IsLost;
        Assert.That(little.Zip(much).Count(p => p.First && !p.Second), Is.Zero);
        Assert.That(much.Count(l => l), Is.GreaterThan(2 * little.Count(l => l)));
    }

    // One packet carries every channel: at all rates the same stretches of device time are lost.
    [Test]
    public void Loss_OfOneDevice_IsTheSameStretchOfTimeInEveryChannel()
    {
        KeyValues values = Values(10, 2).Set(s_keys.PacketMs, 130);
        bool[] slow = Delivered.Of(values, 100_000, 100, ChannelName.Red).IsLost;
        bool[] fast = Delivered.Of(values, 250_000, 250, ChannelName.Ecg).IsLost;
        for (int k = 0; k < 7000; k++)
        {
            // A sample 10 ms after the packet's begin, and what the other channel has there, counted in whole milliseconds.
            int ms = (130 * k) + 10;
            Assert.That(slow[(ms + 9) / 10], Is.EqualTo(fast[(ms + 3) / 4]), $"packet {k}");
        }

        Assert.That(slow.Count(l => l), Is.GreaterThan(5000));
    }

    [Test]
    public void Loss_OfTheSecondDevice_IsItsOwn()
    {
        KeyValues values = Values(10, 2).Set(DeviceKeys.SecondCarries, "light").Set(DataPathKeys.Second.PacketLossPercent, 10)
            .Set(DataPathKeys.Second.LossBurstPackets, 2);
        bool[] first = Delivered.Of(values, 40_000, 10, ChannelName.Ecg).IsLost;
        bool[] second = Delivered.Of(values, 40_000, 10, ChannelName.Infrared).IsLost;

        // Independent: both lost in a hundredth of the packets; standard error by effective number, ρ = 1 − q − p of both chains multiplied.
        double rho = Math.Pow(1 - 0.5 - (0.5 / 9), 2);
        double both = first.Zip(second).Count(p => p.First && p.Second) / 40_000.0;
        Assert.That(both, Is.EqualTo(0.01).Within(4 * Math.Sqrt(0.01 * 0.99 / 40_000 * (1 + rho) / (1 - rho))));
        Assert.That(Delivered.Of(values.Copy().Set(s_keys.PacketLossPercent, 0), 40_000, 10, ChannelName.Infrared).IsLost, Is.EqualTo(second));
    }

    // Exponential delays: the share above x is e^(−x / mean) (textbook).
    [Test]
    public void Delay_OfManyPackets_IsLateAndLostAsOftenAsAnExponentialDistributionSays()
    {
        const int Packets = 200_000;
        KeyValues values = new KeyValues().Set(s_keys.PacketDelayMs, 80).Set(s_keys.LateMs, 100).Set(s_keys.PatienceMs, 300);
        Delivered result = Delivered.Of(values, Packets, 10);
        double lost = Math.Exp(-300.0 / 80);
        double late = Math.Exp(-100.0 / 80) - lost;
        Assert.That(result.LostShare, Is.EqualTo(lost).Within(4 * Math.Sqrt(lost * (1 - lost) / Packets)), "lost");
        AcquisitionEvent[] told = [.. result.Told.Where(t => t.Kind == AcquisitionKind.LatePacket)];
        Assert.That(told.Length / (double)Packets, Is.EqualTo(late).Within(4 * Math.Sqrt(late * (1 - late) / Packets)), "late");
        Assert.That(told.Select(t => t.Value), Has.All.InRange(100, 300));
        Assert.That(told.Select(t => t.EndNs - t.BeginNs), Has.All.EqualTo(100_000_000));
        Assert.That(told.Select(t => t.BeginNs), Is.Ordered.Ascending);
        Assert.That(told.Where(t => result.Codes[t.BeginNs / 100_000_000] < 0), Is.Empty, "what is told as late has arrived");
    }

    // 16 bits of milliseconds wrap after 65.536 s (arithmetic): in packets of 100 ms number 655, 1310, 1966, 2621 ...
    [Test]
    public void StampWrap_OfSixteenBitsOfMilliseconds_LosesThePacketInWhichItFalls()
    {
        KeyValues values = new KeyValues().Set(s_keys.StampWrapS, 65.536);
        bool[] lost = Delivered.Of(values, 3000, 10).IsLost;
        Assert.That(Enumerable.Range(0, 3000).Where(k => lost[k]), Is.EqualTo(new[] { 655, 1310, 1966, 2621 }));
    }

    // A wrap on the border belongs to the packet that begins with it, and there is none at 0.
    [Test]
    public void StampWrap_OnTheBorderOfTwoPackets_LosesTheSecond()
    {
        bool[] lost = Delivered.Of(new KeyValues().Set(s_keys.StampWrapS, 60), 1900, 10).IsLost;
        Assert.That(Enumerable.Range(0, 1900).Where(k => lost[k]), Is.EqualTo(new[] { 600, 1200, 1800 }));
    }

    // Packets of 5 ms against 20 ms between two samples: most packets hold none.
    [Test]
    public void Loss_OfPacketsShorterThanASample_LosesTheSameShareOfSamples()
    {
        const int Samples = 100_000;
        Delivered result = Delivered.Of(Values(10, 1).Set(s_keys.PacketMs, 5).Set(s_keys.PacketDelayMs, 200), Samples, 50);

        // Burst 1: every fourth packet is far enough away from the one before to be as good as independent.
        double s = 1 - (0.9 * (1 - Math.Exp(-1000.0 / 200)));
        Assert.That(result.LostShare, Is.EqualTo(s).Within(4 * Math.Sqrt(s * (1 - s) / Samples)));
        Assert.That(result.Told.Where(t => t.EndNs <= t.BeginNs), Is.Empty);
    }

    private static KeyValues Values(double percent, double burst) =>
        new KeyValues().Set(s_keys.PacketLossPercent, percent).Set(s_keys.LossBurstPackets, burst);
}
