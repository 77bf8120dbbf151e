// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>How long a detector remembers that something strange came between two beats.</summary>
[TestFixture]
public sealed class BeatDoubtTests
{
    private const int Beat256 = 200 * 256;

    // 24 for each one, one less for each quiet interval, high from 8 on: sixteen quiet intervals, and three fill it (64).
    [TestCase(1, 24, 16)]
    [TestCase(2, 48, 40)]
    [TestCase(3, 64, 56)]
    [TestCase(9, 64, 56)]
    public void Weigh_StrangeOnesLeftOut_AreDoubtedForSoManyQuietIntervals(int strange, int value, int quiet)
    {
        BeatDoubt doubt = default;
        long at = 0;
        doubt.Weigh(at, default, isLearning: false);
        for (int i = 0; i < strange; i++)
        {
            doubt.AddDropped();
            doubt.Weigh(at += Beat256, default, isLearning: false);
        }

        Assert.That(doubt.Value, Is.EqualTo(value));
        int stayed = 0;
        while (true)
        {
            doubt.Weigh(at += Beat256, default, isLearning: false);
            if (!doubt.IsHigh)
            {
                break;
            }

            stayed++;
        }

        Assert.That(stayed, Is.EqualTo(quiet));
    }
}
