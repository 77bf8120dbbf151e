// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;
using SensorSim.Tests.Shared;

namespace SensorSim.Detectors.Tests.Bedrock;

/// <summary>The whole library is one value of fixed size: no cut shows, an assignment copies it, nothing is allocated.</summary>
[TestFixture]
public sealed class LibraryStateTests
{
    [Test]
    public void State_WholeLibrary_FitsInEightKibibytesWithoutAReference()
    {
        TestContext.Out.WriteLine($"Library: {Unsafe.SizeOf<Library>()} bytes");
        Assert.That(Unsafe.SizeOf<Library>(), Is.LessThanOrEqualTo(8192));
        Assert.That(RuntimeHelpers.IsReferenceOrContainsReferences<Library>(), Is.False);
    }

    [Test]
    public void Take_AnyCut_GivesTheSameAnswers([Values(1, 3, 17, 1000)] int ticks, [Values] bool isDamaged)
    {
        LibraryFeed feed = isDamaged ? LibraryFeed.Damaged(60, 5001) : LibraryFeed.Alive(60, 5001);
        List<Answer> whole = feed.RunAll(() => long.MaxValue / 2);
        Assert.That(whole.Select(a => a.Kind).Distinct().Count(), Is.GreaterThanOrEqualTo(6), "there must be something to compare");
        Assert.That(feed.RunAll(() => ticks), Is.EqualTo(whole));
    }

    [Test]
    public void Take_RandomCuts_GivesTheSameAnswers([Range(5001, 5006)] int seed)
    {
        LibraryFeed feed = LibraryFeed.Damaged(60, seed);
        var random = new Random(seed);
        Assert.That(feed.RunAll(() => random.Next(1, 80)), Is.EqualTo(feed.RunAll(() => long.MaxValue / 2)));
    }

    // The copy goes on as if nothing had happened, whatever the original lives through meanwhile.
    [Test]
    public void Assignment_InTheMiddle_GoesOnIdentically([Range(5001, 5008)] int seed)
    {
        LibraryFeed feed = LibraryFeed.Damaged(60, seed);
        LibraryFeed other = LibraryFeed.Damaged(60, seed + 100);
        List<Answer> whole = feed.RunAll(() => long.MaxValue / 2);
        Library original = feed.Started();
        var answers = new List<Answer>();
        feed.Run(ref original, new Random(seed).NextInt64(feed.EndTick / 4, feed.EndTick), () => 50, answers);
        int before = answers.Count;

        Library copy = original;
        other.Run(ref original, other.EndTick, () => 50, null);
        feed.Run(ref copy, feed.EndTick, () => 50, answers);
        feed.Flush(ref copy, answers);
        Assert.That(answers, Is.EqualTo(whole));
        Assert.That(before, Is.Positive);
    }

    [Test]
    public void Start_Again_ForgetsEverything()
    {
        LibraryFeed feed = LibraryFeed.Damaged(30, 5001);
        List<Answer> expected = feed.RunAll(() => 50);
        Library used = feed.Started();
        LibraryFeed.Damaged(30, 5050).Run(ref used, feed.EndTick, () => 50, null);
        used.Start(feed.Setup, LibraryOptions.Default);
        var answers = new List<Answer>();
        feed.Run(ref used, feed.EndTick, () => 50, answers);
        feed.Flush(ref used, answers);
        Assert.That(answers, Is.EqualTo(expected));
    }

    [Test]
    public void Take_AfterWarmUp_AllocatesNothing()
    {
        LibraryFeed feed = LibraryFeed.Damaged(60, 5001);
        Library library = feed.Started();
        Func<long> length = () => 50;
        feed.Run(ref library, feed.EndTick, length, null);
        Assert.That(
            Allocations.Least(() =>
            {
                Library again = default;
                again.Start(feed.Setup, LibraryOptions.Default);
                feed.Run(ref again, feed.EndTick, length, null);
            }),
            Is.Zero);
    }

    // What a tenth of a second ends with must not drift on a clock that ten does not divide.
    [Test]
    public void SliceEndTick_OddClock_IsTheFloorOfTheTenth()
    {
        var feed = new LibraryFeed(30, 125, 25, 25);
        feed.Setup.Clock = new CommonClock(127);
        Library library = default;
        library.Start(feed.Setup, LibraryOptions.Default);
        var list = new AnswerList(new Answer[AnswerList.Most]);
        FixedPoint.NoProbe probe = default;
        for (long tenth = 1; tenth < 300; tenth++)
        {
            Assert.That(library.SliceEndTick, Is.EqualTo(tenth * 127 / 10));
            library.Take(default, library.SliceEndTick, ref list, ref probe);
        }
    }
}
