// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>Light of the room as the slots see it: illuminance, harmonics of the flicker, shade, hands, lamps that are switched.</summary>
public sealed class AmbientRoomTests
{
    // 500 lx / 310 lm/W = 1.6 W/m² on 7 mm² of 0.35 A/W: 4.0 µA; 1000 W/m² of sun at 100,000 lx on 0.4 A/W: 2.8 mA (own arithmetic;
    // 310 lm/W and 100,000 lx from memory). The knobs' sources quote 7.9 and 28 nA/lux for these.
    [Test]
    public void Illuminance_TimesItsFactor_IsThePhotocurrent()
    {
        KeyValues values = Dark().Set(OpticsKeys.FullScaleNa, 1e6).Set(AmbientKeys.FlickerPercent, 0);
        double lamps = Analog.Of(values.Copy().Set(AmbientKeys.LevelLux, 500).Set(AmbientKeys.NaPerLux, 7.9), 1, ChannelName.Dark)[50];
        double sun = Analog.Of(values.Copy().Set(AmbientChangeKeys.DaylightLux, 100_000).Set(AmbientChangeKeys.DaylightNaPerLux, 28), 1, ChannelName.Dark)[50];
        Assert.That(lamps, Is.EqualTo(500.0 / 310 * 7e-6 * 0.35 * 1e9).Within(0.1).Percent);
        Assert.That(sun, Is.EqualTo(1000 * 7e-6 * 0.4 * 1e9).Within(0.1).Percent);
    }

