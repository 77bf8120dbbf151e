// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Bedrock;

/// <summary>
/// A live knob acts from the next 64th sample of each channel on: before it the codes are those of the old value, from it on those of the
/// new one, to the bit. A definition of this project.
/// </summary>
public sealed class LiveKnobTests
{
    private const double Seconds = 16;

    // Every channel has its next 64th sample more than 32 samples later: half the distance would show.
    private const double StepSeconds = 6.497;

    private static readonly NoiseRecording s_recording = new([.. Enumerable.Range(0, 700).Select(i => Math.Sin(i * 0.37))], 200);

    private static readonly ChannelName[] s_ecg = [ChannelName.Ecg];
    private static readonly ChannelName[] s_lit = [ChannelName.Red, ChannelName.Infrared, ChannelName.Green];
    private static readonly ChannelName[] s_slots = [.. s_lit, ChannelName.Dark];
    private static readonly ChannelName[] s_axes = [ChannelName.AccelX, ChannelName.AccelY, ChannelName.AccelZ];

    // What a change of these leaves behind goes on: only what comes after follows it. Tested with the electrodes.
    private static readonly KeyDefinition[] s_withMemory =
    [
        ElectrodeKeys.OffsetDriftUvPerS, ElectrodeKeys.StepsPerMin, ElectrodeKeys.StepMvRms, ElectrodeKeys.PopsPerMin, ElectrodeKeys.PopMvRms,
        ElectrodeKeys.Off, ElectrodeKeys.ContactLossPerH, ElectrodeKeys.ContactLossS, ElectrodeKeys.OverloadPerH,
    ];

    // Mains on the body, and a third electrode that leaves something of it.
    private static KeyValues Base() => Settings.InARestlessRoom(Settings.Fine(Settings.Everything())).Set(OpticsKeys.GreenNa, 900)
        .Set(MainsKeys.BodyCouplingPf, 3).Set(ElectrodeKeys.Third, "passive")
        .Set(EcgNoiseKeys.MuscleBurstPerMin, 30).Set(EcgNoiseKeys.SharpMotionPerMin, 90)
        .Attach(EcgNoiseKeys.RecordingFile, s_recording).Attach(RecordedLightKeys.File, s_recording);

