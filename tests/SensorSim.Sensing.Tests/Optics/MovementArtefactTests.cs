// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Body.Site;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;
using SensorSim.Tests.Shared;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Artefact of any movement in the absorbance, as the logarithm of light without over light with it.</summary>
public sealed class MovementArtefactTests
{
    private const double Ratio = 2;

    // Pulse height of a perfusion index p: ln((1 + p/2)/(1 − p/2)).
    private static readonly double s_unit = Math.Log(1.02 / 0.98) / (2 * Math.Sqrt(2));

    /// <summary>Gait that begins, changes its cadence and becomes a run, with taps, gestures and tremor.</summary>
    private static KeyValues Busy() => Values()
        .SetChanges(MovementKeys.Activity, [(3, "walking"), (25, "running"), (35, "rest")])
        .SetChanges(MovementKeys.CadenceHz, [new CourseChange(8, ChangeKind.Ramp, 2.8, 12)], [])
        .Set(MovementKeys.CadenceSpreadHz, 0.05)
        .Set(HandMovementKeys.GesturesPerMin, 10)
        .Set(HandMovementKeys.TremorG, 0.1)
        .SetChanges(MovementKeys.Posture, [(12, "supine"), (30, "prone")]);

    private static KeyValues Values() => Settings.Steady().Set(PulseKeys.PerfusionIndexPercent, 4);

    // Tissue as an ordinary differential equation, y' = 2π · 2 Hz · (x − y), x = 0.6 forward + vertical acceleration without the posture's
    // gravity: stepped at 4 kHz by the trapezoid rule, which shares nothing with the code. Scale: the reference gait has the knob's rms.
    // What is left are heel strikes and taps, whose spectrum reaches beyond half of the 100 Hz at which the tissue is sampled.
    [TestCase(100, false, 0.008)]
    [TestCase(100, true, 0.015)]
    [TestCase(50, true, 0.015)]
    [TestCase(250, true, 0.001)]
    public void Artefact_OfAnyMovement_IsTheLowPassOfItsAcceleration(double rateHz, bool hasTaps, double error)
    {
        KeyValues values = Busy().Set(OpticsKeys.RateHz, rateHz);
        if (hasTaps)
        {
            values.Set(HandMovementKeys.TapsPerMin, 60).Set(HandMovementKeys.TapG, 2).Set(HandMovementKeys.TypingG, 0.1);
        }

        double[] artefact = Artefact(values, 45, ChannelName.Red);
        double[] tissue = Tissue(values, 45, rateHz);

        // 100 s are 95 strides of 1.9 steps a second.
        double[] steady = Tissue(Reference(), 110, rateHz);
        double gain = Ratio * s_unit / Measure.Rms(steady[(int)(10 * rateHz)..]);

        // The equation starts at rest at 0 s, the stream in full swing: the first second is the difference's.
        double[] differences = [.. artefact.Zip(tissue, (a, t) => a - (gain * t)).Skip((int)rateHz)];
        Assert.That(Measure.Rms(differences) / Measure.Rms(artefact), Is.LessThan(error));
        Assert.That(differences.Max(Math.Abs) / artefact.Max(Math.Abs), Is.LessThan(5 * error));
    }

    // Steps vary by 5 %: power by twice that over the root of the steps, 600 and more in 300 s, and the root by half: four standard errors
    // are 0.9 %. The wander of the cadence moves lines on the flank of the low-pass: less than that.
    [TestCase("walking", "wrist", 100)]
    [TestCase("running", "wrist", 100)]
    [TestCase("walking", "chest", 25)]
    [TestCase("running", "ear", 20)]
    [TestCase("running", "finger", 500)]
    public void Rms_OfSteadyGait_IsTheKnob(string activity, string site, double rateHz)
    {
        KeyValues values = Values().Set(MovementKeys.Activity, activity).Set(SiteKeys.Site, site).Set(OpticsKeys.RateHz, rateHz)
            .Set(MovementKeys.CadenceSpreadHz, 0.02).Set(MovementKeys.StepVariationPercent, 5);
        foreach (ChannelName name in new[] { ChannelName.Red, ChannelName.Infrared })
        {
            double[] artefact = Artefact(values, 300, name);
            Assert.That(Measure.Rms(artefact) / s_unit, Is.EqualTo(Ratio).Within(0.9).Percent, name.ToString());
        }
    }

