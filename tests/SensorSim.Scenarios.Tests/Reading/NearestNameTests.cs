// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Fewest edits, counted by hand; the distance is the optimal string alignment of the textbooks.</summary>
[TestFixture]
public sealed class NearestNameTests
{
    [TestCase("haert", "heart,hart_x", "heart")] // one swap against three edits
    [TestCase("rat", "rate,cart", "rate")] // one insertion against two edits
    [TestCase("abc", "xyz,abd", "abd")] // one replacement against three
    [TestCase("ba", "ab,b", "ab")] // a swap and a deletion cost the same: the first wins
    [TestCase("ba", "b,ab", "b")]
    [TestCase("", "long,a", "a")]
    [TestCase("x", "", "")]
    [TestCase("rate", "beat,rate_of_all", "rate_of_all")] // the beginning of a name wins over two edits
    [TestCase("ra", "rate_of_all,rate", "rate")] // of several, the one with fewer to add
    [TestCase("rate_of", "of_rate,rate", "rate")] // the other way round, edits decide
    public void Find_Names_GivesTheOneWithFewestEdits(string text, string names, string expected) =>
        Assert.That(NearestName.Find(text, names.Split(',')), Is.EqualTo(expected));

    [Test]
    public void Find_NoNames_IsRefused() => Assert.That(() => NearestName.Find("a", []), Throws.ArgumentException);
}
