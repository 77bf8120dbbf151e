// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Gate;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Gate;

[TestFixture]
public sealed class EcgGateTests
{
    [Test]
    public void NothingOpensIt([Values(false, true)] bool withOneBeat)
    {
        var script = new GateScript();
        if (withOneBeat)
        {
            script.Beat(2);
        }

        script.Until(60);
        Assert.That(script.EcgChanges, Is.Empty);
        Assert.That(script.Ecg.IsOpen, Is.False);
        Assert.That(script.Ecg.Quality, Is.Zero);
        Assert.That(script.Ecg.Reason, Is.EqualTo(withOneBeat ? GateReason.TooWeak : GateReason.Waiting));
    }

    [TestCase(30)]
    [TestCase(42)]
    [TestCase(66)]
    [TestCase(110)]
    [TestCase(180)]
    [TestCase(220)]
    public void TheFifthRegularBeatOpensIt(double rateBpm)
    {
        double interval = 60 / rateBpm;
        GateScript script = new GateScript().Beats(30, interval);
        Assert.That(script.EcgChanges, Has.Count.EqualTo(1));
        Assert.That(script.EcgChanges[0].S, Is.EqualTo(5 * interval).Within(1e-6));
        Assert.That(script.Ecg.SinceTicks256, Is.EqualTo(GateScript.Ticks256(5 * interval)));

        // The first of the five; a unit an interval early at most.
        double trusted = script.Ecg.TrustedFromTicks256 / 256.0 / GateScript.TicksPerSecond;
        Assert.That(trusted, Is.InRange(interval - 0.005, interval + 0.001));
    }

    [Test]
    public void LooseElectrodeShutsItAtOnceAndForThreeSecondsMore()
    {
        GateScript script = new GateScript().Beats(20, 0.8);
        script.Ecg.Unusable(GateScript.Ticks256(20.05), SampleFlags.LeadOffNegative);
        Assert.That(script.Ecg.IsOpen, Is.False, "not even before it is judged");
        script.Until(22);
        Assert.That(script.EcgChanges[^1], Is.EqualTo((20.2, false, GateReason.NoContact)).Using<(double S, bool, GateReason R)>((a, b) => Math.Abs(a.S - b.S) < 1e-6 && a.R == b.R ? 0 : 1));
        script.Ecg.Usable(GateScript.Ticks256(22));
        script.From(21.5).Beats(40, 0.5);
        Assert.That(script.Ecg.IsOpen, Is.True);
        Assert.That(script.EcgChanges[^1].S, Is.EqualTo(25).Within(0.11));
    }

    [TestCase((ushort)0, 0.9, GateReason.None)]
    [TestCase((ushort)0, 1.2, GateReason.NoSamples)]
    [TestCase(SampleFlags.Saturated, 0.08, GateReason.None)]
    [TestCase(SampleFlags.Saturated, 0.25, GateReason.Saturated)]
    [TestCase(SampleFlags.OverRange, 0.25, GateReason.Saturated)]
    [TestCase((ushort)(SampleFlags.OverRange | SampleFlags.LeadOffThird), 0.25, GateReason.NoContact)]
    public void ShortStretchesDoNotShutIt(ushort flags, double lengthS, GateReason expected)
    {
        GateScript script = new GateScript().Beats(16, 0.8);
        script.Ecg.Unusable(GateScript.Ticks256(16.1), flags);
        Assert.That(script.Ecg.IsOpen, Is.False);
        script.Until(16.1 + lengthS);
        script.Ecg.Usable(GateScript.Ticks256(16.1 + lengthS));
        script.Until(17.4);
        Assert.That(script.Ecg.Reason, Is.EqualTo(expected));
        Assert.That(script.Ecg.IsOpen, Is.EqualTo(expected == GateReason.None));
    }

