// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;

namespace SensorSim.Detection.Tests.Gate;

[TestFixture]
public sealed class JointGateTests
{
    [Test]
    public void FourPairsOpenIt()
    {
        GateScript script = Paired(20, _ => 200_000);
        Assert.That(script.JointChanges, Has.Count.EqualTo(1));

        // Both gates open with the fifth, then four pairs.
        Assert.That(script.JointChanges[0].S, Is.EqualTo((5 + 4) * 0.8).Within(0.9));
        Assert.That(script.Joint.Quality, Is.EqualTo(255));
    }

    [Test]
    public void ChancePairsDoNotOpenIt()
    {
        var random = new Random(7300);
        GateScript script = Paired(3600, _ => 80_000 + random.Next(370_000));
        Assert.That(script.JointChanges, Is.Empty);
        Assert.That(script.Joint.Reason, Is.EqualTo(GateReason.Irregular));
    }

    [Test]
    public void ArrivalThatBreathesKeepsItOpen()
    {
        GateScript script = Paired(600, i => 200_000 + (int)(8000 * Math.Sin(i * 0.8 * 2 * Math.PI / 4)));
        Assert.That(script.JointChanges, Has.Count.EqualTo(1));
    }

    [TestCase(6, true)]
    [TestCase(20, false)]
    public void SpreadDecides(double sdMs, bool opens)
    {
        var random = new Random(7310);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        GateScript script = Paired(300, _ => 200_000 + (int)(sdMs * 1000 * Normal()));
        double openS = OpenSeconds(script, 300);
        Assert.That(openS, opens ? Is.GreaterThan(240) : Is.LessThan(15));
    }

    // Arrival times to and fro, in units of 16 µs: the mean change may be 9 ms to open, which is 562 units, and 13 ms, 812, to stay open.
    [TestCase(562 * 16, true)]
    [TestCase(563 * 16, false)]
    public void ChangeFromBeatToBeatDecidesWhetherItOpens(int changeUs, bool opens)
    {
        GateScript script = Paired(120, i => 200_000 + (i % 2 * changeUs));
        Assert.That(script.JointChanges, Has.Count.EqualTo(opens ? 1 : 0));
    }

    [TestCase(812 * 16, true)]
    [TestCase(813 * 16, false)]
    public void ChangeFromBeatToBeatDecidesWhetherItStaysOpen(int changeUs, bool stays)
    {
        GateScript script = Paired(40, i => 200_000 + (i < 20 ? 0 : i % 2 * changeUs));
        Assert.That(script.JointChanges[0].S, Is.LessThan(16));
        Assert.That(script.JointChanges, Has.Count.EqualTo(stays ? 1 : 2));
    }

    [Test]
    public void OneThatIsOffIsHeldButMayEnterAMedian()
    {
        GateScript script = Paired(40, i => i == 49 ? 209_000 : 200_000);
        Assert.That(script.Joint.IsOpen, Is.False);
        Assert.That(script.Joint.IsOpenForMedian, Is.True);
    }

    [Test]
    public void EveryOtherBeatWithoutAPulseKeepsItShut()
    {
        GateScript script = Paired(300, i => i % 2 == 0 ? 200_000 : -1);
        Assert.That(script.JointChanges, Is.Empty);
    }

    [Test]
    public void OneLostPairKeepsItOpenFourShutIt()
    {
        GateScript script = Paired(60, i => i == 40 ? -1 : 200_000);
        Assert.That(script.JointChanges, Has.Count.EqualTo(1));
        script = Paired(60, i => i is >= 40 and < 44 ? -1 : 200_000);
        Assert.That(script.JointChanges[1].Reason, Is.EqualTo(GateReason.Irregular));
        Assert.That(script.JointChanges[1].S, Is.EqualTo(44 * 0.8).Within(0.9));
    }

    [Test]
    public void NoPairsForFourSecondsShutIt()
    {
        GateScript script = Paired(60, i => i >= 40 ? 0 : 200_000);
        Assert.That(script.JointChanges[1].Reason, Is.EqualTo(GateReason.Irregular));
        Assert.That(script.JointChanges[1].S, Is.EqualTo((39 * 0.8) + 0.2 + 4).Within(0.4));
    }

    [Test]
    public void TheReasonIsThatOfTheGateThatIsShut()
    {
        GateScript script = Paired(20, _ => 200_000);
        script.Pulse.Movement(300, isMoving: true);
        script.Until(script.NowS + 0.2);
        Assert.That(script.Joint.IsOpen, Is.False);
        Assert.That(script.Joint.Reason, Is.EqualTo(GateReason.Movement));
        script.Ecg.Unusable(GateScript.Ticks256(script.NowS), SampleFlags.LeadOffPositive);
        script.Until(script.NowS + 0.3);
        Assert.That(script.Joint.Reason, Is.EqualTo(GateReason.NoContact), "the electrode comes first");
    }

    [Test]
    public void ABeatHeldBackHoldsItWithoutShuttingIt()
    {
        GateScript script = Paired(20, _ => 200_000);
        script.Beat(script.NowS + 0.1, amplitude: -1700);
        Assert.That(script.Ecg.IsOpen, Is.False);
        Assert.That(script.Joint.IsOpen, Is.False);
        Assert.That(script.Joint.Reason, Is.EqualTo(GateReason.None));
        Assert.That(script.Joint.Quality, Is.Zero);
    }

    /// <summary>Beats every 0.8 s and their pulses; arrival in µs, −1: told as unpaired, 0: nothing told.</summary>
    private static GateScript Paired(double untilS, Func<int, int> arrivalUs)
    {
        var script = new GateScript();
        for (int i = 1; i * 0.8 < untilS; i++)
        {
            double t = i * 0.8;
            script.Beat(t);
            script.Foot(t + 0.2);
            int us = arrivalUs(i);
            if (us > 0)
            {
                script.Arrival(t + 0.2, us);
            }
            else if (us < 0)
            {
                script.Joint.Unpaired(GateScript.Ticks256(t + 0.2));
            }
        }

        return script;
    }

    private static double OpenSeconds(GateScript script, double endS)
    {
        double sum = 0;
        for (int i = 0; i < script.JointChanges.Count; i += 2)
        {
            sum += (i + 1 < script.JointChanges.Count ? script.JointChanges[i + 1].S : endS) - script.JointChanges[i].S;
        }

        return sum;
    }
}
