// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

public sealed class SeedTests
{
    [Test]
    public void Read_SameSeedTwice_GivesTheSameBytes()
    {
        Recording one = Recording.Of(Settings.Everything(), 30, seed: 99);
        Recording two = Recording.Of(Settings.Everything(), 30, seed: 99);
        one.AssertSameAs(two, "second run");
        Assert.That(one.TruthText(30), Is.EqualTo(two.TruthText(30)));
    }

    [Test]
    public void Read_OtherSeed_GivesOtherBytesOnEveryChannel()
    {
        Recording one = Recording.Of(Settings.Everything(), 30, seed: 99);
        Recording two = Recording.Of(Settings.Everything(), 30, seed: 100);
        foreach (ChannelFormat channel in one.Format.Channels)
        {
            int[] a = one.Codes(channel.Name);
            int[] b = two.Codes(channel.Name);

            // Independent noise of several codes: equal codes at the same place are the exception.
            Assert.That(a.Zip(b).Count(p => p.First == p.Second), Is.LessThan(a.Length / 4), channel.Name.Text());
        }

        Assert.That(one.TruthText(30), Is.Not.EqualTo(two.TruthText(30)));
    }

    // Noise of different channels must come from different draws: no pair of channels may be correlated.
    [Test]
    public void Read_NoiseOfDifferentChannels_IsUncorrelated()
    {
        double[][] noises = [.. NoiseOnly.Channels(rateHz: 100, seconds: 600)];
        for (int i = 0; i < noises.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                // Correlation of independent series: standard error 1/√n (textbook).
                double r = MathNet.Numerics.Statistics.Correlation.Pearson(noises[i], noises[j]);
                Assert.That(r, Is.EqualTo(0).Within(4 / Math.Sqrt(noises[i].Length)), $"channels {i} and {j}");
            }
        }
    }
}
