// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;

namespace SensorSim.Detection.Tests.Gate;

[TestFixture]
public sealed class PulseGateTests
{
    [TestCase(40)]
    [TestCase(70)]
    [TestCase(150)]
    public void TheFifthRegularPulseOpensIt(double rateBpm)
    {
        double interval = 60 / rateBpm;
        GateScript script = new GateScript().Feet(30, interval);
        Assert.That(script.PulseChanges, Has.Count.EqualTo(1));
        Assert.That(script.PulseChanges[0].S, Is.EqualTo(5 * interval).Within(1e-6));
        Assert.That(script.Pulse.IsOpenForRate, Is.True);
    }

    /// <summary>Upstrokes of noise: never nearer than 270 ms, heights spread as noise spreads them.</summary>
    [TestCase(7201)]
    [TestCase(7202)]
    public void ChancePulsesHardlyEverOpenIt(int seed)
    {
        var random = new Random(seed);
        var script = new GateScript();
        int openSteps = 0;
        int steps = 0;
        for (double t = 0; t < 7200;)
        {
            t += 0.27 - (0.25 * Math.Log(1 - random.NextDouble()));
            double height = Math.Sqrt(0.3 - (2 * Math.Log(1 - random.NextDouble())));
            script.Foot(t, (int)(1000 * height));
            steps++;
            openSteps += script.Pulse.IsOpen ? 1 : 0;
        }

        Assert.That(openSteps, Is.LessThan(steps / 1000));
    }

    // Fibrillation: what intervals alone cannot tell from chance, a beat of the ECG to each pulse can.
    [TestCase(true)]
    [TestCase(false)]
    public void OddRhythmIsBelievedWithAPartnerToEachPulse(bool havePartners)
    {
        var random = new Random(7220);
        var script = new GateScript();
        int open = 0;
        int pulses = 0;
        for (double t = 0; t < 300;)
        {
            t += 0.4 + (0.6 * random.NextDouble());
            script.Pulse.Partners(havePartners);
            script.Foot(t, random.Next(600, 1400));
            pulses++;
            open += script.Pulse.IsOpen && script.Pulse.IsOpenForRate ? 1 : 0;
        }

        Assert.That(open, havePartners ? Is.GreaterThan(pulses * 9 / 10) : Is.LessThan(pulses / 3));
    }

