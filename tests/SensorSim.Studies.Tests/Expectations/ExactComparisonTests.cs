// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Expectations;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.Expectations;

/// <summary>What the exact comparison says when one thing of one mark is changed on the way.</summary>
[TestFixture]
public sealed class ExactComparisonTests
{
    private const int Tampered = 60;

    // Every field of a mark, each changed in the smallest step.
    private static readonly TestCaseData[] s_fields =
    [
        new TestCaseData((Mark m) => m with { Sample = m.Sample + 1 }, "sample"),
        new TestCaseData((Mark m) => m with { Fraction256 = (byte)(m.Fraction256 ^ 1) }, "fraction_256"),
        new TestCaseData((Mark m) => m with { HasValue = true, ValueMilli = m.ValueMilli + 1 }, "value_milli"),
        new TestCaseData((Mark m) => m with { Quality = (byte)(m.Quality ^ 1) }, "quality"),
        new TestCaseData((Mark m) => m with { EmittedTick = m.EmittedTick + 1 }, "emitted_tick"),
        new TestCaseData((Mark m) => m with { PairedChannel = m.PairedChannel == Mark.None ? 0 : Mark.None }, "paired_channel"),
        new TestCaseData((Mark m) => m with { WindowSamples = m.WindowSamples + 1 }, "window_samples"),
    ];

    [Test]
    public void Run_SameLibrary_IsExact()
    {
        using ExactComparison comparison = Run(new LibraryDetector(), out RunOutcome outcome);

        Assert.That(outcome.MarkCount, Is.GreaterThan(200));
        Assert.That(Counts(comparison), Is.EqualTo((outcome.MarkCount, 0L, 0L, 0L)));
        Assert.That(comparison.IsExact, Is.True);
        Assert.That(comparison.First, Is.Null);
        Assert.That(comparison.Scene, Is.Null);
    }

    [TestCaseSource(nameof(s_fields))]
    public void Run_OneFieldOfOneMarkChanged_NamesIt(Func<Mark, Mark> change, string field)
    {
        Mark? before = null;
        using ExactComparison comparison = Run(new TamperingDetector((mark, number) => number == Tampered ? change((before = mark).Value) : mark), out RunOutcome outcome);

        Assert.That(Counts(comparison), Is.EqualTo((outcome.MarkCount - 1, 1L, 0L, 0L)));
        Assert.That(comparison.IsExact, Is.False);
        Assert.That(comparison.First!.Expected, Is.EqualTo(before));
        Assert.That(comparison.First.Given, Is.EqualTo(change(before!.Value)));
        Assert.That(comparison.First.Fields.Select(f => f.Field), Does.Contain(field));
    }

    [Test]
    public void Run_MarkLeftOut_IsOnlyTheLibrarysAndTheRestStaysEqual()
    {
        using ExactComparison comparison = Run(new TamperingDetector((mark, number) => number == Tampered ? null : mark), out RunOutcome outcome);

        Assert.That(Counts(comparison), Is.EqualTo((outcome.MarkCount, 0L, 1L, 0L)));
        Assert.That(comparison.First!.Given, Is.Null);
    }

    [Test]
    public void Run_MarkOfAnotherKindInPlace_IsOneOnEitherSide()
    {
        using ExactComparison comparison = Run(
            new TamperingDetector((mark, number) => number == Tampered ? mark with { Kind = MarkKind.PacingSpike } : mark), out RunOutcome outcome);

        Assert.That(Counts(comparison), Is.EqualTo((outcome.MarkCount - 1, 0L, 1L, 1L)));
    }

    [Test]
    public void Run_MarkGivenABlockLater_DiffersInItsEmissionOnly()
    {
        using ExactComparison comparison = Run(new TamperingDetector((mark, _) => mark, heldBackNumber: Tampered), out RunOutcome outcome);

        Assert.That(Counts(comparison), Is.EqualTo((outcome.MarkCount - 1, 1L, 0L, 0L)));
        Assert.That(comparison.First!.Fields.Select(f => f.Field), Is.EqualTo(new[] { "emitted_tick" }));
    }

