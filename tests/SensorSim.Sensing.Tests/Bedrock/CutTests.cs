// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>Any cut of a stream gives the same samples, and so does a copy: a promise of this project, no published figure.</summary>
public sealed class CutTests
{
    // Two blocks of 65,536 ticks of 1/500 s, and something over.
    private const double Seconds = 270;

    private static readonly Recording s_whole = Recording.Of(Settings.Everything(), Seconds);

    // Rates without a common divisor: 3,200 × 3 × 13 ticks in a second, every channel on its own ticks.
    private static KeyValues OddRates() => Settings.Everything()
        .Set(EcgAmplifierKeys.RateHz, 256).Set(OpticsKeys.RateHz, 75).Set(AccelerometerKeys.RateHz, 52);

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(500)]
    [TestCase(4096)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSameCodesStatusAndTruth(long ticks)
    {
        Recording cut = Recording.Of(Settings.Everything(), Seconds, blockTicks: ticks);
        cut.AssertSameAs(s_whole, $"blocks of {ticks} ticks");
        Assert.That(cut.TruthText(Seconds), Is.EqualTo(s_whole.TruthText(Seconds)));
    }

    // An artefact of many thousands of times the light, where there is no light: e to its power is more than a number holds, and 0 times that is none.
    [TestCase(1)]
    [TestCase(17)]
    public void Read_NoLightUnderAnArtefactWithoutBound_GivesTheSameCodes(long ticks)
    {
        KeyValues dark = new KeyValues().Set(MovementKeys.Activity, "walking").Set(MovementKeys.AmplitudeG, 1.96e-5).Set(HandMovementKeys.VehicleGRms, 0.47)
            .Set(OpticsKeys.InfraredNa, 0).Set(OpticsKeys.MovementArtefactRatio, 20);
        Recording.Of(dark, 20, blockTicks: ticks).AssertSameAs(Recording.Of(dark, 20), $"blocks of {ticks} ticks");
    }

    [Test]
    public void Read_AnySequenceOfCuts_GivesTheSameCodes()
    {
        Recording whole = Recording.Of(OddRates(), 12);
        Gen.Long[1, 60000].Array[1, 9].Sample(
            cuts => Recording.OfRest(new SensorStream(OddRates(), 7, 12), cuts).AssertSameAs(whole, $"cuts {string.Join(' ', cuts)}"),
            iter: 60,
            threads: 1);
    }

    [Test]
    public void Copy_InTheMiddle_ReadsOnWithTheSameBits()
    {
        Recording whole = Recording.Of(OddRates(), 20);
        var stream = new SensorStream(OddRates(), 7, 20);
        Recording head = Recording.OfPart(stream, 5);
        foreach (double seconds in new[] { 0.31, 1.0, 4.777, 11.2, 19.99 })
        {
            head = head.Then(Recording.OfPart(stream, (long)(seconds * stream.Format.Clock.TicksPerSecond)));
            SensorStream copy = stream.Copy();
            Assert.That(copy.PositionTick, Is.EqualTo(stream.PositionTick));
            Recording both = head.Then(Recording.OfRest(copy, 4321, 17));
            both.AssertSameAs(whole, $"copied at {seconds} s");
            Assert.That(both.TruthText(20), Is.EqualTo(whole.TruthText(20)), "truth");
        }

        // The copies have read to the end; that must not have moved the original.
        head.Then(Recording.OfRest(stream, 999)).AssertSameAs(whole, "original after its copies were read");
    }

    [Test]
    public void Copy_WithUnreadTruth_HasItToo()
    {
        var stream = new SensorStream(Settings.Everything(), 7, 10);
        stream.Read(new Signals.Streams.SampleBlock(stream.Format, 2500), 2500);
        SensorStream copy = stream.Copy();
        Assert.That(copy.Truth.Count, Is.EqualTo(stream.Truth.Count).And.GreaterThan(50));
    }

    [Test]
    public void Read_FromALaterTime_IsGeneratingFromZeroAndDiscarding()
    {
        var stream = new SensorStream(Settings.Everything(), 7, Seconds);
        Recording discarded = Recording.OfPart(stream, 61_237);
        discarded.Then(Recording.OfRest(stream, 500)).AssertSameAs(s_whole, "the rest after 61,237 ticks");
    }

    [Test]
    public void Read_ShorterStream_IsTheBeginningOfALongerOne()
    {
        Recording shorter = Recording.Of(Settings.Everything(), 33.4);
        Recording.OfPart(new SensorStream(Settings.Everything(), 7, Seconds), 16_700).AssertSameAs(shorter, "first 33.4 s");
    }

    [Test]
    public void Read_TwoStreamsInTurns_DisturbNeitherOfThem()
    {
        var one = new SensorStream(Settings.Everything(), 7, 30);
        var other = new SensorStream(Settings.Everything(), 8, 30);
        Recording first = Recording.OfPart(one, 1000);
        Recording.OfPart(other, 3000);
        first = first.Then(Recording.OfPart(one, 8000));
        Recording.OfPart(other, 15000);
        first.Then(Recording.OfRest(one, 700)).AssertSameAs(Recording.Of(Settings.Everything(), 30), "read in turns with another");
    }
}
