// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Control;
using SensorSim.Scenarios;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;

namespace SensorSim.Studies.Tests.Bedrock;

/// <summary>No cut of a generated stream shows in the answers or the requests of the complete library.</summary>
[TestFixture]
public sealed class LibraryCutTests
{
    // Blocks of one tick make every sample a block of its own; a millisecond is less than a tick of these clocks, a minute is the whole.
    [TestCase("rest-finger", 30)]
    [TestCase("all-on", 60)] // two devices, losses, stalls, lost contacts
    [TestCase("walking-wrist", 40)]
    [TestCase("disturbances/settings-while-running", 45)]
    [TestCase("graded/packet-loss-5-percent", 60)]
    public void Process_AnyBlocks_GivesTheSameMarks(string name, int seconds)
    {
        Scenario scenario = LibraryRuns.Shipped(name, seconds, 5001);
        (_, List<Mark> whole, _) = LibraryRuns.Run(scenario, 65_536);
        Assert.That(whole, Has.Count.GreaterThan(100));
        foreach (long ticks in new long[] { 1, 17, 1000, long.MaxValue / 1_000_000_000_000 })
        {
            Assert.That(LibraryRuns.Run(scenario, ticks).Marks, Is.EqualTo(whole), $"blocks of {ticks} ticks");
        }
    }

    [Test]
    public void Process_AnyBlocks_AsksForTheSameSettings([ValueSource(nameof(Words))] string control)
    {
        Scenario scenario = LibraryRuns.Shipped("all-on", 60, 5002);
        (_, List<Mark> marks, List<SettingsRequest> requests) = LibraryRuns.Run(scenario, 65_536, control);
        foreach (long ticks in new long[] { 17, 1000 })
        {
            (_, List<Mark> cutMarks, List<SettingsRequest> cutRequests) = LibraryRuns.Run(scenario, ticks, control);
            Assert.That(cutMarks, Is.EqualTo(marks));
            Assert.That(cutRequests, Is.EqualTo(requests));
        }
    }

    private static IEnumerable<string> Words() => Controls.All;
}