    // The knob's level is that of the gait that occurs first: twice the acceleration later on is twice the artefact.
    [Test]
    public void Rms_AmplitudeDoublesLater_Doubles()
    {
        KeyValues values = Values().Set(MovementKeys.Activity, "walking").Set(MovementKeys.AmplitudeG, 0.3)
            .SetChanges(MovementKeys.AmplitudeG, [new CourseChange(100, ChangeKind.Step, 0.6, 0)], []);
        double[] artefact = Artefact(values, 200, ChannelName.Red);
        Assert.That(Measure.Rms(artefact[..10_000]) / s_unit, Is.EqualTo(Ratio).Within(1).Percent);
        Assert.That(Measure.Rms(artefact[10_100..]) / s_unit, Is.EqualTo(2 * Ratio).Within(1).Percent);
    }

    // The way from acceleration to absorbance is linear: what tremor adds is the same with and without walking.
    [Test]
    public void Artefact_OfTwoMovements_IsTheSumOfBoth()
    {
        KeyValues walking = Values().Set(MovementKeys.Activity, "walking");
        KeyValues tremor = Values().Set(HandMovementKeys.TremorG, 0.5).Set(HandMovementKeys.TremorHz, 4);
        double[] both = Artefact(walking.Copy().Set(HandMovementKeys.TremorG, 0.5).Set(HandMovementKeys.TremorHz, 4), 30, ChannelName.Red);
        double[] one = Artefact(walking, 30, ChannelName.Red);
        double[] two = Artefact(tremor, 30, ChannelName.Red);
        double[] left = [.. both.Zip(one.Zip(two, (a, b) => a + b), (s, p) => s - p)];

        // Light of some 1500 nA in steps of 0.00024 nA: 2e-7 of the logarithm for each rounding.
        Assert.That(left.Max(Math.Abs), Is.LessThan(1e-6));
        Assert.That(Measure.Rms(two), Is.GreaterThan(0.02 * Measure.Rms(one)));
    }

    // One knob, one change: acceleration and, coupled, light; never the heart, the dark slot or noise.
    [Test]
    public void Tremor_TurnedOn_ChangesAccelerationAndCoupledLightOnly([Values(0.0, 1.0)] double ratio)
    {
        KeyValues without = Settings.Everything().Set(OpticsKeys.MovementArtefactRatio, ratio);
        Recording before = Recording.Of(without, 20);
        Recording after = Recording.Of(without.Copy().Set(HandMovementKeys.TremorG, 0.3), 20);
        foreach (ChannelFormat channel in before.Format.Channels)
        {
            bool mayChange = channel.Name is ChannelName.AccelX or ChannelName.AccelY or ChannelName.AccelZ
                || (ratio > 0 && (channel.Name is ChannelName.Red or ChannelName.Infrared));
            Assert.That(after.Codes(channel.Name).SequenceEqual(before.Codes(channel.Name)), Is.EqualTo(!mayChange), channel.Name.ToString());
        }

        Assert.That(after.TruthText(20), Is.EqualTo(before.TruthText(20)));
    }

    // Slots up to a millisecond apart share one artefact, others have their own: either way the colours see the same within a shift.
    [TestCase(900)]
    [TestCase(2000)]
    public void Artefact_OfLaterSlots_IsTheSameWithinTheirTime(double spacingUs)
    {
        KeyValues values = Values().Set(MovementKeys.Activity, "walking").Set(OpticsKeys.SlotSpacingUs, spacingUs);
        double[] red = Artefact(values, 20, ChannelName.Red);
        double[] infrared = Artefact(values, 20, ChannelName.Infrared);
        double worst = Measure.Less(red, infrared).Max(Math.Abs) / red.Max(Math.Abs);
        Assert.That(worst, spacingUs > 1000 ? Is.InRange(0.005, 0.06) : Is.LessThan(1e-5));
    }

