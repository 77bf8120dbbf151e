// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class OxygenTableTests
{
    // 110 − 25 R: Webster (ed.), Design of Pulse Oximeters, 1997 (from memory).
    [TestCase(4000, 100_000)]
    [TestCase(5200, 97_000)]
    [TestCase(6000, 95_000)]
    [TestCase(10_000, 85_000)]
    [TestCase(16_000, 70_000)]
    [TestCase(24_000, 50_000)]
    [TestCase(5001, 97_497)] // 97,497.5: the fall is rounded up
    [TestCase(3000, 100_000)]
    [TestCase(60_000, 0)]
    public void MilliPercent_Textbook_IsTheLine(int ratio, int milliPercent) =>
        Assert.That(OxygenTable.Textbook.MilliPercent(ratio), Is.EqualTo(milliPercent));

    // By extinction at 660 and 940 nm (compilation by Prahl: 319.6 and 3226.56, 1214 and 693.44 per cm and M), S = (3226.56 − 693.44 R) / (2906.96 + 520.56 R).
    [TestCase(4000, 94.67)]
    [TestCase(5000, 90.93)]
    [TestCase(7000, 83.79)]
    [TestCase(10_000, 73.91)]
    public void MilliPercent_TableOfTheExtinctionLaw_IsNearTheCurve(int ratio, double percent)
    {
        OxygenTable table = default;
        for (int saturation = 100; saturation >= 50; saturation -= 5)
        {
            double s = saturation / 100.0;
            double r = ((s * 319.6) + ((1 - s) * 3226.56)) / ((s * 1214) + ((1 - s) * 693.44));
            Assert.That(table.Add((int)Math.Round(r * 10_000), saturation * 1000), Is.True);
        }

        // Straight lines over 5 points of saturation cut the curve by less than 0.03.
        Assert.That(table.MilliPercent(ratio) / 1000.0, Is.EqualTo(percent).Within(0.04));
    }

    [TestCase(4000, 90_000)] // ratio does not rise
    [TestCase(5000, 95_000)] // saturation does not fall
    [TestCase(65_536, 50_000)]
    [TestCase(5000, -1)]
    public void Add_PairThatDoesNotFit_IsRefusedAndChangesNothing(int ratio, int milliPercent)
    {
        OxygenTable table = default;
        table.Add(4000, 95_000);
        Assert.That(table.Add(ratio, milliPercent), Is.False);
        Assert.That(table.Count, Is.EqualTo(1));
    }

    [Test]
    public void Add_SeventeenthPair_IsRefused()
    {
        OxygenTable table = default;
        for (int i = 0; i < 16; i++)
        {
            Assert.That(table.Add(4000 + i, 100_000 - (1000 * i)), Is.True);
        }

        Assert.That(table.Add(9000, 10_000), Is.False);
        Assert.That(table.MilliPercent(4015), Is.EqualTo(85_000));
    }
}
