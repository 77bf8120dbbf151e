// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pulse;
using SensorSim.Body.Subject;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>The green slot: off by default, between infrared and dark when on, with its own light, noise and truth.</summary>
public sealed class GreenSlotTests
{
    private static KeyValues Clean() => Settings.Fine().Set(OpticsKeys.GreenNa, 1200);

    [Test]
    public void Format_WithGreen_HasItBetweenInfraredAndDark()
    {
        StreamFormat format = new SensorStream(Clean().Set(OpticsKeys.SlotSpacingUs, 300), 1, 1).Format;
        Assert.That(format.Channels.Select(c => c.Name.Text()), Is.EqualTo(
            new[] { "ecg", "red", "infrared", "green", "dark", "accel_x", "accel_y", "accel_z" }));
        Assert.That(format.Channels.Select(c => c.DeclaredDelayNs), Is.EqualTo(new long[] { 0, 0, -300_000, -600_000, -900_000, 0, 0, 0 }));
    }

    [Test]
    public void Format_GreenThatComesOnLater_HasTheChannelFromTheStart()
    {
        KeyValues values = new KeyValues().SetChanges(OpticsKeys.GreenNa, [new CourseChange(5, ChangeKind.Step, 700, 0)], []);
        Recording recording = Recording.Of(values, 10);
        double[] green = recording.Physical(ChannelName.Green);

        // Sample 512 is the first 64th one after 5 s.
        Assert.That(green[..512], Has.All.EqualTo(0));
        Assert.That(green[512..], Has.All.InRange(600, 750));
    }

    // One slot more must touch nothing but the dark slot, which moves by a spacing.
    [Test]
    public void GreenNa_On_LeavesEveryOtherChannelAndItsTruthTheSame()
    {
        Recording without = Recording.Of(Settings.Everything(), 30);
        Recording with = Recording.Of(Settings.Everything().Set(OpticsKeys.GreenNa, 900), 30);
        foreach (ChannelFormat channel in without.Format.Channels.Where(c => c.Name != ChannelName.Dark))
        {
            Assert.That(with.Codes(channel.Name), Is.EqualTo(without.Codes(channel.Name)), channel.Name.Text());
        }

        Assert.That(with.TruthText(30).Where(t => !t.StartsWith("Green", StringComparison.Ordinal)), Is.EqualTo(without.TruthText(30)));
    }

    // Light = level × e^(−absorbance) (Beer-Lambert; textbook) at the slot's own instants, with the system's own exponential.
    [Test]
    public void Light_OfACleanPulse_IsTheBodyThroughBeerLambert()
    {
        KeyValues values = Settings.Fine(Settings.Steady()).Set(OpticsKeys.GreenNa, 1200).Set(OpticsKeys.SlotSpacingUs, 1700);
        double[] light = Recording.Of(values, 20).Physical(ChannelName.Green);
        var body = new BodyModel(values, 7);
        List<BeatView> beats = [];
        for (long id = BodyModel.FirstBeatId; body.TryBeat(id, 22, out BeatView beat); id++)
        {
            beats.Add(beat);
        }

        double height = body.SteadyHeight(ChannelName.Green);
        for (int i = 0; i < light.Length; i++)
        {
            double t = (i / 100.0) + 3400e-6;
            PulsePoint point = default;
            foreach (BeatView beat in beats.Where(b => Math.Abs(b.R.Seconds - t) < 6))
            {
                for (int k = 0; k < PulseBeat.Count; k++)
                {
                    beat.Pulse[k].Accumulate(t, ref point);
                }
            }

            double absorbance = (height * point.Value) - body.SteadyFoot(ChannelName.Green);
            Assert.That(light[i], Is.EqualTo(1200 * Math.Exp(-absorbance)).Within(0.001), $"sample {i}");
        }
    }

    // Melanin absorbs 6.6e11 · nm^−3.33 per cm (Jacques, Skin Optics, 1998): green light loses the most, by the ratio of the wavelengths.
    [Test]
    public void Light_OnDarkSkin_LosesMoreGreenThanInfrared()
    {
        KeyValues light = Settings.Fine(Settings.Steady()).Set(OpticsKeys.GreenNa, 1200);
        KeyValues dark = light.Copy().Set(SubjectKeys.SkinTone, 6);
        double green = LogLoss(light, dark, ChannelName.Green);
        double infrared = LogLoss(light, dark, ChannelName.Infrared);
        double expected = Math.Pow(light[OxygenKeys.GreenNm] / light[OxygenKeys.InfraredNm], -3.33);
        Assert.That(green / infrared, Is.EqualTo(expected).Within(0.1).Percent);
    }

    // Independent series: standard error of the correlation 1/√n (textbook).
    [Test]
    public void Noise_OfGreen_IsItsOwnAndOfTheStatedLevel()
    {
        KeyValues clean = Settings.Steady().Set(OpticsKeys.GreenNa, 1200).Set(AmbientKeys.LevelNa, 100);
        Recording without = Recording.Of(clean, 300);
        Recording with = Recording.Of(clean.Copy().Set(OpticsKeys.WhiteNoiseNaRms, 3), 300);
        double[] green = Measure.Less(with.Physical(ChannelName.Green), without.Physical(ChannelName.Green));
        Assert.That(Measure.Rms(green), Is.EqualTo(3).Within(3 * 4 / Math.Sqrt(2.0 * green.Length)));
        foreach (ChannelName name in new[] { ChannelName.Red, ChannelName.Infrared, ChannelName.Dark })
        {
            double[] other = Measure.Less(with.Physical(name), without.Physical(name));
            double r = MathNet.Numerics.Statistics.Correlation.Pearson(green, other);
            Assert.That(r, Is.EqualTo(0).Within(4 / Math.Sqrt(green.Length)), name.Text());
        }
    }

    // Truth + declared delay = device time of what the codes show.
    [TestCase(MarkKind.PulseFootMinimum)]
    [TestCase(MarkKind.SystolicPeak)]
    public void Truth_OfGreen_IsWhereTheCodesTurn(MarkKind kind)
    {
        KeyValues values = Clean().Set(OpticsKeys.RateHz, 1000).Set(OpticsKeys.SlotSpacingUs, 3000).Set(PulseKeys.RespiratoryBaselinePercent, 0);
        Recording recording = Recording.Of(values, 60);
        double[] absorbance = [.. recording.Physical(ChannelName.Green).Select(v => -Math.Log(v))];
        double delay = recording.Channel(ChannelName.Green).DeclaredDelayNs * 1e-9;
        double[] errors =
        [
            .. recording.TruthSeconds(ChannelName.Green, kind).Where(t => t > 0.5 && t < 59)
                .Select(t => Measure.ExtremumSeconds(absorbance, 1000, t + delay, 0.012) - (t + delay)),
        ];
        Assert.That(errors, Has.Length.GreaterThan(55));

        // Truth is within 10 µs; the rest is the rounding of the codes at a flat extremum.
        Assert.That(errors, Has.All.EqualTo(0).Within(30e-6));
    }

    private static double LogLoss(KeyValues light, KeyValues dark, ChannelName name) =>
        Math.Log(Recording.Of(light, 10).Physical(name)[500] / Recording.Of(dark, 10).Physical(name)[500]);
}
