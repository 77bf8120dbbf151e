// SPDX-License-Identifier: MIT
using SensorSim.Studies.Plans;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

[TestFixture]
public sealed class ShardTests
{
    [Test]
    public void Has_EveryRun_BelongsToExactlyOneShard([Values(1, 2, 3, 7)] int count, [Values(1, 2, 6, 7, 20)] int runs)
    {
        Shard[] shards = [.. Enumerable.Range(1, count).Select(n => new Shard(n, count))];
        for (long run = 0; run < runs; run++)
        {
            Assert.That(shards.Count(s => s.Has(run)), Is.EqualTo(1));
        }

        Assert.That(shards.Select(s => s.RunCount(runs)), Is.EqualTo(shards.Select(s => (long)Enumerable.Range(0, runs).Count(r => s.Has(r)))));
    }

    [TestCase("1/1", true)]
    [TestCase("2/3", true)]
    [TestCase("10000/10000", true)]
    [TestCase("0/3", false)]
    [TestCase("4/3", false)]
    [TestCase("1/10001", false)]
    [TestCase("2", false)]
    [TestCase("1/2/3", false)]
    [TestCase("-1/3", false)]
    [TestCase("1 /3", false)]
    [TestCase("1,5/3", false)]
    [TestCase("", false)]
    public void TryParse_OfText_TakesPartsOnly(string text, bool expected)
    {
        Assert.That(Shard.TryParse(text, out Shard shard), Is.EqualTo(expected));
        if (expected)
        {
            Assert.That(shard.ToString(), Is.EqualTo(text));
        }
    }

    [Test]
    public void NextBatch_OfAShard_AsksForItsRunsOnce()
    {
        StudyPlan plan = SmallStudy.Plan(seeds: 4);
        var planner = new FullPlanner(plan, new Shard(2, 3));
        Assert.That(planner.NextBatch([]), Is.EqualTo(new long[] { 1, 4, 7 }));
        var rows = SweepRunner.Run(plan, planner, SmallStudy.Factories(plan), new MemoryLog(), 2);
        Assert.That(rows.Select(r => r.Run), Is.EqualTo(new long[] { 1, 4, 7 }));
        Assert.That(planner.NextBatch(rows), Is.Empty);
    }
}