    private static IEnumerable<TestCaseData> Knobs()
    {
        yield return Case(EcgAmplifierKeys.WhiteNoiseUvRms, 0, 80, s_ecg);
        yield return Case(EcgAmplifierKeys.BaselineWanderMvRms, 0.1, 0.4, s_ecg);
        yield return Case(EcgAmplifierKeys.BreathingBaselineMv, 0.15, 0, s_ecg);
        yield return Case(EcgAmplifierKeys.MainsUvPp, 0, 500, s_ecg);
        yield return Case(EcgAmplifierKeys.MainsSecondPercent, 10, 50, s_ecg);
        yield return Case(EcgAmplifierKeys.MainsThirdPercent, 20, 0, s_ecg);
        yield return Case(EcgAmplifierKeys.FlickerNoiseUvRms, 0, 40, s_ecg);
        yield return Case(ElectrodeKeys.OffsetMv, 0, 1.5, s_ecg);
        yield return Case(ElectrodeKeys.ImpedancePositiveKohm, 30, 100, s_ecg);
        yield return Case(ElectrodeKeys.ImpedanceNegativeKohm, 20, 0, s_ecg);
        yield return Case(ElectrodeKeys.ImpedanceThirdKohm, 30, 300, s_ecg);
        yield return Case(MainsKeys.BodyCouplingPf, 0, 6, s_ecg);
        yield return Case(MainsKeys.LeadCouplingPf, 0, 0.1, s_ecg);
        yield return Case(MainsKeys.ModulationPercent, 0, 60, s_ecg);
        yield return Case(EcgNoiseKeys.WhiteNoiseSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.BaselineWanderSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.MainsSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.MuscleUvRms, 0, 80, s_ecg);
        yield return Case(EcgNoiseKeys.MuscleSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.MuscleBurstUvRms, 0, 80, s_ecg);
        yield return Case(EcgNoiseKeys.MuscleBurstSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.SlowMotionUvRms, 0, 80, s_ecg);
        yield return Case(EcgNoiseKeys.SlowMotionSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.SharpMotionUvRms, 0, 80, s_ecg);
        yield return Case(EcgNoiseKeys.SharpMotionSnrDb, 30, 10, s_ecg);
        yield return Case(EcgNoiseKeys.RecordingUvRms, 0, 80, s_ecg);
        yield return Case(EcgNoiseKeys.RecordingSnrDb, 30, 10, s_ecg);
        yield return Case(OpticsKeys.RedNa, 1500, 700, [ChannelName.Red]);
        yield return Case(OpticsKeys.InfraredNa, 2000, 2500, [ChannelName.Infrared]);
        yield return Case(OpticsKeys.GreenNa, 900, 400, [ChannelName.Green]);
        yield return Case(OpticsKeys.WhiteNoiseNaRms, 0, 3, s_slots);
        yield return Case(OpticsKeys.WhiteNoiseSnrDb, 30, 10, s_lit);
        yield return Case(TissueArtefactKeys.CoherencePercent, 100, 30, s_lit);
        yield return Case(OpticsKeys.MovementArtefactRatio, 1, 4, s_lit);
        yield return Case(ContactKeys.ContactPercent, 100, 80, s_slots);
        yield return Case(ContactKeys.PressureMmhg, 20, 60, s_lit);
        yield return Case(RecordedLightKeys.NaRms, 0, 30, s_lit);
        yield return Case(RecordedLightKeys.SnrDb, 30, 10, s_lit);
        yield return Case(AmbientKeys.LevelNa, 300, 50, s_slots);
        yield return Case(AmbientKeys.FlickerPercent, 10, 40, s_slots);
        yield return Case(AmbientKeys.LevelLux, 0, 900, s_slots);
        yield return Case(AmbientKeys.FlickerSecondPercent, 0, 40, s_slots);
        yield return Case(AmbientKeys.FlickerThirdPercent, 20, 40, s_slots);
        yield return Case(AmbientChangeKeys.DaylightLux, 100, 900, s_slots);
        yield return Case(AmbientChangeKeys.ShadeDepthPercent, 80, 30, s_slots);
        yield return Case(AmbientChangeKeys.HandDepthPercent, 0, 60, s_slots);
        yield return Case(AmbientKeys.PulseWidthLampNa, 0, 90, s_slots);
        yield return Case(AmbientKeys.PulseWidthDutyPercent, 40, 80, s_slots);
        yield return Case(AccelerometerKeys.NoiseUgPerRthz, 150, 900, s_axes);
        yield return Case(PulseKeys.RespiratoryBaselinePercent, 5, 30, s_lit);
    }

    [Test]
    public void Knobs_Here_AreAllTheLiveOnesOfTheSensor() => Assert.That(
        Knobs().Select(k => ((NumberKey)k.Arguments[0]!).Name),
        Is.EquivalentTo(SensingKeys.All.Where(k => k.IsLive).Except(s_withMemory).Select(k => k.Name).Append(PulseKeys.RespiratoryBaselinePercent.Name)));

    [TestCaseSource(nameof(Knobs))]
    public void Step_OfOneKnob_ActsFromTheNextLatchOnAndNowhereElse(NumberKey key, double before, double after, ChannelName[] channels)
    {
        Recording old = Recording.Of(Base().Set(key, before), Seconds);
        Recording changed = Recording.Of(Base().Set(key, after), Seconds);
        Recording stepped = Recording.Of(Stepped(Base().Set(key, before), key, after), Seconds);
        foreach (ChannelFormat channel in stepped.Format.Channels)
        {
            string name = channel.Name.Text();
            int latch = FirstLatch(channel, StepSeconds);
            int[] expected = channels.Contains(channel.Name)
                ? [.. old.Codes(channel.Name)[..latch], .. changed.Codes(channel.Name)[latch..]]
                : old.Codes(channel.Name);
            Assert.That(stepped.Codes(channel.Name), Is.EqualTo(expected), name);
            if (channels.Contains(channel.Name))
            {
                Assert.That(stepped.Codes(channel.Name)[latch..], Is.Not.EqualTo(old.Codes(channel.Name)[latch..]), $"{name} must change");
            }
        }

        Assert.That(stepped.TruthText(Seconds), Is.EqualTo(old.TruthText(Seconds)));
    }

