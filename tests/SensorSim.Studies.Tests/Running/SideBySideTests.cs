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
}