    [Test]
    public void Artefact_AnyCutAndCopy_GivesTheSameBits()
    {
        KeyValues values = Settings.Everything().Set(HandMovementKeys.TapsPerMin, 100).Set(HandMovementKeys.TypingG, 0.1)
            .Set(HandMovementKeys.VehicleGRms, 0.1).Set(HandMovementKeys.TremorG, 0.1).Set(HandMovementKeys.GesturesPerMin, 12)
            .Set(OpticsKeys.RateHz, 75).Set(AccelRate, 52)
            .SetChanges(MovementKeys.Activity, [(7, "running"), (12, "rest"), (15, "walking")])
            .SetChanges(MovementKeys.Posture, [(9, "supine")]);
        Recording whole = Recording.Of(values, 25);
        foreach (long ticks in new long[] { 7, 1000, 123_457 })
        {
            Recording.Of(values, 25, blockTicks: ticks).AssertSameAs(whole, $"blocks of {ticks} ticks");
        }

        var stream = new SensorStream(values, 7, 25);
        Recording head = Recording.OfPart(stream, (long)(8.3 * stream.Format.Clock.TicksPerSecond));
        head.Then(Recording.OfRest(stream.Copy(), 9_999)).AssertSameAs(whole, "copy");
        head.Then(Recording.OfRest(stream, 31)).AssertSameAs(whole, "original");
    }

    [Test]
    public void Read_EveryMovementAfterWarmUp_AllocatesNothing()
    {
        KeyValues values = Busy().Set(OpticsKeys.MovementArtefactRatio, 1).Set(HandMovementKeys.TapsPerMin, 100)
            .Set(HandMovementKeys.TypingG, 0.1).Set(HandMovementKeys.VehicleGRms, 0.1);
        var stream = new SensorStream(values, 7, double.PositiveInfinity);
        var block = new SampleBlock(stream.Format, 500);

        // Long enough that every kind of movement has come by: what is compiled for the first time may allocate.
        for (int i = 1; i < 60; i++)
        {
            stream.Read(block, 500 * i);
        }

        long allocated = Allocations.Least(() =>
        {
            for (int i = 60; i < 240; i++)
            {
                stream.Read(block, stream.PositionTick + 500);
            }
        });

        Assert.That(allocated, Is.Zero);
    }

    private static NumberKey AccelRate => Sensing.Movement.AccelerometerKeys.RateHz;

    // The gait that the busy scenario has first, by itself.
    private static KeyValues Reference() => Values().Set(MovementKeys.Activity, "walking");

    private static double[] Tissue(KeyValues values, double seconds, double rateHz)
    {
        const double Fine = 4000;
        int every = (int)(Fine / rateHz);
        double k = Math.PI * 2 / Fine;
        var x = new double[(int)(seconds * Fine)];
        var z = new double[x.Length];
        var model = new MovementModel(values, 7);
        var grid = new MovementGrid(model, new Signals.Processes.SampleGrid(0, 1 / Fine), hasGravity: false);
        grid.Add(0, x, 0);
        grid.Add(2, z, 0);
        var result = new double[x.Length / every];
        double y = 0;
        double before = (0.6 * x[0]) + z[0];
        for (int i = 0; i < x.Length; i++)
        {
            double now = (0.6 * x[i]) + z[i];
            y = ((y * (1 - k)) + (k * (before + now))) / (1 + k);
            before = now;
            if (i % every == 0)
            {
                result[i / every] = y;
            }
        }

        return result;
    }

    private static double[] Artefact(KeyValues values, double seconds, ChannelName name)
    {
        double[] without = Recording.Of(values, seconds).Physical(name);
        double[] with = Recording.Of(values.Copy().Set(OpticsKeys.MovementArtefactRatio, Ratio), seconds).Physical(name);
        return [.. without.Zip(with, (a, b) => Math.Log(a / b))];
    }
}
