// SPDX-License-Identifier: MIT
using System.Diagnostics;
using SensorSim.Links.Pacing;
using SensorSim.Links.Tests.Support;

namespace SensorSim.Links.Tests.Pacing;

/// <summary>A schedule that does not drift, on a clock of the test and, generously, on the real one.</summary>
public sealed class PacerTests
{
    private const long MsNs = 1_000_000;
    private readonly FakeClock _clock = new() { PerLook = 50 };
    private readonly List<int> _sleeps = [];

    [SetUp]
    public void Reset() => _sleeps.Clear();

    [TestCase(1.0, 100.0)]
    [TestCase(2.0, 50.0)]
    [TestCase(0.5, 200.0)]
    [TestCase(3.0, 33.3333)]
    public void Instants_AtSpeed_AreDueThere(double speed, double ms)
    {
        Pacer pacer = New(speed, 0);
        double begin = _clock.NowMs;
        pacer.Begin(0);
        for (int i = 1; i <= 1000; i++)
        {
            Assert.That(pacer.WaitUntil(i * 100 * MsNs), Is.True);
            Assert.That(_clock.NowMs - begin, Is.InRange(i * ms, (i * ms) + 0.06));
        }

        Assert.That(pacer.Error.Count, Is.EqualTo(1000));
        Assert.That(pacer.Error.MaximumUs, Is.LessThan(10));
    }

    [Test]
    public void SleepsThatEndLate_AddUpToNothing()
    {
        // Each sleep ends 1.2 ms later than asked, as a busy system's do; the reserve for spinning takes it up.
        Pacer pacer = New(1, 1.2);
        double begin = _clock.NowMs;
        pacer.Begin(0);
        for (int i = 1; i <= 3600; i++)
        {
            pacer.WaitUntil(i * 1000 * MsNs);
        }

        Assert.That(_clock.NowMs - begin, Is.EqualTo(3_600_000).Within(0.01), "an hour");
        Assert.That(pacer.Error.PercentileUs(99), Is.LessThan(10));
    }

    [Test]
    public void SleepThatEndsMuchTooLate_IsNoted_AndTheNextInstantIsOnTimeAgain()
    {
        Pacer pacer = New(1, 0);
        double begin = _clock.NowMs;
        pacer.Begin(0);
        pacer.WaitUntil(100 * MsNs);
        _clock.Move(130);
        Assert.That(pacer.Lateness(200 * MsNs).TotalMilliseconds, Is.EqualTo(30).Within(0.1));
        pacer.WaitUntil(200 * MsNs);
        Assert.That(pacer.Error.MaximumUs, Is.EqualTo(30_000).Within(100));
        Assert.That(_sleeps, Has.Count.EqualTo(1), "what is past is not waited for");
        pacer.WaitUntil(300 * MsNs);
        Assert.That(_clock.NowMs - begin, Is.EqualTo(300).Within(0.01));
    }

    [Test]
    public void Begin_OnceMore_MovesTheSchedule()
    {
        Pacer pacer = New(1, 0);
        pacer.Begin(0);
        pacer.WaitUntil(100 * MsNs);
        _clock.Move(5000);
        pacer.Begin(200 * MsNs);
        double begin = _clock.NowMs;
        pacer.WaitUntil(300 * MsNs);
        Assert.That(_clock.NowMs - begin, Is.EqualTo(100).Within(0.01));
        Assert.That(pacer.Error.MaximumUs, Is.LessThan(10));
    }

    [Test]
    public void DueTimestamp_IsTheClocksOwnCount()
    {
        Pacer pacer = New(2, 0);
        long begin = _clock.GetTimestamp();
        pacer.Begin(0);
        Assert.That(pacer.DueTimestamp(1000 * MsNs) - begin, Is.EqualTo(5_000_000 + _clock.PerLook), "half a second in 100 ns, and the look of Begin");
    }

    [Test]
    public void Token_EndsTheWaitingAndNothingIsNoted()
    {
        using var cancellation = new CancellationTokenSource();
        var pacer = new Pacer(_clock, 1, (ms, token) =>
        {
            cancellation.Cancel();
            return token.IsCancellationRequested;
        });
        pacer.Begin(0);
        Assert.That(pacer.WaitUntil(100 * MsNs, cancellation.Token), Is.False);
        Assert.That(pacer.Error.Count, Is.Zero);
    }

    [TestCase(0.0)]
    [TestCase(-1.0)]
    [TestCase(double.NaN)]
    [TestCase(10_001.0)]
    public void Speed_OutOfRange_IsRefused(double speed)
        => Assert.That(() => new Pacer(TimeProvider.System, speed), Throws.InstanceOf<ArgumentOutOfRangeException>());

    [Test]
    public void Schedule_ThatHasNotBegun_IsRefused()
        => Assert.That(() => new Pacer(TimeProvider.System).WaitUntil(0), Throws.InvalidOperationException);

    [Test]
    public void RealClock_TwoSecondsOfFrames_DoNotDrift()
    {
        // On a busy machine a single wake-up may come late; only what adds up would show here.
        var pacer = new Pacer(TimeProvider.System, 2);
        long begin = Stopwatch.GetTimestamp();
        pacer.Begin(0);
        for (int i = 1; i <= 80; i++)
        {
            pacer.WaitUntil(i * 50 * MsNs);
        }

        double lastMs = Stopwatch.GetElapsedTime(begin).TotalMilliseconds;
        TestContext.Out.WriteLine($"late by {pacer.Error.PercentileUs(50)} us (50 %), {pacer.Error.PercentileUs(99)} us (99 %), {pacer.Error.MaximumUs} us at most");
        Assert.That(lastMs, Is.InRange(2000, 2500));
    }

    private Pacer New(double speed, double lateMs) => new(_clock, speed, (ms, _) =>
    {
        _sleeps.Add(ms);
        _clock.Move(ms + lateMs);
        return false;
    });
}
