// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Ambient;

/// <summary>Dark and lit samples that go through as a run give what they give one by one, however the runs are cut.</summary>
[TestFixture]
public sealed class DarkRunTests
{
    private const int Rate = 100;
    private const int Place = 70;
    private const int OtherPlace = 201;

    [TestCase(1, 40, 0)]
    [TestCase(-1, 40, 0)]
    [TestCase(1, 3, 1_000_000)]
    [TestCase(1, 4_000_000, 0)]
    public void Take_RunsOfAnyLength_IsTheSameAsOneByOne(int polarity, int noise, int step)
    {
        var random = new Random(5107);
        DarkSubtraction alone = Started();
        DarkSubtraction together = Started();
        LitSlot otherAlone = OtherSlot();
        LitSlot otherTogether = OtherSlot();
        NoProbe probe = default;
        int smoothed = 0;
        int jumps = 0;
        for (int k = 0; k < 20_000;)
        {
            int count = random.Next(1, 40);
            bool hasOther = random.Next(4) != 0;
            var darks = new int[count];
            var lights = new int[count];
            var others = new int[hasOther ? count : 0];
            var expected = new int[count];
            var otherExpected = new int[others.Length];
            for (int i = 0; i < count; i++, k++)
            {
                bool isStep = k % 700 < 3;
                jumps += isStep ? 1 : 0;
                int room = (int)(20_000 + (noise * SyntheticEcg.Normal(random)) + (k > 10_000 ? 3000 * Math.Sin(k * 0.05) : 0) + (isStep ? step : 0));
                darks[i] = polarity * Math.Clamp(room, 0, 16_777_215);
                lights[i] = random.Next(0, 16_777_216);
                expected[i] = lights[i];
                alone.Dark(darks[i] * polarity);
                otherAlone.Dark();
                expected[i] = alone.Next(lights[i], ref probe);
                if (hasOther)
                {
                    others[i] = random.Next(0, 16_777_216);
                    otherExpected[i] = otherAlone.Next(others[i], alone, ref probe);
                }

                smoothed += alone.IsSmoothing ? 1 : 0;
            }

            together.Take(darks, polarity, lights, ref otherTogether, others, ref probe);
            Assert.That(lights, Is.EqualTo(expected), $"sample {k}");
            Assert.That(others, Is.EqualTo(otherExpected), $"sample {k}");
            Assert.That(together, Is.EqualTo(alone), "the whole state");
            Assert.That(otherTogether, Is.EqualTo(otherAlone));
        }

        Assert.That(smoothed, Is.InRange(100, 19_900), "both ways");
        Assert.That(jumps, Is.GreaterThan(50));
    }

    private static DarkSubtraction Started()
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(Rate, Rate, Place, 700, 1000), Is.True);
        return stage;
    }

    private static LitSlot OtherSlot()
    {
        var slot = new LitSlot();
        slot.Start(Rate, Rate, OtherPlace, 2000);
        return slot;
    }
}
