// SPDX-License-Identifier: MIT
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests;

[TestFixture]
public sealed class RegularityTests
{
    // Oldest first; how many of the newest may be used.
    [TestCase("800 810 790 800 805 795 800 800", 8, Description = "regular")]
    [TestCase("800 800 1600 800 800 800 800 800", 5, Description = "one missed")]
    [TestCase("800 950 1600 800 680 800 800 800", 5, Description = "one missed while R peaks scatter")]
    [TestCase("800 300 500 800 800 800 800 800", 5, Description = "one too many")]
    [TestCase("800 300 500 800 950 800 660 800", 5, Description = "one too many while R peaks scatter")]
    [TestCase("800 800 1600 800 800 1600 800 800", 8, Description = "every third blocked: it recurs")]
    [TestCase("800 480 1120 800 800 800 800 800", 8, Description = "ectopic with its pause")]
    [TestCase("800 800 800 800 800 800 800 500", 0, Description = "short and last: the next one tells")]
    [TestCase("800 800 800 800 800 800 800 1150", 0, Description = "long and last: a beat may lie off its place in it, the next one tells")]
    [TestCase("800 800 800 800 800 800 480 1120", 8, Description = "long and last, the pause of an early one")]
    [TestCase("800 480 1120 800 800 800 800 500", 8, Description = "short and last, after another with its pause")]
    [TestCase("466 237 419 281 463 466 466 466", 4, Description = "two false beats with a true one between that lies off its place")]
    [TestCase("650 380 584 335 642 666 690 690", 4, Description = "ectopic, then a false beat in its pause")]
    [TestCase("452 451 282 1073 451 452 453 454", 4, Description = "a false beat and two missed ones")]
    [TestCase("532 558 537 511 526 530 923 553", 1, Description = "one missed while the rate rises")]
    [TestCase("584 335 642 666 690 690 665 638", 6, Description = "the window begins with a false beat: the rest of it is left out")]
    [TestCase("800 800 800 400 400 400 400 400", 8, Description = "a new rate")]
    [TestCase("480 1120 800 560 880 800 800 800", 8, Description = "ectopic with its pause, then early: each by itself")]
    [TestCase("407 405 407 689 446 404 408 407", 4, Description = "one missed before an early one")]
    [TestCase("800 800 800 620 900 800 800 800", 8, Description = "early, without its whole pause")]
    [TestCase("800 620 900 800 800 800 800 800", 6, Description = "the same at the begin of the window, where it may be the rest of a mistake")]
    public void Usable_OfEight(string intervals, int expected)
    {
        Assert.That(Regularity.Usable(Parse(intervals), 8, 0, out _, out _), Is.EqualTo(expected));
    }

    // Two early beats and a false one leave no four that are alike; what was usual before shows that one is too many.
    [TestCase(0, 8)]
    [TestCase(913, 2)]
    public void Usable_MostOdd_IsToldByWhatWasUsual(int known, int expected)
    {
        Assert.That(Regularity.Usable(Parse("884 635 1000 520 666 593 918 938"), 8, known, out _, out _), Is.EqualTo(expected));
    }

    private static Word8 Parse(string intervals)
    {
        Word8 recent = default;
        string[] words = intervals.Split(' ');
        for (int i = 0; i < words.Length; i++)
        {
            recent[i] = int.Parse(words[i], System.Globalization.CultureInfo.InvariantCulture);
        }

        return recent;
    }
}
