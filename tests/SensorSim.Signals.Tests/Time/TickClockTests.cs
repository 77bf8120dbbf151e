// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Signals.Time;

namespace SensorSim.Signals.Tests.Time;

public sealed class TickClockTests
{
    // Lowest common multiples by hand: 500 = 2^2 5^3, 100 = 2^2 5^2, 104 = 2^3 13, 360 = 2^3 3^2 5, 250 = 2 5^3.
    [TestCase(new[] { 500, 100 }, 500)]
    [TestCase(new[] { 500, 100, 104 }, 13_000)]
    [TestCase(new[] { 360, 250 }, 9_000)]
    [TestCase(new[] { 1 }, 1)]
    [TestCase(new int[0], 1)]
    public void FromRates_SeveralRates_IsTheLowestCommonMultiple(int[] ratesHz, long expected) =>
        Assert.That(TickClock.FromRates(ratesHz).TicksPerSecond, Is.EqualTo(expected));

    [TestCase(0)]
    [TestCase(-5)]
    public void FromRates_RateBelowOne_IsRefused(int rateHz) =>
        Assert.That(() => TickClock.FromRates([100, rateHz]), Throws.TypeOf<ArgumentOutOfRangeException>());

    [Test]
    public void FromRates_MultipleAboveOneGigahertz_IsRefused() =>
        Assert.That(() => TickClock.FromRates([99_991, 99_989]), Throws.TypeOf<ArgumentOutOfRangeException>());

    [Test]
    public void FromRates_MultipleBeyondLong_IsRefusedAsOutOfRange() =>
        Assert.That(() => TickClock.FromRates([2_147_483_647, 2_147_483_629, 2_147_483_587]), Throws.TypeOf<ArgumentOutOfRangeException>());

    [TestCase(0L)]
    [TestCase(1_000_000_001L)]
    public void Constructor_OutsideRange_IsRefused(long ticksPerSecond) =>
        Assert.That(() => new TickClock(ticksPerSecond), Throws.TypeOf<ArgumentOutOfRangeException>());

    [TestCase(300L, 0L, 0L)]
    [TestCase(300L, 1L, 3_333_333L)]
    [TestCase(300L, 2L, 6_666_666L)]
    [TestCase(300L, 300L, 1_000_000_000L)]
    [TestCase(300L, -1L, -3_333_334L)]
    [TestCase(1_000_000_000L, 123_456_789_012L, 123_456_789_012L)]
    [TestCase(13_000L, 13_000L * 9_000_000_000L, 9_000_000_000_000_000_000L)]
    public void Nanoseconds_AnyTick_IsRoundedDown(long ticksPerSecond, long tick, long expected) =>
        Assert.That(new TickClock(ticksPerSecond).Nanoseconds(tick), Is.EqualTo(expected));

    [TestCase(0.0, 0L)]
    [TestCase(0.001, 1L)]
    [TestCase(1.0, 500L)]
    [TestCase(1.0005, 501L)]
    public void TickAtOrAfter_Seconds_IsTheNextTick(double seconds, long expected) =>
        Assert.That(new TickClock(500).TickAtOrAfter(seconds), Is.EqualTo(expected));

    [Test]
    public void Seconds_OfATick_IsItsQuotient() => Assert.That(new TickClock(300).Seconds(100), Is.EqualTo(1.0 / 3));

    // By hand: 300 ticks a second are 3,333,333.3 ns apart.
    [TestCase(300L, 0L, 0L)]
    [TestCase(300L, 1L, 1L)]
    [TestCase(300L, 3_333_333L, 1L)]
    [TestCase(300L, 3_333_334L, 2L)]
    [TestCase(300L, 1_000_000_001L, 301L)]
    [TestCase(1_000_000_000L, 123_456_789_012L, 123_456_789_012L)]
    public void TickAtOrAfterNs_Time_IsTheFirstTickNotBeforeIt(long ticksPerSecond, long ns, long tick) =>
        Assert.That(new TickClock(ticksPerSecond).TickAtOrAfterNs(ns), Is.EqualTo(tick));

    [Test]
    public void TickAtOrAfterNs_OfNanoseconds_IsTheSameTick() =>
        Gen.Select(Gen.Long[1, 1_000_000_000], Gen.Long[0, 1_000_000]).Sample((rate, seconds) =>
        {
            var clock = new TickClock(rate);
            long tick = (seconds * rate) + (seconds % rate);
            return clock.TickAtOrAfterNs(clock.Nanoseconds(tick)) == tick;
        });
}
