// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Signals.Marks;

namespace SensorSim.Signals.Tests.Marks;

public sealed class EventRingTests
{
    [Test]
    public void Add_WhenFull_CountsTheOverflowAndKeepsTheOldOnes()
    {
        var ring = new EventRing<int>(3);
        Assert.That(Enumerable.Range(1, 5).Select(i => ring.Add(i)), Is.EqualTo(new[] { true, true, true, false, false }));
        Assert.That((ring.Count, ring.Capacity, ring.OverflowCount), Is.EqualTo((3, 3, 2L)));
        Assert.That(new[] { ring[0], ring[1], ring[2] }, Is.EqualTo(new[] { 1, 2, 3 }));
    }

    [Test]
    public void AddAndTake_AnySequence_BehavesAsAQueue() =>
        Gen.Select(Gen.Int[1, 5], Gen.Bool.Array[0, 60]).Sample((capacity, adds) =>
        {
            var ring = new EventRing<int>(capacity);
            var queue = new Queue<int>();
            int lost = 0;
            for (int i = 0; i < adds.Length; i++)
            {
                if (adds[i])
                {
                    bool fits = queue.Count < capacity;
                    lost += fits ? 0 : 1;
                    if (fits)
                    {
                        queue.Enqueue(i);
                    }

                    Assert.That(ring.Add(i), Is.EqualTo(fits));
                }
                else
                {
                    bool isThere = queue.TryDequeue(out int expected);
                    Assert.That(ring.TryTake(out int taken), Is.EqualTo(isThere));
                    Assert.That(taken, Is.EqualTo(expected));
                }

                Assert.That(Enumerable.Range(0, ring.Count).Select(age => ring[age]), Is.EqualTo(queue));
            }

            Assert.That(ring.OverflowCount, Is.EqualTo(lost));
        }, iter: 500, threads: 1);

    [Test]
    public void Indexer_ByReference_ChangesTheEntry()
    {
        var ring = new EventRing<int>(2);
        ring.Add(1);
        ring[0] = 7;
        ring.TryTake(out int item);
        Assert.That(item, Is.EqualTo(7));
    }

    [TestCase(-1)]
    [TestCase(1)]
    public void Indexer_OutsideTheEntries_IsRefused(int age)
    {
        var ring = new EventRing<int>(4);
        ring.Add(1);
        Assert.That(() => ring[age], Throws.TypeOf<ArgumentOutOfRangeException>());
    }

    [Test]
    public void Clear_AfterOverflow_KeepsTheOverflowCount()
    {
        var ring = new EventRing<int>(1);
        ring.Add(1);
        ring.Add(2);
        ring.Clear();
        Assert.That((ring.Count, ring.OverflowCount), Is.EqualTo((0, 1L)));
        Assert.That(ring.TryTake(out _), Is.False);
    }

    [Test]
    public void Add_FarMoreThanAtFirst_GrowsWithoutLosingTheOrder()
    {
        // Taken out now and then, so that the ring is wrapped when it grows.
        var ring = new EventRing<int>(1000);
        int given = 0;
        int taken = 0;
        while (ring.Count < 1000)
        {
            for (int i = 0; i < 7; i++)
            {
                ring.Add(given++);
            }

            for (int i = 0; i < 2; i++)
            {
                ring.TryTake(out int item);
                Assert.That(item, Is.EqualTo(taken++));
            }

            if (ring.Count > 990)
            {
                break;
            }
        }

        EventRing<int> copy = ring.Copy();
        while (ring.Add(given++))
        {
        }

        Assert.That((ring.Count, ring.OverflowCount, copy.Count), Is.EqualTo((1000, 1L, 1000 - (ring[999] + 1 - copy[copy.Count - 1] - 1))));
        while (ring.TryTake(out int item))
        {
            Assert.That(item, Is.EqualTo(taken++));
        }
    }

    [Test]
    public void Constructor_NoRoom_IsRefused() => Assert.That(() => new EventRing<int>(0), Throws.TypeOf<ArgumentOutOfRangeException>());
}
