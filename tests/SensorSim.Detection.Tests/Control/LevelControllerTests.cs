// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Control;

namespace SensorSim.Detection.Tests.Control;

/// <summary>The level controller around a made-up sensor. Limits are choices of this project.</summary>
[TestFixture]
public sealed class LevelControllerTests
{
    private static readonly LevelSettings s_current = LevelSettings.Current;
    private static readonly LevelSettings s_both = LevelSettings.CurrentAndGain;

    // Any brightness, room light, bend of the LED and delay up to 30 s: it comes to rest, and where it rests is right.
    [TestCase(false, 40)]
    [TestCase(true, 40)]
    [TestCase(false, 300, Category = "Slow")]
    [TestCase(true, 300, Category = "Slow")]
    public void Next_AnySensor_ComesToRestAndStays(bool hasGain, int sensors)
    {
        int inBand = 0;
        for (int seed = 5000; seed < 5000 + sensors; seed++)
        {
            var random = new Random(seed);
            double Log(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
            double[] bright = [Log(20, 100_000), Log(20, 100_000), Log(20, 100_000)];
            double room = random.Next(3) == 0 ? 0 : random.NextDouble() * 70_000;
            double swing = random.NextDouble() * 0.08;
            var light = new MadeUpLight(hasGain ? s_both : s_current, bright)
            {
                Bend = 0.7 + (0.4 * random.NextDouble()),
                DelayS = Log(0.1, 30),
                HasDark = random.Next(2) == 0,
                MostMa = random.Next(4) == 0 ? 40 : 250,
                Room = t => room * (1 + (0.1 * Math.Sin(2 * Math.PI * 50.2 * t))),
                Tissue = t => 1 + (swing * Math.Sin(2 * Math.PI * 0.25 * t)) + (0.02 * Math.Sin(2 * Math.PI * 1.2 * t)),
            };
            light.Run(900);
            int before = light.Requests.Count;
            int changes = light.Changes;
            light.Run(300);
            int late = light.Requests.Count - before;

            // A wish that the sensor cannot follow is repeated now and then; nothing is changed any more.
            Assert.That(light.Changes, Is.EqualTo(changes), $"seed {seed}");
            Assert.That(late, Is.LessThanOrEqualTo(3 * 4), $"seed {seed}");
            Assert.That(before, Is.LessThan(3 * 40), $"seed {seed}: on the way");
            for (int i = 0; i < 3; i++)
            {
                (double level, _) = light.Levels[i];
                bool isAtEnd = light.Ma[i] is <= 0.5 or >= 40;
                bool isBright = room * light.Gain > 0.2 * (MadeUpLight.Top - MadeUpLight.Zero);
                Assert.That(isAtEnd || isBright || level is > 28 and < 72, Is.True, $"seed {seed}, LED {i}: {level} % at {light.Ma[i]} mA");
                inBand += level is > 28 and < 72 ? 1 : 0;
            }
        }

        Assert.That(inBand, Is.GreaterThan(3 * sensors * (hasGain ? 55 : 39) / 100), "the others are at an end of the current or in too much room light");
    }

    // The worst place: a level that lies just outside of the band, with a slow swing across its edge.
    [TestCase(34.9)]
    [TestCase(65.1)]
    public void Next_SwingAcrossTheEdge_IsAnsweredOnce(double percent)
    {
        double codes = percent * (MadeUpLight.Top - MadeUpLight.Zero) / 100;
        var light = new MadeUpLight(s_both, codes / 10) { Tissue = t => 1 + (0.05 * Math.Sin(2 * Math.PI * t / 20)) };
        light.Run(600);

        Assert.That(light.Requests, Has.Count.EqualTo(2), "the start, and one correction into the middle, from where the swing does not reach the edge");
        Assert.That(light.Levels[0].Level, Is.InRange(44, 56));
    }

    [TestCase(0.1)]
    [TestCase(3)]
    [TestCase(9)]
    [TestCase(12)]
    [TestCase(25)]
    public void Next_LateEffect_AsksForTheSameCurrents(double delayS)
    {
        var light = new MadeUpLight(s_current, 1000) { DelayS = delayS };
        light.Run(400);

        // 10,000 of 64,535 codes ask for twice; 20,000 for 20 mA x 32,267 / 20,000. What comes later than 10 s is asked for again, the same.
        Assert.That(light.Requests.Select(r => r.Request.ValueMilli).Distinct(), Is.EqualTo(new[] { 10_000, 20_000, 32_267 }));
        Assert.That(light.Requests, Has.Count.LessThanOrEqualTo(3 + (2 * (int)(delayS / 10))));
    }

    [Test]
    public void Next_RefusedRequest_IsMadeEverMoreSeldom()
    {
        var light = new MadeUpLight(s_current, 1000) { Refuses = true };
        light.Run(400);

        // After 10 and 20 s without an answer 20 mA are taken as set, but the level says that more is wanted, and so on to the end.
        Assert.That(
            light.Requests.Select(r => (r.AtS, r.Request.ValueMilli)),
            Is.EqualTo(new[] { (0.0, 10_000), (1, 20_000), (11, 20_000), (31, 40_000), (71, 40_000), (151, 80_000), (231, 80_000), (311, 100_000), (391, 100_000) }));

        // Once it obeys again, what was lost is made good.
        light.Refuses = false;
        light.Run(600);
        Assert.That(light.Levels[0].Level, Is.InRange(35, 65));
    }

    // Room light of 55 % of the range: without the dark channel it is taken for the LED's and the LED put to its end; with it the LED keeps its share.
    [TestCase(false)]
    [TestCase(true)]
    public void Next_RoomLight_IsToldApartByTheDarkChannel(bool hasDark)
    {
        var light = new MadeUpLight(s_current, 2000) { HasDark = hasDark, Room = _ => 0.55 * (MadeUpLight.Top - MadeUpLight.Zero) };
        light.Run(60);

        (double level, double own) = light.Levels[0];
        Assert.That(own, hasDark ? Is.InRange(15, 35) : Is.LessThan(11));
        Assert.That(level, Is.InRange(55, 90));
    }

    // Room light comes as a step and goes again; each is answered in one step, for the room light is known.
    [Test]
    public void Next_RoomLightComesAndGoes_OneStepEach()
    {
        var light = new MadeUpLight(s_current, 3000) { HasDark = true, Room = t => t is >= 100 and < 200 ? 26_000 : 0 };
        light.Run(100);
        int settled = light.Requests.Count;
        light.Run(100);
        double[] level = [light.Levels[0].Level];
        light.Run(100);

        Assert.That(light.Requests.Count - settled, Is.EqualTo(2));
        Assert.That(level[0], Is.EqualTo(60).Within(4), "50 %, and 10 that room light of 40 % moves the band up; half at most in one step");
        Assert.That(light.Levels[0].Level, Is.InRange(35, 65), "twice the current at most");
    }

    [Test]
    public void Next_DimThenBright_RaisesTheGainAndTakesItBack()
    {
        var light = new MadeUpLight(s_both, 120, 3000);
        light.Run(60);
        Assert.That(light.Gain, Is.EqualTo(2), "12,000 codes at 100 mA are 19 %");
        Assert.That(light.Levels[0].Level, Is.InRange(35, 65));
        Assert.That(light.Levels[1].Level, Is.InRange(35, 65), "the other LED follows the common gain");
        Assert.That(light.Requests.Where(r => r.Request.Setting == ControlSetting.Gain).Select(r => r.Request), Is.EqualTo(new[] { new ControlRequest(ControlRole.AllLight, ControlSetting.Gain, 2000) }));

        light.CodesPerMa[0] = 200_000;
        light.Run(60);
        Assert.That(light.Gain, Is.LessThan(1), "even 0.5 mA is too much at a gain of 1");
        Assert.That(light.Levels[0].Level, Is.InRange(30, 65));
    }

    [Test]
    public void Next_GainThatWouldBlindAnother_IsNotRaised()
    {
        var light = new MadeUpLight(s_both, 120, 50_000);
        light.Run(120);
        Assert.That(light.Requests.Select(r => r.Request.Setting), Has.None.EqualTo(ControlSetting.Gain));
        Assert.That(light.Levels[1].Level, Is.InRange(35, 65));
    }

    [Test]
    public void Next_BrightRoom_LowersTheGainSoThatTheLedHasRoom()
    {
        var light = new MadeUpLight(s_both, 600) { HasDark = true, Room = _ => 0.45 * (MadeUpLight.Top - MadeUpLight.Zero) };
        light.Run(120);
        Assert.That(light.Gain, Is.EqualTo(0.5));
        Assert.That(light.Levels[0].Own, Is.InRange(15, 35));
        Assert.That(light.Levels[0].Level, Is.InRange(35, 65));
    }

    // Sun through trees: 80 % of the range for 12 s, none for 12 s. The gain goes down once and waits for half a quiet minute.
    [Test]
    public void Next_SunAndShade_DoNotTakeTheGainAlong()
    {
        var light = new MadeUpLight(s_both, 100) { HasDark = true, DelayS = 2, Room = t => t < 600 && t % 24 < 12 ? 50_000 : 0 };
        light.Run(600);
        ControlRequest[] gains = [.. light.Requests.Select(r => r.Request).Where(r => r.Setting == ControlSetting.Gain)];
        Assert.That(gains.Select(g => g.ValueMilli), Is.EqualTo(new[] { 500, 250 }));
        light.Run(300);
        Assert.That(light.Gain, Is.GreaterThanOrEqualTo(2), "and comes up again in the shade");
        Assert.That(light.Levels[0].Level, Is.GreaterThan(30));
    }

    [Test]
    public void Next_ClippedLight_IsHalvedUntilItIsNot()
    {
        var light = new MadeUpLight(s_current, 40_000);
        light.Run(60);
        Assert.That(light.Requests.Take(4).Select(r => r.Request.ValueMilli), Is.EqualTo(new[] { 10_000, 5_000, 2_500, 1_250 }));
        Assert.That(light.Levels[0].Level, Is.InRange(35, 65));
    }

    [Test]
    public void Next_ChannelThatIsOff_DecidesNothing()
    {
        var light = new MadeUpLight(s_both, 3000);
        light.Run(30);
        int before = light.Requests.Count;
        light.IsOff = true;
        light.CodesPerMa[0] = 300;
        light.Run(30);
        Assert.That(light.Requests, Has.Count.EqualTo(before));
        light.IsOff = false;
        light.Run(30);
        Assert.That(light.Requests.Count, Is.GreaterThan(before), "and goes on when it is there again");
    }

    [TestCase(24, 8_388_607)]
    [TestCase(4, 15)]
    public void Next_AnyBitsOfTheConverter_GiveTheSameShare(int bits, int top)
    {
        LevelController controller = default;
        controller.Start();
        Assert.That(controller.Add(ControlRole.Green, 1000, 0, top), Is.True);
        var asked = new List<int>();
        for (int i = 0; i <= 1000; i++)
        {
            if (controller.Next(s_current, ControlRole.Green, (int)(top * 0.2001), 0, i))
            {
                asked.Add(controller.Request.ValueMilli);
            }
        }

        Assert.That(asked, Is.EqualTo(new[] { 10_000, 20_000 }), $"a fifth of {bits} bits asks for twice");
    }

    [Test]
    public void Add_ChannelThatCannotBeWatched_IsLeftAlone()
    {
        LevelController controller = default;
        controller.Start();
        Assert.That(controller.Add(ControlRole.Red, 2001, 0, 1000), Is.False);
        Assert.That(controller.Add(ControlRole.Infrared, 100, 1000, 1000), Is.False);
        Assert.That(controller.Add(ControlRole.AllLight, 100, 0, 1000), Is.False);
        Assert.That(controller.Next(s_current, ControlRole.Red, 500, 0, 0), Is.False);
        Assert.That(controller.Next(s_current, ControlRole.AllLight, 500, 0, 0), Is.False);
        Assert.That(controller.Next(s_current, ControlRole.Dark, 500, 0, 0), Is.False);
    }

    [Test]
    public void Controllers_State_TakesAFewWords()
    {
        int bytes = Unsafe.SizeOf<LevelController>() + Unsafe.SizeOf<PowerController>()
            + Unsafe.SizeOf<Detection.Pressure.PressureEstimator>() + Unsafe.SizeOf<Detection.Pressure.PressureTrend>();
        Assert.That(bytes, Is.LessThanOrEqualTo(400));
    }
}
