// SPDX-License-Identifier: MIT
using SensorSim.Links.Damage;
using SensorSim.Links.Tests.Support;

namespace SensorSim.Links.Tests.Damage;

/// <summary>The text of a damage plan, and one sentence for each mistake in it.</summary>
public sealed class DamagePlanTests
{
    [Test]
    public void Text_OfEverything_IsRead()
        => Assert.That(
            DamagePlan.Parse("drop=1, corrupt=0.5,duplicate=2,delay=3,delay_ms=40,reorder=4,stall=0.25,stall_ms=700,direction=to-board", 7),
            Is.EqualTo(new DamagePlan
            {
                DropPercent = 1,
                CorruptPercent = 0.5,
                DuplicatePercent = 2,
                DelayPercent = 3,
                DelayMs = 40,
                ReorderPercent = 4,
                StallPercent = 0.25,
                StallMs = 700,
                Direction = DamageDirection.ToBoard,
                Seed = 7,
            }));

    [TestCase("", "\"\" is no damage: write drop=1 for one per cent; there are drop, corrupt, duplicate, delay, reorder, stall (each a share in per cent), delay_ms, stall_ms, direction")]
    [TestCase("lose=1", "there is no damage \"lose\": there are drop, corrupt, duplicate, delay, reorder, stall (each a share in per cent), delay_ms, stall_ms, direction")]
    [TestCase("drop=1,drop=2", "damage drop is given twice: once is enough")]
    [TestCase("drop=101", "damage drop is a share in per cent, 0 to 100, not \"101\"")]
    [TestCase("drop=-1", "damage drop is a share in per cent, 0 to 100, not \"-1\"")]
    [TestCase("drop=1,5", "\"5\" is no damage: write drop=1 for one per cent; there are drop, corrupt, duplicate, delay, reorder, stall (each a share in per cent), delay_ms, stall_ms, direction")]
    [TestCase("stall=NaN", "damage stall is a share in per cent, 0 to 100, not \"NaN\"")]
    [TestCase("stall_ms=60001", "damage stall_ms is whole milliseconds, 0 to 60000, not \"60001\"")]
    [TestCase("direction=up", "damage direction is to-board, from-board or both, not \"up\"")]
    [TestCase("drop=60,corrupt=40.5", "all shares of damage together are 100.5 per cent: 100 at most, since a frame meets one fault")]
    public void Mistake_InText_IsSaidInOneSentence(string text, string sentence)
        => Assert.That(() => DamagePlan.Parse(text), Throws.InstanceOf<FormatException>().With.Message.EqualTo(sentence));

    [Test]
    public void Plan_OutOfRange_IsRefusedByTheLink()
    {
        Assert.That(() => new DamagedLink(new MemoryLine(), new DamagePlan { DropPercent = -1 }), Throws.ArgumentException);
        Assert.That(() => new DamagedLink(new MemoryLine(), new DamagePlan { DropPercent = double.NaN }), Throws.ArgumentException);
        Assert.That(() => new DamagedLink(new MemoryLine(), new DamagePlan { DelayMs = -1 }), Throws.ArgumentException);
    }
}