    [Test]
    public void MovementShutsItButNotForTheRate()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Movement(200, isMoving: true);
        script.Feet(24, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Movement));
        Assert.That(script.Pulse.IsOpenForRate, Is.True, "from the spectrum");
        script.Pulse.Movement(5, isMoving: false);
        script.Feet(40, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        double shutS = script.PulseChanges[1].S;
        Assert.That(shutS, Is.EqualTo(16.1).Within(0.11));

        // Five pulses after the movement.
        Assert.That(script.PulseChanges[2].S, Is.InRange(24 + 3.2, 24 + 4.1));
    }

    [Test]
    public void WithoutMovementChancePulsesGiveNoRate()
    {
        var random = new Random(7210);
        var script = new GateScript();
        for (double t = 0; t < 120;)
        {
            t += 0.3 + random.NextDouble();
            script.Foot(t, random.Next(200, 3000));
            Assert.That(script.Pulse.IsOpenForRate, Is.False);
        }
    }

    [Test]
    public void RateUnderMovementNeedsContact()
    {
        var script = new GateScript();
        script.Pulse.Movement(200, isMoving: true);
        script.Until(5);
        Assert.That(script.Pulse.IsOpenForRate, Is.True);
        script.Pulse.Unusable(GateScript.Ticks256(5), SampleFlags.NoContact);
        script.Until(6);
        Assert.That(script.Pulse.IsOpenForRate, Is.False);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.NoContact));
        script.Pulse.Usable(GateScript.Ticks256(6));
        script.Until(8.9);
        Assert.That(script.Pulse.IsOpenForRate, Is.False, "not three seconds yet");
        script.Until(9.2);
        Assert.That(script.Pulse.IsOpenForRate, Is.True);
    }

    [Test]
    public void PerfusionHasTwoEdges()
    {
        // Amplitude 1000: 0.12 % of 833,333 and 0.1 % of 1,000,000.
        var script = new GateScript { LevelCodes = 833_400 };
        script.Feet(16, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.TooWeak));
        script.LevelCodes = 833_000;
        script.Feet(17.6, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.LevelCodes = 999_000;
        script.Feet(24, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.LevelCodes = 1_001_000;
        script.Feet(26, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.TooWeak));
        Assert.That(script.Pulse.IsOpenForRate, Is.False);
    }

    [Test]
    public void RoomLightHasTwoEdges()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Ambient(5000, 15_999, 0);
        script.Feet(20, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.Pulse.Ambient(5000, 16_001, 0);
        script.Feet(22, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Ambient));
        script.Pulse.Ambient(5000, 8001, 0);
        script.Feet(32, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Ambient));
        script.Pulse.Ambient(5000, 7999, 0);
        script.Feet(40, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
    }

    // A lamp that comes out of the sampling as a wave of 0.6 s: pulses every 0.8 s are not its own, but over a whole pulse they are hidden by it.
    [Test]
    public void ASlowLampHasTwoEdges()
    {
        const int Cycle16 = 96;
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Ambient(5000, 999, Cycle16);
        script.Feet(20, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.Pulse.Ambient(5000, 1001, Cycle16);
        script.Feet(22, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Ambient));
        Assert.That(script.Pulse.IsOpenForRate, Is.False);
        script.Pulse.Ambient(5000, 501, Cycle16);
        script.Feet(32, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Ambient));
        script.Pulse.Ambient(5000, 499, Cycle16);
        script.Feet(40, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
    }

    // One or two pulses a cycle, an eighth more or less (edges 0.7 and 0.9 s, 0.35 and 0.45 s): an eighth of the pulse is enough, and a sixteenth to stay shut.
    [TestCase(0.8, 128, true)]
    [TestCase(0.71, 128, true)]
    [TestCase(0.89, 128, true)]
    [TestCase(0.68, 128, false)]
    [TestCase(0.92, 128, false)]
    [TestCase(0.4, 128, true)]
    [TestCase(0.36, 128, true)]
    [TestCase(0.6, 128, false)]
    [TestCase(1.6, 128, false)]
    public void PulsesInStepWithALampAreItsOwn(double intervalS, int cycle16, bool isShut)
    {
        GateScript script = new GateScript().Feet(16, intervalS);
        script.Pulse.Ambient(5000, 124, cycle16);
        script.Feet(24, intervalS);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.Pulse.Ambient(5000, 126, cycle16);
        script.Feet(32, intervalS);
        Assert.That(script.Pulse.Reason, Is.EqualTo(isShut ? GateReason.Ambient : GateReason.None));
        script.Pulse.Ambient(5000, 64, cycle16);
        script.Feet(40, intervalS);
        Assert.That(script.Pulse.IsOpen, Is.EqualTo(!isShut));
        script.Pulse.Ambient(5000, 61, cycle16);
        script.Feet(50, intervalS);
        Assert.That(script.Pulse.IsOpen, Is.True);
    }

    // Slower than any heart: pulses stand, the ratio of the colours does not.
    [Test]
    public void ALampSlowerThanPulsesSpoilsColoursAlone()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Ambient(5000, 374, 500);
        Assert.That(script.Pulse.IsLampInColours, Is.False);
        script.Pulse.Ambient(5000, 376, 500);
        Assert.That(script.Pulse.IsLampInColours, Is.True);
        script.Pulse.Ambient(5000, 7000, 500);
        script.Feet(30, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.Pulse.Ambient(5000, 7000, 0);
        Assert.That(script.Pulse.IsLampInColours, Is.False);
    }

    [Test]
    public void AChangeOfSettingsMayChangeHeights()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Step(GateScript.Ticks256(16.1));
        script.Feet(40, 0.8, amplitude: 5000);
        Assert.That(script.PulseChanges, Has.Count.EqualTo(1));
        Assert.That(script.Pulse.Quality, Is.EqualTo(255));
    }

    [Test]
    public void HeightsThatChangeWithoutNoticeAreFaults()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Foot(16.8, 5000);
        Assert.That(script.Pulse.Quality, Is.EqualTo(255 - 16));
    }

    [Test]
    public void AMissingPulseStopsTheRateButNotTheFeet()
    {
        // A weak beat without a pulse: arrival and saturation of the others are right, the rate is not.
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Foot(17.6);
        Assert.That(script.Pulse.IsOpen, Is.True);
        Assert.That(script.Pulse.IsOpenForRate, Is.False);
        script.From(17.6).Feet(17.6 + (7 * 0.8) + 0.1, 0.8);
        Assert.That(script.Pulse.IsOpenForRate, Is.False, "the long interval is still among the last eight");
        script.Feet(17.6 + (8 * 0.8) + 0.1, 0.8);
        Assert.That(script.Pulse.IsOpenForRate, Is.True);
    }

    [Test]
    public void AnExtraPulseShutsIt()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Foot(16.4).From(16).Feet(16.8, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.Irregular));
    }

    [Test]
    public void SmallMovementTakesTrust()
    {
        GateScript script = new GateScript().Feet(16, 0.8);
        script.Pulse.Movement(20, isMoving: false);
        Assert.That(script.Pulse.Quality, Is.EqualTo(235));
        script.Pulse.Movement(500, isMoving: false);
        Assert.That(script.Pulse.Quality, Is.EqualTo(191));
    }

    [Test]
    public void NoiseOfTheSlopeHasTwoEdges()
    {
        var script = new GateScript { NoiseLevel = 4000, SignalLevel = 6999 };
        script.Feet(16, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.TooWeak));
        script.SignalLevel = 7000;
        script.Feet(17, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.SignalLevel = 6000;
        script.Feet(19, 0.8);
        Assert.That(script.Pulse.IsOpen, Is.True);
        script.SignalLevel = 5999;
        script.Feet(20, 0.8);
        Assert.That(script.Pulse.Reason, Is.EqualTo(GateReason.TooWeak));
    }
}