    [Test]
    public void GapThatIsToldAtItsEndShutsIt()
    {
        GateScript script = new GateScript().Beats(16, 0.8);
        script.Until(19);
        script.Ecg.Unusable(GateScript.Ticks256(16.2), 0);
        script.Ecg.Usable(GateScript.Ticks256(18.9));
        script.Until(19.1);
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.NoSamples));
    }

    [Test]
    public void SilenceShutsIt()
    {
        GateScript script = new GateScript().Beats(20, 0.8);
        script.Until(30);
        Assert.That(script.EcgChanges, Has.Count.EqualTo(2));
        Assert.That(script.EcgChanges[1].Reason, Is.EqualTo(GateReason.TooWeak));

        // A second and 2 1/4 intervals after the last one at 20 s.
        Assert.That(script.EcgChanges[1].S, Is.EqualTo(20 + 1 + (2.25 * 0.8)).Within(0.11));
    }

    [Test]
    public void LevelsHaveTwoEdges()
    {
        // 16 eighths of the noise to open, 13 to stay.
        var script = new GateScript { NoiseLevel = 8000, SignalLevel = 15_999 };
        script.Beats(20, 0.8);
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.TooWeak));
        script.SignalLevel = 16_000;
        script.Beats(21, 0.8);
        Assert.That(script.Ecg.IsOpen, Is.True);
        script.SignalLevel = 13_000;
        script.Beats(25, 0.8);
        Assert.That(script.Ecg.IsOpen, Is.True);
        script.SignalLevel = 12_999;
        script.Beats(27, 0.8);
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.TooWeak));
    }

    [Test]
    public void AnExtraBeatIsHeldBackThenShutsIt()
    {
        GateScript script = new GateScript().Beats(16, 0.8);
        script.Beat(16.35);
        Assert.That(script.Ecg.IsOpen, Is.False, "held back");
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.None));
        script.From(16).Beats(16.8, 0.8);
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.Irregular));
        script.Beats(30, 0.8);
        Assert.That(script.EcgChanges, Has.Count.EqualTo(3));
        Assert.That(script.EcgChanges[2].S - script.EcgChanges[1].S, Is.InRange(3, 5));

        // The heart rate that is given again must not reach back to the extra beat.
        Assert.That(script.Ecg.TrustedFromTicks256, Is.GreaterThan(GateScript.Ticks256(16.36)));
    }

    [TestCase(8000, 1000, 1000, GateReason.Irregular, TestName = "One dropped beat is taken for missed")]
    [TestCase(8000, 3000, 1000, GateReason.Irregular, TestName = "A dropped beat in a noisy ECG is the detector's")]
    [TestCase(8000, 1000, 400, GateReason.Irregular, TestName = "A dropped beat among uneven heights is the detector's")]
    public void AMissingBeat(int signal, int noise, int oddHeight, GateReason expected)
    {
        var script = new GateScript { SignalLevel = signal, NoiseLevel = noise };
        script.Beats(16, 0.8);
        script.Beat(16.8, oddHeight).From(16.8).Beats(17.6, 0.8);
        script.Beat(19.2);
        Assert.That(script.Ecg.Reason, Is.EqualTo(expected));
    }

    [Test]
    public void BeatsThatDropEvenlyAreTheHearts()
    {
        // Every eighth beat is blocked; after the third time the gate stays open.
        var script = new GateScript();
        double t = 0;
        for (int i = 1; i < 160; i++)
        {
            t += i % 7 == 0 ? 1.6 : 0.8;
            script.Beat(t);
        }

        Assert.That(script.Ecg.IsOpen, Is.True);
        Assert.That(script.EcgChanges[^1].S, Is.LessThan(40));
    }

    [Test]
    public void AMissedBeatIsSeenWhileTheHeartGetsFaster()
    {
        var script = new GateScript();
        double t = 0;
        double interval = 0.75;
        for (int i = 0; i < 20; i++)
        {
            t += interval;
            script.Beat(t);
            interval *= 0.97;
        }

        // 1.78 of the last interval, 1.63 of the median.
        script.Beat(t + (1.78 * interval / 0.97));
        Assert.That(script.Ecg.Reason, Is.EqualTo(GateReason.Irregular));
    }

    [Test]
    public void OnePrematureVentricularBeatDoesNotShutIt()
    {
        GateScript script = new GateScript().Beats(16, 0.8);
        script.Beat(16.45, amplitude: -1700);
        Assert.That(script.Ecg.IsOpen, Is.False, "held back");
        script.Beat(17.6);
        Assert.That(script.Ecg.IsOpen, Is.True, "the pause explains it");
        script.From(17.6).Beats(30, 0.8);
        Assert.That(script.EcgChanges, Has.Count.EqualTo(1));
    }

    [Test]
    public void QualityFallsWithFaultsAndNoise()
    {
        GateScript clean = new GateScript().Beats(16, 0.8);
        Assert.That(clean.Ecg.Quality, Is.EqualTo(255));
        clean.Beat(16.8, 300);
        Assert.That(clean.Ecg.Quality, Is.EqualTo(255 - 16));
        var noisy = new GateScript { NoiseLevel = 3000 };
        noisy.Beats(16, 0.8);
        Assert.That(noisy.Ecg.Quality, Is.EqualTo(128));
    }

    [Test]
    public void MoreJudgementsChangeNothing()
    {
        var one = new GateScript();
        var other = new GateScript();
        var random = new Random(7100);
        double t = 0;
        for (int i = 0; i < 600; i++)
        {
            t += 0.25 + random.NextDouble();
            int height = random.Next(-1500, 3000);
            one.Beat(t, height);
            other.Beat(t, height);
            for (int k = 0; k < 3; k++)
            {
                Assert.That(other.Ecg.Advance(GateScript.Ticks256(t)), Is.False);
            }
        }

        Assert.That(other.EcgChanges, Is.EqualTo(one.EcgChanges));
    }

    [Test]
    public void AllGatesTakeLessThanTheirShare()
    {
        int bytes = Unsafe.SizeOf<EcgGate>() + Unsafe.SizeOf<PulseGate>() + Unsafe.SizeOf<JointGate>();
        Assert.That(bytes, Is.LessThanOrEqualTo(307), "0.3 KiB");
    }
}
