// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Ambient;

/// <summary>A second colour that shares the analysis of the dark slot.</summary>
[TestFixture]
public sealed class LitSlotTests
{
    [TestCase(100, 100, 200)]
    [TestCase(100, 25, 64)]
    [TestCase(500, 100, 127)]
    public void Next_SharedDark_IsTheSameAsWithADarkOfItsOwn(int lightHz, int darkHz, int shift256)
    {
        var shared = new DarkSubtraction();
        shared.Start(lightHz, darkHz, 13, 700, 1000);
        var own = new DarkSubtraction();
        own.Start(lightHz, darkHz, shift256, 2000, 1000);
        var slot = new LitSlot();
        slot.Start(lightHz, darkHz, shift256, 2000);
        NoProbe probe = default;
        var random = new Random(5103);
        int smoothed = 0;
        for (int k = 0; k < 20_000; k++)
        {
            // Noise alone, then a room that moves; now and then a dark sample is lost.
            if (k % (lightHz / darkHz) == 0 && random.Next(50) != 0)
            {
                int dark = 20_000 + (int)((40 * SyntheticEcg.Normal(random)) + (k > 10_000 ? 3000 * Math.Sin(k * 0.05) : 0));
                shared.Dark(dark);
                own.Dark(dark);
                slot.Dark();
            }

            int code = random.Next(100_000, 110_000);
            Assert.That(slot.Next(code, shared, ref probe), Is.EqualTo(own.Next(code, ref probe)), $"sample {k}");
            smoothed += shared.IsSmoothing ? 1 : 0;
        }

        Assert.That(smoothed, Is.InRange(1, 19_999));
    }
}
