// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Sensing.Conversion;
using SensorSim.Sensing.Delivery;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Tests.Delivery;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Conversion;

/// <summary>Converters, axes and data path with everything wrong at once: still the same for every cut, and no byte allocated.</summary>
public sealed class ErrorCutTests
{
    private const double Seconds = 270;

    private static readonly Recording s_whole = Recording.Of(Everything(), Seconds);

    /// <summary>Every error of converters, axes and data path, on top of every disturbance.</summary>
    internal static KeyValues Everything()
    {
        KeyValues values = GapTests.EveryLoss(Settings.Everything()).Set(DataPathKeys.First.RepeatedSamplesPerMillion, 5000);
        foreach (ConversionKeys keys in new[] { ConversionKeys.Ecg, ConversionKeys.Optics, ConversionKeys.Accelerometer })
        {
            values.Set(keys.OffsetCodes, 7).Set(keys.GainErrorPercent, 1.5).Set(keys.NonlinearityCodes, 4).Set(keys.Dither, "triangular")
                .Set(keys.JitterUsRms, 200).Set(keys.StuckCodesPerH, 400).Set(keys.StuckCodesS, 1.3).Set(keys.BitFlipsPerMillion, 3000);
        }

        for (int axis = 0; axis < 3; axis++)
        {
            values.Set(AxisErrorKeys.OffsetMg[axis], 40 - (30 * axis)).Set(AxisErrorKeys.GainErrorPercent[axis], 2 - axis)
                .Set(AxisErrorKeys.TurnedDeg[axis], 10 + (20 * axis));
        }

        return values.Set(AccelerometerKeys.BandwidthHz, 12);
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(500)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSameSamplesAndTellTheSame(long ticks)
    {
        Recording cut = Recording.Of(Everything(), Seconds, blockTicks: ticks);
        Assert.That(cut.HasOverflow || s_whole.HasOverflow, Is.False);
        cut.AssertSameAs(s_whole, $"blocks of {ticks} ticks");
    }

    [Test]
    public void Read_AnySequenceOfCuts_GivesTheSameSamples()
    {
        Recording whole = Recording.Of(Everything(), 30);
        Gen.Long[1, 6000].Array[1, 9].Sample(
            cuts => Recording.OfRest(new SensorStream(Everything(), 7, 30), cuts).AssertSameAs(whole, $"cuts {string.Join(' ', cuts)}"),
            iter: 60,
            threads: 1);
    }

    [TestCase(1)]
    [TestCase(5000)]
    [TestCase(66_666)]
    public void Copy_Anywhere_ReadsOnWithTheSameBits(long tick)
    {
        var stream = new SensorStream(Everything(), 7, Seconds);
        Recording head = Recording.OfPart(stream, tick);
        SensorStream copy = stream.Copy();
        head.Then(Recording.OfRest(copy, 4321, 17)).AssertSameAs(s_whole, $"copied at tick {tick}");
        head.Then(Recording.OfRest(stream, 999)).AssertSameAs(s_whole, $"original after its copy at tick {tick}");
    }

    // Often, so that some copies are made inside a gap, inside a stuck stretch, and before a sample that repeats the one before.
    [Test]
    public void Copy_EveryThreeQuartersOfASecond_ReadsOnWithTheSameBits()
    {
        Recording whole = Recording.Of(Everything(), 30);
        var stream = new SensorStream(Everything(), 7, 30);
        Recording head = Recording.OfPart(stream, 3);
        for (long tick = 371; tick < stream.EndTick; tick += 371)
        {
            head = head.Then(Recording.OfPart(stream, tick));
            head.Then(Recording.OfRest(stream.Copy(), 901)).AssertSameAs(whole, $"copied at tick {tick}");
        }

        head.Then(Recording.OfRest(stream, 500)).AssertSameAs(whole, "the original");
    }

    [TestCase(500)]
    [TestCase(17)]
    public void Read_AfterWarmUp_AllocatesNothing(int ticks)
    {
        var stream = new SensorStream(Everything(), 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, ticks);
        Advance(stream, block, 30_000);
        Assert.That(Allocations.Least(() => Advance(stream, block, 300_000)), Is.Zero);
        Assert.That(stream.Acquisition.OverflowCount, Is.Zero);
    }

    private static void Advance(SensorStream stream, SampleBlock block, long ticks)
    {
        for (long done = 0; done < ticks; done += block.MaximumTicks)
        {
            stream.Read(block, stream.PositionTick + block.MaximumTicks);
            while (stream.Truth.TryTake(out _) || stream.Acquisition.TryTake(out _))
            {
            }
        }
    }
}
