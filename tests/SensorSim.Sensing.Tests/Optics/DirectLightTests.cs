// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Pulse;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Clean codes against the body evaluated directly in continuous time, with the system's own exponential.</summary>
public sealed class DirectLightTests
{
    private const int Seconds = 40;

    // Light = level × e^(−absorbance) (Beer-Lambert; textbook), taken at the slot's own instants.
    [TestCase(ChannelName.Red, 2.0, 0.5)]
    [TestCase(ChannelName.Infrared, 2.0, 0.5)]
    [TestCase(ChannelName.Red, 20.0, 3.0)]
    public void Light_OfACleanPulse_IsTheBodyThroughBeerLambert(ChannelName name, double percent, double ratio)
    {
        KeyValues values = Settings.Fine().Set(PulseKeys.PerfusionIndexPercent, percent).Set(PulseKeys.RatioOfRatios, ratio)
            .Set(OpticsKeys.SlotSpacingUs, 1700).Set(AmbientKeys.LevelNa, 50).Set(AmbientKeys.FlickerPercent, 0);
        Recording recording = Recording.Of(values, Seconds);
        var body = new BodyModel(values, 7);
        List<BeatView> beats = Beats(body);
        double height = Math.Log((1 + (percent / 200)) / (1 - (percent / 200))) * (name == ChannelName.Red ? ratio : 1);
        double level = name == ChannelName.Red ? 1500 : 2000;
        double offset = name == ChannelName.Red ? 0 : 1700e-6;
        double[] light = recording.Physical(name);
        for (int i = 0; i < light.Length; i++)
        {
            double t = (i / 100.0) + offset;
            PulsePoint point = default;
            foreach (BeatView beat in beats.Where(b => Math.Abs(b.R.Seconds - t) < 6))
            {
                for (int k = 0; k < PulseBeat.Count; k++)
                {
                    beat.Pulse[k].Accumulate(t, ref point);
                }
            }

            double absorbance = (height * (point.Value + (0.05 * body.Breathing.Depth(t)))) - body.SteadyFoot(name);

            // Half a code is 0.00012 nA; components are cut where they are a hundred-millionth; breathing's phase is straight over 0.64 s.
            Assert.That(light[i], Is.EqualTo((level * Math.Exp(-absorbance)) + 50).Within(0.001 * percent), $"sample {i}");
        }
    }

    [Test]
    public void Ecg_OfACleanHeart_IsTheSumOfTheWaves()
    {
        KeyValues values = Settings.Fine();
        double[] ecg = Recording.Of(values, Seconds).Physical(ChannelName.Ecg);
        List<BeatView> beats = Beats(new BodyModel(values, 7));
        for (int i = 0; i < ecg.Length; i++)
        {
            double value = 0;
            double ignored = 0;
            foreach (BeatView beat in beats.Where(b => Math.Abs(b.R.Seconds - (i / 250.0)) < 2))
            {
                for (int k = 0; k < EcgBeat.Count; k++)
                {
                    beat.Ecg[k].Accumulate(i / 250.0, ref value, ref ignored, ref ignored);
                }
            }

            // Half a code is 0.3 nV.
            Assert.That(ecg[i], Is.EqualTo(value).Within(1e-6), $"sample {i}");
        }
    }

    private static List<BeatView> Beats(BodyModel body)
    {
        List<BeatView> beats = [];
        for (long id = BodyModel.FirstBeatId; body.TryBeat(id, Seconds + 2, out BeatView beat); id++)
        {
            beats.Add(beat);
        }

        return beats;
    }
}
