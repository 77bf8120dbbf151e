// SPDX-License-Identifier: MIT
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Running;

/// <summary>Parts on all cores: results, failures and interrupts do not depend on who is faster.</summary>
[TestFixture]
public sealed class SideBySideTests
{
    // The first is over only after the last has been made.
    [Test]
    public void Each_TheFirstEndsLast_KeepsTheirOrder()
    {
        using var isLastMade = new ManualResetEventSlim();
        IReadOnlyList<int> made = SideBySide.Each(Enumerable.Range(0, 50).ToArray(), i =>
        {
            if (i == 49)
            {
                isLastMade.Set();
            }
            else if (i == 0)
            {
                isLastMade.Wait();
            }

            return i * i;
        });
        Assert.That(made, Is.EqualTo(Enumerable.Range(0, 50).Select(i => i * i)));
        Assert.That(SideBySide.Each(Array.Empty<int>(), i => i), Is.Empty);
    }

    // As many levels and parts as threads would be needed for if each waited for a thread of its own.
    [Test]
    public void Do_PartsWithinParts_AllEnd()
    {
        int done = 0;
        SideBySide.Do(default, [.. Enumerable.Range(0, 20).Select(_ => (Action)(() => SideBySide.Do(default, [.. Enumerable.Range(0, 20).Select(_ => (Action)Count)])))]);
        Assert.That(done, Is.EqualTo(400));

        void Count() => Interlocked.Increment(ref done);
    }

    // The last in order fails long before the first: the first is told, as it was thrown, and only when every part is over.
    [Test]
    public void Do_TwoPartsFail_TellsTheFirstInOrderWhenAllAreOver()
    {
        bool isOver = false;
        using var hasFailed = new ManualResetEventSlim();
        using var haveBothFailed = new ManualResetEventSlim();
        IOException told = Assert.Throws<IOException>(() => SideBySide.Do(
            default,
            () =>
            {
                hasFailed.Wait();
                try
                {
                    throw new IOException("the disk is full");
                }
                finally
                {
                    haveBothFailed.Set();
                }
            },
            () =>
            {
                hasFailed.Set();
                throw new InvalidOperationException("something else");
            },
            () =>
            {
                haveBothFailed.Wait();
                isOver = true;
            }))!;
        Assert.That((told.Message, isOver), Is.EqualTo(("the disk is full", true)));
        Assert.That(told.StackTrace, Does.Contain(nameof(Do_TwoPartsFail_TellsTheFirstInOrderWhenAllAreOver)));
    }

    [Test]
    public void Do_Interrupted_BeginsNoFurtherPartAndSaysSo()
    {
        using var interrupt = new CancellationTokenSource();
        int begun = 0;
        Action[] parts =
        [
            .. Enumerable.Range(0, 1000).Select(_ => (Action)(() =>
            {
                Interlocked.Increment(ref begun);
                interrupt.Cancel();
            })),
        ];
        Assert.That(() => SideBySide.Do(interrupt.Token, parts), Throws.InstanceOf<OperationCanceledException>());
        Assert.That(begun, Is.InRange(1, 500));
    }

    // Parts of parts count too; without a limit, thirty-six parts with work of milliseconds meet on every machine with two cores.
    [TestCase(1)]
    [TestCase(2)]
    public void Within_PartsWithinParts_NeverMoreAtATime(int cores)
    {
        int running = 0;
        int most = 0;
        int sum = SideBySide.Within(cores, () => SideBySide.Each([1, 2, 3, 4, 5, 6], i => SideBySide.Each([1, 2, 3, 4, 5, 6], j => Part(i * j)).Sum()).Sum());
        Assert.That(sum, Is.EqualTo(21 * 21));
        Assert.That(most, Is.InRange(1, cores));

        int Part(int product)
        {
            int now = Interlocked.Increment(ref running);
            for (int seen = most; now > seen; seen = most)
            {
                Interlocked.CompareExchange(ref most, now, seen);
            }

            Thread.SpinWait(100_000);
            Interlocked.Decrement(ref running);
            return product;
        }
    }

    // Three that wait for each other: all three are begun.
    [Test]
    public void Within_Three_AreThreeAtATime()
    {
        using var meeting = new Barrier(3);
        bool[] met = [.. SideBySide.Within(3, () => SideBySide.Each([1, 2, 3], _ => meeting.SignalAndWait(TimeSpan.FromMinutes(1))))];
        Assert.That(met, Is.EqualTo(new[] { true, true, true }));
    }

    // Work that a part awaits goes on though the only worker waits for it.
    [Test]
    public void Within_OneWhoseWorkGoesOnByItself_Ends()
    {
        Assert.That(SideBySide.Within(1, () => SideBySide.Each([1], _ => Later().Wait(TimeSpan.FromMinutes(1)))), Is.EqualTo(new[] { true }));

        static async Task Later()
        {
            await Task.Yield();
            await Task.Run(() => Thread.SpinWait(1000));
        }
    }

    [Test]
    public void Within_WhatFails_IsToldAsItWasThrown() =>
        Assert.That(
            () => SideBySide.Within<int>(1, () => SideBySide.Each([1, 2], i => i == 1 ? throw new IOException("the disk is full") : i)[0]),
            Throws.InstanceOf<IOException>().With.Message.EqualTo("the disk is full"));
}
