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
    [TestCase("800 480 1120 800 800 800 800 500", 8, Description = "short and last, after another with its pause")]
    public void Usable_OfEight(string intervals, int expected)
    {
        Word8 recent = default;
        string[] words = intervals.Split(' ');
        for (int i = 0; i < words.Length; i++)
        {
            recent[i] = int.Parse(words[i], System.Globalization.CultureInfo.InvariantCulture);
        }

        Assert.That(Regularity.Usable(recent, words.Length, out _), Is.EqualTo(expected));
    }
}