    // A ratio that is not given is no noise at all, also when the scenario gives it later.
    [Test]
    public void WhiteNoiseSnrDb_GivenLater_AddsNothingBefore()
    {
        KeyValues values = Settings.Fine();
        Recording without = Recording.Of(values, Seconds);
        Recording given = Recording.Of(Stepped(values.Copy(), OpticsKeys.WhiteNoiseSnrDb, 10), Seconds);
        Recording with = Recording.Of(values.Copy().Set(OpticsKeys.WhiteNoiseSnrDb, 10), Seconds);
        int latch = FirstLatch(given.Channel(ChannelName.Infrared), StepSeconds);
        Assert.That(
            given.Codes(ChannelName.Infrared),
            Is.EqualTo((int[])[.. without.Codes(ChannelName.Infrared)[..latch], .. with.Codes(ChannelName.Infrared)[latch..]]));
    }

    // The artefact comes in late and differs from one that was always there by what two seconds of tissue forget: nothing to see in 24 bits.
    [Test]
    public void MovementArtefactRatio_FromNothing_ActsFromTheNextLatchOn()
    {
        Recording old = Recording.Of(Base().Set(OpticsKeys.MovementArtefactRatio, 0), Seconds);
        Recording changed = Recording.Of(Base().Set(OpticsKeys.MovementArtefactRatio, 2), Seconds);
        Recording stepped = Recording.Of(Stepped(Base().Set(OpticsKeys.MovementArtefactRatio, 0), OpticsKeys.MovementArtefactRatio, 2), Seconds);
        foreach (ChannelName name in s_lit)
        {
            int latch = FirstLatch(stepped.Channel(name), StepSeconds);
            Assert.That(stepped.Codes(name), Is.EqualTo((int[])[.. old.Codes(name)[..latch], .. changed.Codes(name)[latch..]]), name.Text());
        }
    }

    // A ramp in stairs of 64 samples: the dark slot under steady light shows the knob itself.
    [Test]
    public void Ramp_OfAmbientLight_IsTheLineAtEvery64thSample()
    {
        KeyValues values = Settings.Fine().Set(AmbientKeys.LevelNa, 100).Set(AmbientKeys.FlickerPercent, 0)
            .SetChanges(AmbientKeys.LevelNa, [new CourseChange(2.05, ChangeKind.Ramp, 900, 10)], []);
        Recording recording = Recording.Of(values, Seconds);
        double[] dark = recording.Physical(ChannelName.Dark);
        double halfCode = 0.51 * recording.Channel(ChannelName.Dark).UnitPerCode;
        for (int n = 0; n < dark.Length; n++)
        {
            double t = (n / 64 * 64 / 100.0) + 500e-6;
            double expected = 100 + (800 * Math.Clamp((t - 2.05) / 10, 0, 1));
            Assert.That(dark[n], Is.EqualTo(expected).Within(halfCode), $"sample {n}");
        }
    }

    private static TestCaseData Case(NumberKey key, double before, double after, ChannelName[] channels) =>
        new TestCaseData(key, before, after, channels).SetArgDisplayNames(key.Name);

    private static KeyValues Stepped(KeyValues values, NumberKey key, double after) =>
        values.SetChanges(key, [new CourseChange(StepSeconds, ChangeKind.Step, after, 0)], []);

    // Counted out, not computed: the first of the samples 0, 64, 128 ... that is taken at or after the time.
    private static int FirstLatch(ChannelFormat channel, double seconds)
    {
        int sample = 0;
        while ((sample / (double)channel.RateHz) - (channel.DeclaredDelayNs * 1e-9) < seconds)
        {
            sample += 64;
        }

        return sample;
    }
}
