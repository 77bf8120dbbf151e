// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Scheduling;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics.Chain;

/// <summary>LED current, pulse width and gain: at the start, and when they change while running.</summary>
public sealed class LedCurrentTests
{
    private const int Samples = 1000;
    private const int At = 333;

    private static KeyValues Room() => Settings.Fine().Set(AmbientKeys.LevelNa, 300).Set(OpticsKeys.WhiteNoiseNaRms, 0.5);

    // Light in proportion to the current: 20 mA of 1500 nA at 10 mA is what 3000 nA at 10 mA is, to the bit; nothing else changes.
    [Test]
    public void RedMa_Twice_IsTwiceTheRedLightAndNothingElse()
    {
        Recording level = Recording.Of(Room().Set(OpticsKeys.RedNa, 3000), 10);
        Recording current = Recording.Of(Room().Set(OpticsKeys.RedMa, 20), 10);
        current.AssertSameAs(level, "20 mA");
        Assert.That(current.Codes(ChannelName.Red), Is.Not.EqualTo(Recording.Of(Room(), 10).Codes(ChannelName.Red)));
    }

    // A first-order step response from the sample before the change on: 1 − e^(−t/τ) (textbook).
    [TestCase(0)]
    [TestCase(5)]
    [TestCase(40)]
    [TestCase(700)]
    public void LedCurrent_Changed_SettlesAsAFirstOrderStep(double settlingMs)
    {
        KeyValues values = Quiet().Set(OpticsKeys.SettlingMs, settlingMs);
        double[] before = SlotRun.Of(values, ChannelName.Infrared, Samples, []).Analog;
        double[] after = SlotRun.Of(values, ChannelName.Infrared, Samples, [(At, SlotRun.Start with { LedCurrentMa = 4 })]).Analog;
        AssertRatio(before, after, n => 1 - (0.6 * Risen(n, settlingMs)));
    }

    // Window and gain take everything that falls on the photodiode, the room's light too; both together multiply. No flicker: another window
    // averages it differently.
    [TestCase(50, 1)]
    [TestCase(100, 3)]
    [TestCase(80, 2)]
    public void WindowAndGain_Changed_ScaleLedAndRoomAlike(double windowUs, double gain)
    {
        KeyValues values = Quiet().Set(AmbientKeys.LevelNa, 400).Set(AmbientKeys.FlickerPercent, 0).Set(OpticsKeys.SettlingMs, 30);
        ChannelSettings changed = SlotRun.Start with { PulseWidthUs = windowUs, Gain = gain };
        foreach (ChannelName name in new[] { ChannelName.Red, ChannelName.Dark })
        {
            double[] before = SlotRun.Of(values, name, Samples, []).Analog;
            double[] after = SlotRun.Of(values, name, Samples, [(At, changed)]).Analog;
            AssertRatio(before, after, n => 1 + (((windowUs * gain / 100) - 1) * Risen(n, 30)));
        }
    }

    // A second change starts from where the first has got to.
    [Test]
    public void LedCurrent_ChangedWhileSettling_GoesOnFromThere()
    {
        KeyValues values = Quiet().Set(OpticsKeys.SettlingMs, 50);
        double[] before = SlotRun.Of(values, ChannelName.Red, Samples, []).Analog;
        double[] after = SlotRun.Of(
            values, ChannelName.Red, Samples, [(At, SlotRun.Start with { LedCurrentMa = 20 }), (At + 3, SlotRun.Start with { LedCurrentMa = 5 })]).Analog;
        double reached = 1 + Risen(At + 2, 50);
        AssertRatio(before, after, n => n < At + 3 ? 1 + Risen(n, 50) : 0.5 + ((reached - 0.5) * (1 - Risen(n - 3, 50))));
    }

    // White noise is that of the converter: neither gain nor window changes it.
    [Test]
    public void WhiteNoise_UnderGain_StaysThatOfTheConverter()
    {
        ChannelSettings changed = SlotRun.Start with { PulseWidthUs = 50, Gain = 8 };
        double[] plain = Noise([]);
        Assert.That(Noise([(0, changed)]), Is.EqualTo(plain).Within(1e-9));

        static double[] Noise((int, ChannelSettings)[] changes) => Measure.Less(
            SlotRun.Of(Quiet().Set(OpticsKeys.WhiteNoiseNaRms, 2), ChannelName.Red, 500, changes).Analog,
            SlotRun.Of(Quiet(), ChannelName.Red, 500, changes).Analog);
    }

    [Test]
    public void Status_OfEachChange_CountsInTheHighByte()
    {
        SlotRun run = SlotRun.Of(
            Quiet(), ChannelName.Red, 300, [(100, SlotRun.Start with { LedCurrentMa = 20 }), (201, SlotRun.Start with { Gain = 0.5 })]);
        Assert.That(run.Status.Select(s => s >> StatusWord.SettingsShift), Is.EqualTo(Enumerable.Range(0, 300).Select(n => n < 100 ? 0 : n < 201 ? 1 : 2)));
    }

    [Test]
    public void Settling_AnyCutAndCopy_GivesTheSameBits()
    {
        KeyValues values = Settings.Everything().Set(OpticsKeys.SettlingMs, 60).Set(OpticalNoiseKeys.ShotNoise, "on")
            .Set(ContactKeys.LiftOffsPerHour, 360).Set(OpticsKeys.AmplifierFullNa, 3000);
        (int, ChannelSettings)[] changes = [(100, SlotRun.Start with { LedCurrentMa = 33 }), (107, SlotRun.Start with { Gain = 2, PulseWidthUs = 70 })];
        foreach (ChannelName name in new[] { ChannelName.Red, ChannelName.Dark })
        {
            SlotRun whole = SlotRun.Of(values, name, 900, changes, block: 100);
            foreach ((int block, int copyAt) in new[] { (1, -1), (17, 104), (64, 110), (90, 500) })
            {
                SlotRun cut = SlotRun.Of(values, name, 900, changes, block, copyAt);
                Assert.That(cut.Analog, Is.EqualTo(whole.Analog), $"{name}, blocks of {block}");
                Assert.That(cut.Status, Is.EqualTo(whole.Status), $"{name}, blocks of {block}");
            }
        }
    }

    // A channel that is off does not flash.
    [Test]
    public void Decimation_Zero_TurnsTheLedOff()
    {
        SlotRun run = SlotRun.Of(Quiet().Set(AmbientKeys.LevelNa, 50).Set(AmbientKeys.FlickerPercent, 0), ChannelName.Red, 200, [(100, SlotRun.Start with { Decimation = 0 })]);
        Assert.That(run.Analog[..100], Has.All.GreaterThan(1000));
        Assert.That(run.Analog[100..], Has.All.EqualTo(50));
    }

    private static KeyValues Quiet() => Settings.Steady();

    private static double Risen(int sample, double settlingMs)
    {
        double t = (sample - At + 1) * 0.01;
        return sample < At ? 0 : settlingMs == 0 ? 1 : 1 - Math.Exp(-t / (settlingMs * 1e-3));
    }

    private static void AssertRatio(double[] before, double[] after, Func<int, double> ratio)
    {
        for (int n = 0; n < before.Length; n++)
        {
            Assert.That(after[n] / before[n], Is.EqualTo(ratio(n)).Within(1e-10), $"sample {n}");
        }
    }
}
