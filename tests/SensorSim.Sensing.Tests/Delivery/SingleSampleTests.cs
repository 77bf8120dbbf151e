// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Delivery;

public sealed class SingleSampleTests
{
    private const int Samples = 2_000_000;
    private static readonly DataPathKeys s_keys = DataPathKeys.First;

    // One candidate in 64 samples, kept with chance 64 p: n p samples, variance n p (1 − 64 p) (binomial, textbook).
    [TestCase(200)]
    [TestCase(10_000)]
    public void Lost_PerMillion_IsTheKnob(double perMillion)
    {
        Delivered result = Delivered.Of(new KeyValues().Set(s_keys.LostSamplesPerMillion, perMillion), Samples, 250);
        double expected = Samples * perMillion * 1e-6;
        Assert.That(result.IsLost.Count(l => l), Is.EqualTo(expected).Within(4 * Math.Sqrt(expected * (1 - (64e-6 * perMillion)))));
    }

    [Test]
    public void Repeated_PerMillion_IsTheKnobAndTheCodeBefore()
    {
        const double PerMillion = 3000;
        Delivered result = Delivered.Of(new KeyValues().Set(s_keys.RepeatedSamplesPerMillion, PerMillion), Samples, 250);
        int[] repeated = [.. Enumerable.Range(0, Samples).Where(i => result.Codes[i] != i)];
        double expected = Samples * PerMillion * 1e-6;
        Assert.That(repeated.Length, Is.EqualTo(expected).Within(4 * Math.Sqrt(expected * (1 - (64e-6 * PerMillion)))));
        Assert.That(repeated.Where(i => result.Codes[i] != result.Codes[i - 1]), Is.Empty);
        Assert.That(result.Told, Is.Empty, "the receiver does not notice");
    }

    // Places are even over the 64 of a stretch: Pearson's chi-square, 63 degrees of freedom, one in a hundred thousand is 122.73 (scipy 1.10.1, chi2.ppf(0.99999, 63)).
    [Test]
    public void Lost_Places_AreEven()
    {
        bool[] lost = Delivered.Of(new KeyValues().Set(s_keys.LostSamplesPerMillion, 10_000), Samples, 250).IsLost;
        double[] counts = new double[64];
        for (int i = 0; i < Samples; i++)
        {
            counts[i % 64] += lost[i] ? 1 : 0;
        }

        double expected = counts.Sum() / 64;
        Assert.That(counts.Sum(c => (c - expected) * (c - expected) / expected), Is.LessThan(122.73));
    }

    [Test]
    public void Lost_OfOneChannel_AreNotThoseOfAnother()
    {
        KeyValues values = new KeyValues().Set(s_keys.LostSamplesPerMillion, 10_000);
        bool[] red = Delivered.Of(values, Samples, 100, ChannelName.Red).IsLost;
        bool[] infrared = Delivered.Of(values, Samples, 100, ChannelName.Infrared).IsLost;

        // Independent: 1e-4 of the samples (product of the shares).
        Assert.That(red.Zip(infrared).Count(p => p.First && p.Second), Is.EqualTo(200).Within(4 * Math.Sqrt(200)));
    }

    [Test]
    public void PerMillion_Higher_AddsSamplesAndMovesNone()
    {
        bool[] few = Delivered.Of(new KeyValues().Set(s_keys.LostSamplesPerMillion, 500), Samples, 250).IsLost;
        bool[] many = Delivered.Of(new KeyValues().Set(s_keys.LostSamplesPerMillion, 5000), Samples, 250).IsLost;
        Assert.That(few.Zip(many).Count(p => p.First && !p.Second), Is.Zero);
    }
}