    // Lux and nA add; daylight does not flicker.
    [Test]
    public void Level_OfLampsAndDaylight_AddsAndOnlyLampsFlicker()
    {
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 250).Set(AmbientKeys.LevelNa, 300).Set(AmbientKeys.LevelLux, 500).Set(AmbientKeys.FlickerPercent, 25)
            .Set(AmbientChangeKeys.DaylightLux, 1000);
        double[] dark = Analog.Of(values, 100, ChannelName.Dark);
        Assert.That(dark.Average(), Is.EqualTo(300 + (500 * 0.2) + (1000 * 0.7)).Within(0.01).Percent);
        Assert.That(Measure.Line(Measure.WithoutMean(dark), 100.06, 250).Magnitude, Is.EqualTo(0.25 * 400).Within(0.1).Percent);
    }

    // Harmonics at 4 and 6 times the mains frequency, in phase, each averaged over the slot by sin(x)/x, x = π f T (textbook).
    [TestCase(10)]
    [TestCase(300)]
    public void FlickerHarmonics_AtFourAndSixTimesTheMains_HaveTheirSizeAndPhase(double windowUs)
    {
        const double Mains = 50.03;
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 1000).Set(OpticsKeys.SlotSpacingUs, windowUs).Set(OpticsKeys.IntegrationUs, windowUs)
            .Set(MainsKeys.FrequencyHz, Mains).Set(AmbientKeys.LevelNa, 1000)
            .Set(AmbientKeys.FlickerPercent, 40).Set(AmbientKeys.FlickerSecondPercent, 30).Set(AmbientKeys.FlickerThirdPercent, 15);
        double[] dark = Measure.WithoutMean(Analog.Of(values, 100, ChannelName.Dark));
        Complex[] lines = [.. new[] { 1, 2, 3 }.Select(k => Measure.Line(dark, 2 * k * Mains, 1000))];
        double[] sizes = [400, 400 * 0.3, 400 * 0.15];
        for (int k = 1; k <= 3; k++)
        {
            double x = Math.PI * 2 * k * Mains * windowUs * 1e-6;
            Assert.That(lines[k - 1].Magnitude, Is.EqualTo(sizes[k - 1] * Math.Sin(x) / x).Within(0.01).Percent, $"harmonic {k}");
            Complex turned = lines[k - 1] / Complex.Pow(lines[0] / lines[0].Magnitude, k);
            Assert.That(turned.Phase, Is.EqualTo(0).Within(2e-4), $"phase of harmonic {k}");
        }
    }

    // One room: the infrared slot 500 µs after the nominal instant sees what a dark slot 500 µs after it sees.
    [Test]
    public void Slots_AtTheSameInstant_SeeTheSameRoom()
    {
        KeyValues values = Room().Set(OpticsKeys.InfraredNa, 0);
        double[] infrared = Analog.Of(values.Copy().Set(OpticsKeys.SlotSpacingUs, 500), 60, ChannelName.Infrared);
        double[] dark = Analog.Of(values.Copy().Set(OpticsKeys.SlotSpacingUs, 250), 60, ChannelName.Dark);
        Assert.That(infrared.Max() - infrared.Min(), Is.GreaterThan(500), "something must happen");
        Assert.That(infrared, Is.EqualTo(dark));
    }

    // Campbell: the mean loss is rate × depth × ∫ (1 − u²)² du × mean half length = rate × depth × 16/15 × 0.45 s. Each candidate
    // counts by itself with half lengths even in 0.15 to 0.75 s: variance of its loss from E[h²] = 0.2325 s².
    [TestCase(3, 5)]
    [TestCase(15, 5)]
    public void Hands_OverALongTime_TakeWhatCampbellSays(double perMin, double depthPercent)
    {
        const double Seconds = 60_000;
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 20).Set(Sensing.Electrodes.EcgAmplifierKeys.RateHz, 50)
            .Set(AmbientChangeKeys.DaylightLux, 1000).Set(AmbientChangeKeys.DaylightNaPerLux, 1)
            .Set(AmbientChangeKeys.HandPerMin, perMin).Set(AmbientChangeKeys.HandDepthPercent, depthPercent);
        double depth = depthPercent / 100;
        double loss = Analog.Of(values, Seconds, ChannelName.Dark).Average(x => 1 - (x / 1000));
        double p = perMin / 30;
        double shape = depth * 16 / 15;
        double expected = perMin / 60 * shape * 0.45;
        double variance = ((p * 0.2325) - (p * p * 0.45 * 0.45)) * shape * shape;
        double error = Math.Sqrt(variance * 2 / Seconds);

        // Shadows multiply where they overlap: neighbours by at most the square of the mean loss of either.
        Assert.That(loss, Is.EqualTo(expected).Within((4 * error) + (2 * expected * expected)));
        Assert.That(2 * expected * expected, Is.LessThan(0.02 * expected));
    }

    // Neither rate nor depth moves a shadow: at a low rate every shadow is one of those at a higher rate.
    [Test]
    public void HandPerMin_Higher_KeepsEveryShadow()
    {
        KeyValues values = Dark().Set(AmbientChangeKeys.DaylightLux, 1000).Set(AmbientChangeKeys.HandDepthPercent, 100);
        double[] few = Analog.Of(values.Copy().Set(AmbientChangeKeys.HandPerMin, 2), 300, ChannelName.Dark);
        double[] many = Analog.Of(values.Copy().Set(AmbientChangeKeys.HandPerMin, 20), 300, ChannelName.Dark);
        Assert.That(few.Zip(many, (f, m) => m <= f), Has.All.True);
        Assert.That(few.Average(), Is.GreaterThan(many.Average() + 50));
        Assert.That(few.Min(), Is.LessThan(20));
    }

    // A hand takes the same share of every light.
    [Test]
    public void Hands_BeforeEachLight_TakeTheSameShare()
    {
        KeyValues hands = Dark().Set(AmbientChangeKeys.HandPerMin, 15);
        double[] daylight = Analog.Of(hands.Copy().Set(AmbientChangeKeys.DaylightLux, 1000).Set(AmbientChangeKeys.DaylightNaPerLux, 1), 60, ChannelName.Dark);
        foreach (NumberKey key in new[] { AmbientKeys.LevelNa, AmbientKeys.PulseWidthLampNa })
        {
            double[] without = Analog.Of(Dark().Set(key, 500), 60, ChannelName.Dark);
            double[] with = Analog.Of(hands.Copy().Set(key, 500), 60, ChannelName.Dark);
            Assert.That(with, Is.EqualTo(without.Zip(daylight, (w, d) => w * d / 1000)).Within(1e-9), key.Name);
        }

        Assert.That(daylight.Min(), Is.LessThan(500));
    }

    // The duration of a shadow: 0.3 to 1.5 s.
    [Test]
    public void Hands_OneByOne_TakeAsLongAsTheySay()
    {
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 200).Set(AmbientChangeKeys.DaylightLux, 1000).Set(AmbientChangeKeys.HandPerMin, 1);
        double[] dark = Analog.Of(values, 3600, ChannelName.Dark);
        var lengths = new List<double>();
        int begin = 0;
        for (int i = 1; i < dark.Length; i++)
        {
            begin = dark[i] != dark[0] && dark[i - 1] == dark[0] ? i : begin;
            if (dark[i] == dark[0] && dark[i - 1] != dark[0])
            {
                lengths.Add((i - begin) / 200.0);
            }
        }

        Assert.That(lengths, Has.Count.InRange(35, 90));
        Assert.That(lengths.Min(), Is.InRange(0.28, 0.45));
        Assert.That(lengths.Max(), Is.InRange(1.3, 1.51));
    }

    // Switched lamps: off with all their flicker, daylight and pulse-width lamp stay.
    [Test]
    public void LampSwitch_Off_TakesTheMainsFedLightOnly()
    {
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 250).Set(AmbientKeys.LevelNa, 500).Set(AmbientKeys.FlickerPercent, 40)
            .Set(AmbientChangeKeys.DaylightLux, 300).Set(AmbientKeys.PulseWidthLampNa, 50)
            .Set(AmbientChangeKeys.LampSwitchPerMin, 12);
        double[] all = Analog.Of(values, 120, ChannelName.Dark);
        double[] steady = Analog.Of(values.Copy().Set(AmbientChangeKeys.LampSwitchPerMin, 0), 120, ChannelName.Dark);
        double[] rest = Analog.Of(values.Copy().Set(AmbientKeys.LevelNa, 0).Set(AmbientChangeKeys.LampSwitchPerMin, 0), 120, ChannelName.Dark);
        int on = all.Zip(steady, (a, s) => Math.Abs(a - s) < 1e-9).Count(x => x);
        int off = all.Zip(rest, (a, r) => Math.Abs(a - r) < 1e-9).Count(x => x);
        Assert.That(on, Is.GreaterThan(3000));
        Assert.That(off, Is.GreaterThan(3000));

        // The rest are edges of 20 ms: five samples each, some two dozen of them.
        Assert.That(all.Length - on - off, Is.InRange(20, 300));
    }

    // The mean current at the latch is what Add gives, flicker and pulses averaged out.
    [Test]
    public void LatchedNa_OfASteadyRoom_IsTheMeanOfTheLight()
    {
        KeyValues values = Dark().Set(OpticsKeys.RateHz, 1000).Set(AmbientKeys.LevelNa, 200).Set(AmbientKeys.LevelLux, 300)
            .Set(AmbientChangeKeys.DaylightLux, 100).Set(AmbientKeys.PulseWidthLampNa, 90);
        double mean = Analog.Of(values, 200, ChannelName.Dark).Average();
        Assert.That(Light(values, new SampleGrid(0, 0.01)).LatchedNa, Is.EqualTo(200 + 60 + 70 + (90 * 0.4)).Within(1e-9));
        Assert.That(Light(values, new SampleGrid(0, 0.01)).LatchedNa, Is.EqualTo(mean).Within(0.02).Percent);
    }

    // With changes it follows them, at every latch.
    [Test]
    public void LatchedNa_OfARestlessRoom_IsTheLightAtThatInstant()
    {
        KeyValues values = Room().Set(AmbientKeys.FlickerPercent, 0);
        double[] dark = Analog.Of(values, 60, ChannelName.Dark);
        SampleGrid grid = OpticalSlots.Grid(values, ChannelName.Dark);
        AmbientLight light = Light(values, grid);
        for (int n = 0; n < dark.Length; n += 64)
        {
            light.Latch(grid.Seconds(n), n / 64);
            Assert.That(light.LatchedNa, Is.EqualTo(dark[n]).Within(1e-9), $"sample {n}");
        }
    }

    // The dark slot of a stream has the room in common with red and infrared: it sees what it would see alone, at its own instants.
    [TestCase(0)]
    [TestCase(5)]
    public void Dark_OfSharedRoom_IsTheRoomOfASlotAlone(double handPerMin)
    {
        KeyValues values = Room().Set(MainsKeys.WanderHz, 0).Set(AmbientKeys.FlickerSecondPercent, 30).Set(AmbientKeys.FlickerThirdPercent, 20)
            .Set(AmbientKeys.PulseWidthLampNa, 50).Set(AmbientChangeKeys.HandPerMin, handPerMin).Set(OpticsKeys.SlotSpacingUs, 2500);
        double[] shared = Analog.Of(values, 120, ChannelName.Dark);
        SampleGrid grid = OpticalSlots.Grid(values, ChannelName.Dark);
        AmbientLight light = Light(values, grid);
        double[] alone = new double[shared.Length];
        for (int n = 0; n < alone.Length; n += 64)
        {
            light.Latch(grid.Seconds(n), n / 64);
            light.Fill(alone.AsSpan(n, Math.Min(64, alone.Length - n)), n);
        }

        // Phases of some 12,000 turns are rounded to 2e-12 of a turn: with its harmonics a flicker of 40 nA moves by some 1e-9 nA.
        Assert.That(alone, Is.EqualTo(shared).Within(1e-8));
        Assert.That(alone.Max(), Is.GreaterThan(2 * alone.Min()));
    }

    // A slot of another length: the share of flicker that is left is that of its own window.
    [Test]
    public void SetIntegration_Longer_AveragesMoreOfTheFlicker()
    {
        KeyValues values = Dark().Set(MainsKeys.FrequencyHz, 60).Set(AmbientKeys.LevelNa, 1000).Set(AmbientKeys.FlickerPercent, 100);
        var grid = new SampleGrid(0, 0.001);
        AmbientLight light = Light(values, grid);
        double[] before = new double[1000];
        Assert.That(light.TryAdd(before, 0, 1));
        AmbientLight other = Light(values, grid);
        other.SetIntegration(1e-3);
        other.Latch(0, 0);
        double[] after = new double[1000];
        Assert.That(other.TryAdd(after, 0, 1));

        // 1 ms keeps 0.9765 of 120 Hz, 100 µs 0.99976 (sin(x)/x, x = π f T; textbook).
        double share = Measure.Line(Measure.WithoutMean(after), 120, 1000).Magnitude / Measure.Line(Measure.WithoutMean(before), 120, 1000).Magnitude;
        Assert.That(share, Is.EqualTo(0.9765 / 0.99976).Within(0.0001));
    }

    // Off is off: rates of 0 leave every bit, whatever depth and ramp say.
    [Test]
    public void Rates_OfZero_ChangeNoBit()
    {
        KeyValues values = Settings.Everything();
        KeyValues with = values.Copy().Set(AmbientChangeKeys.ShadeDepthPercent, 100).Set(AmbientChangeKeys.ShadeRampS, 0.02)
            .Set(AmbientChangeKeys.HandDepthPercent, 100).Set(AmbientKeys.NaPerLux, 5).Set(AmbientChangeKeys.DaylightNaPerLux, 5);
        Recording.Of(with, 20).AssertSameAs(Recording.Of(values, 20), "rates of 0");
    }

    [TestCase(1)]
    [TestCase(17)]
    [TestCase(65536)]
    public void Read_BlocksOfAnyLength_GiveTheSameCodes(long ticks)
    {
        KeyValues values = Settings.InARestlessRoom(Settings.Everything()).Set(OpticsKeys.GreenNa, 500);
        Recording whole = Recording.Of(values, 140);
        Recording.Of(values, 140, blockTicks: ticks).AssertSameAs(whole, $"blocks of {ticks} ticks");
        var stream = new SensorStream(values, 7, 140);
        Recording head = Recording.OfPart(stream, 35_001);
        SensorStream copy = stream.Copy();
        head.Then(Recording.OfRest(stream, 999)).AssertSameAs(whole, "original");
        head.Then(Recording.OfRest(copy, ticks)).AssertSameAs(whole, "copy");
    }

    [Test]
    public void Read_AfterWarmUp_AllocatesNothing()
    {
        KeyValues values = Settings.InARestlessRoom(Settings.Everything());
        long least = long.MaxValue;

        // The compiler itself may allocate, on this thread, when it compiles a way anew: what the stream allocates it does every time.
        for (int round = 0; round < 4; round++)
        {
            var stream = new SensorStream(values, 7, double.PositiveInfinity);
            var block = new SampleBlock(stream.Format, 500);
            stream.Read(block, 500);
            long before = GC.GetAllocatedBytesForCurrentThread();
            for (int i = 0; i < 200; i++)
            {
                stream.Read(block, stream.PositionTick + 500);
                stream.Truth.Clear();
                stream.Acquisition.Clear();
            }

            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        Assert.That(least, Is.Zero);
    }

    [Test]
    public void Truth_InARestlessRoom_StaysTheSameToTheBit() => Assert.That(
        Recording.Of(Settings.InARestlessRoom(Settings.Everything()), 30).TruthText(30),
        Is.EqualTo(Recording.Of(Settings.Everything(), 30).TruthText(30)));

    private static KeyValues Dark() => Settings.Silent();

    private static KeyValues Room() => Dark().Set(OpticsKeys.FullScaleNa, 8192).Set(AmbientKeys.LevelNa, 400)
        .Set(AmbientChangeKeys.DaylightLux, 2000).Set(AmbientChangeKeys.ShadePerMin, 20).Set(AmbientChangeKeys.ShadeRampS, 1)
        .Set(AmbientChangeKeys.HandPerMin, 15).Set(AmbientChangeKeys.LampSwitchPerMin, 10);

    private static AmbientLight Light(KeyValues values, SampleGrid grid)
    {
        var mains = new WanderingPhase(new KeyedRandom(7, "mains.phase"), values[MainsKeys.FrequencyHz], 0, 0.0017, 0.033);
        var light = new AmbientLight(values, 7, mains, grid);
        light.Latch(grid.StartSeconds, 0);
        return light;
    }
}