    [Test]
    public void Run_SeveralDifferences_FirstIsTheOneDecidedFirst()
    {
        Mark? first = null;
        using ExactComparison comparison = Run(
            new TamperingDetector((mark, number) => number switch
            {
                // Known only 12 s later, when the second one is known already.
                Tampered => Note(mark, ref first),
                Tampered + 30 => mark with { Quality = (byte)(mark.Quality ^ 1) },
                _ => mark,
            }),
            out _);

        Assert.That((comparison.DifferentCount, comparison.OnlyExpectedCount), Is.EqualTo((1L, 1L)));
        Assert.That(comparison.First!.Expected, Is.EqualTo(first));
        Assert.That(comparison.Scene!.Difference, Is.SameAs(comparison.First));
    }

    [Test]
    public void Scene_OfADifference_HoldsTheSamplesAroundItAndBothMarks()
    {
        Scenario scenario = Runs.Read(40);
        var samples = new FirstSeconds(scenario.CreateStream().Format, 0, 40);
        int beats = 0;
        using ExactComparison comparison = Run(
            new TamperingDetector((mark, _) => mark.Kind == MarkKind.RPeak && beats++ == 20 ? mark with { Sample = mark.Sample + 3 } : mark), out _, samples);

        DifferenceScene scene = comparison.Scene!;
        int ecg = scene.Format.IndexOf(ChannelName.Ecg);
        double at = scene.Difference.TimeS(scene.Format);
        Assert.That(scene.Channels, Is.EqualTo(new[] { ecg }));
        Assert.That((scene.BeginS, scene.EndS), Is.EqualTo((at - 4, at + 2)));
        int first = (int)scene.FirstSamples[0];
        Assert.That(scene.Values[0], Is.EqualTo(samples.Values(ecg).Skip(first).Take(scene.Values[0].Length)));
        Assert.That(scene.Values[0], Has.Length.EqualTo(6 * scene.Format.Channels[ecg].RateHz).Within(1));
        Assert.That(scene.Expected, Does.Contain(scene.Difference.Expected!.Value));
        Assert.That(scene.Given, Does.Contain(scene.Difference.Given!.Value));
    }

    [Test]
    public void Sentence_OfAChangedSample_GivesChannelTimeAndBothValues()
    {
        var format = new StreamFormat([new ChannelFormat { Name = ChannelName.Ecg, Device = "d", RateHz = 250, Bits = 16, IsSigned = true, UnitPerCode = 1 }]);
        var expected = new Mark { Kind = MarkKind.RPeak, Sample = 500, EmittedTick = 550 };

        Assert.That(new MarkDifference(expected, expected with { Sample = 501, Quality = 7 }).Sentence(format), Is.EqualTo(
            "r_peak in ecg at 2.000 s (sample 500, decided at 2.200 s): sample is 501, the library's 500, quality is 7, the library's 0"));
        Assert.That(new MarkDifference(expected, null).Sentence(format), Does.EndWith(": the library gave it, the detector did not"));
        Assert.That(new MarkDifference(null, expected).Sentence(format), Does.EndWith(": the detector gave it, the library did not"));
    }

    [Test]
    public void OnMark_MoreThanThereIsRoomFor_CountsEachOnce()
    {
        StreamFormat format = Runs.Read(2).CreateStream().Format;
        using var comparison = new ExactComparison(format, new LibraryDetector());
        const int Many = 5000;
        for (int i = 0; i < Many; i++)
        {
            comparison.OnMark(new Mark { Kind = MarkKind.PacingSpike, Sample = i });
        }

        comparison.Complete();

        Assert.That(Counts(comparison), Is.EqualTo((0L, 0L, 0L, (long)Many)));
    }

    private static Mark? Note(Mark mark, ref Mark? noted)
    {
        noted = mark;
        return null;
    }

    private static (long Equal, long Different, long OnlyExpected, long OnlyGiven) Counts(ExactComparison comparison) =>
        (comparison.EqualCount, comparison.DifferentCount, comparison.OnlyExpectedCount, comparison.OnlyGivenCount);

    private static ExactComparison Run(IDetector detector, out RunOutcome outcome, params IRunSink[] more)
    {
        SensorStream stream = Runs.Read(40).CreateStream();
        var comparison = new ExactComparison(stream.Format, new LibraryDetector());
        outcome = new Runner(stream, stream.Truth, detector, Runs.Scorer(stream), [comparison, .. more]).Run();
        comparison.Complete();
        return comparison;
    }
}
