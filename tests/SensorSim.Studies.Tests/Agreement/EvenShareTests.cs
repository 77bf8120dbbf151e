// SPDX-License-Identifier: MIT
using SensorSim.Studies.Agreement;

namespace SensorSim.Studies.Tests.Agreement;

/// <summary>Runs that are made again for agreement: nobody is left out because the numbers happen to divide each other.</summary>
[TestFixture]
public sealed class EvenShareTests
{
    [TestCase(5, 8, 3, 60)]
    [TestCase(5, 10, 20, 60)]
    [TestCase(9, 1, 30, 60)]
    [TestCase(7, 12, 1, 60)]
    [TestCase(1, 200, 1, 60)]
    public void Of_PointsSeedsAndPersons_GivesEachItsShare(int points, int seeds, int persons, int most)
    {
        int[] chosen = EvenShare.Of(points * seeds * persons, most);
        Assert.That(chosen, Has.Length.EqualTo(most));
        Assert.That(chosen, Is.Unique.And.Ordered);
        AssertEven(chosen.Select(i => i % persons), persons, most, 1);
        AssertEven(chosen.Select(i => i / persons % seeds), seeds, most, 2);
        AssertEven(chosen.Select(i => i / persons / seeds), points, most, 2);
    }

    [Test]
    public void Of_NoMoreThanWanted_GivesAll() => Assert.That(EvenShare.Of(4, 60), Is.EqualTo(new[] { 0, 1, 2, 3 }));

    private static void AssertEven(IEnumerable<int> places, int count, int most, int within)
    {
        int[] times = new int[count];
        foreach (int place in places)
        {
            times[place]++;
        }

        Assert.That(times, Has.All.EqualTo((double)most / count).Within(within));
    }
}
