// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;

namespace SensorSim.Detection.Tests.Ambient;

/// <summary>Whether a dark slot that sees the heart is told from one that sees a lamp.</summary>
/// <remarks>
/// Light that went through blood is level · e^(−A) (Beer-Lambert, textbook), whatever its source: light of the room through the finger, and light of the slot before, follow the LED's by a fixed
/// share. Of a lamp x, subtraction with slots τ apart leaves x(t + τ) − x(t) (the difference itself).
/// </remarks>
[TestFixture]
public sealed class RoomPulseTests
{
    private const int RateHz = 100;
    private const double Level = 100_000;
    private const double Perfusion = 0.02;
    private const double Apart = 250e-6;

    [TestCase(0.3, 1.1)]
    [TestCase(0.75, 0.8)]
    [TestCase(0.75, 1.1)]
    [TestCase(0.75, 2.5)]
    [TestCase(2, 1.1)]
    [TestCase(8, 1.9)]
    public void Length_RoomThatShinesThroughTheFinger_IsNone(double share, double beatHz)
    {
        List<int> through = Lengths(60, t => share * Light(t, beatHz), t => Light(t, beatHz));
        List<int> beside = Lengths(60, t => share * Light(t, beatHz), _ => Level);
        Assert.That(beside[100..], Is.All.GreaterThan(0), "an even cycle all the same");
        Assert.That(through[100..], Is.All.Zero);
    }

    // A room whose light pulsates by another share of itself than the LED's, as another colour does.
    [TestCase(0.4)]
    [TestCase(1.5)]
    public void Length_RoomOfAnotherColour_IsNone(double relative)
    {
        List<int> lengths = Lengths(60, t => Level * (1 + (relative * ((Light(t, 1.1) / Level) - 1))), t => Light(t, 1.1));
        Assert.That(lengths[100..], Is.All.Zero);
    }

    // 30 dB: the noise of both slots a thirtieth of the pulse's (foot-to-peak / 2√2) over it.
    [TestCase(9301)]
    [TestCase(9302)]
    public void Length_RoomThroughTheFingerInNoise_IsHardlyEverThere(int seed)
    {
        var random = new Random(seed);
        double noise = Level * Perfusion / 2.83 / 31.6;
        List<int> lengths = Lengths(300, t => Light(t, 1.1) + (noise * Normal(random)), t => Light(t, 1.1) + (noise * Normal(random)));
        Assert.That(lengths[100..].Count(l => l > 0), Is.LessThan(30));
    }

    // Of a lamp, the part that is left never goes the lamp's own way, however far the slots are apart: r(τ) − r(0) is never above 0.
    [TestCase(100.6, 1.1, Apart, 1.0)]
    [TestCase(101.3, 1.1, Apart, 1.0)]
    [TestCase(101.1, 1.1, Apart, 1.0)]
    [TestCase(101.1, 1.1, Apart, 8.0)]
    [TestCase(101.1, 1.1, 5e-3, 0.5)]
    [TestCase(101.1, 1.1, 5e-3, 4.0)]
    [TestCase(102.2, 1.1, 2e-3, 2.0)]
    [TestCase(103.7, 1.9, 1e-3, 2.0)]
    [TestCase(2000.8, 0.8, Apart, 2.0)]
    public void Length_LampBesideTheHeart_IsThereAsWithoutIt(double lineHz, double beatHz, double apart, double pulses)
    {
        double Lamp(double t) => pulses * Level * Perfusion * Math.Sin((2 * Math.PI * lineHz * t) + 1);
        List<int> alone = Lengths(60, Lamp, _ => Level);
        List<int> beside = Lengths(60, Lamp, t => Light(t, beatHz) + Lamp(t + apart) - Lamp(t));
        Assert.That(alone[100..].Count(l => l > 0), Is.GreaterThan(450));
        Assert.That(beside, Is.EqualTo(alone));
    }

    [TestCase(201.1, 0.4)]
    [TestCase(401.7, 0.25)]
    [TestCase(898.8, 0.7)]
    public void Length_SwitchedLampBesideTheHeart_IsThereAsWithoutIt(double lampHz, double duty)
    {
        double Lamp(double t) => (t * lampHz) - Math.Floor(t * lampHz) < duty ? Level * Perfusion : 0;
        List<int> alone = Lengths(60, Lamp, _ => Level);
        List<int> beside = Lengths(60, Lamp, t => Light(t, 1.2) + Lamp(t + Apart) - Lamp(t));
        Assert.That(alone[100..].Count(l => l > 0), Is.GreaterThan(200));
        Assert.That(beside, Is.EqualTo(alone));
    }

    // Three cycles and one that begins them, after those in which what it knew of the heart is gone.
    [Test]
    public void Length_LampAfterTheHeart_IsThereWithinEightSeconds()
    {
        double Lamp(double t) => t < 20 ? 0 : 3 * Level * Perfusion * Math.Sin(2 * Math.PI * 101.3 * t);
        List<int> lengths = Lengths(40, t => t < 20 ? Light(t, 1.1) : Lamp(t), t => Light(t, 1.1) + Lamp(t + Apart) - Lamp(t));
        Assert.That(lengths[100..200], Is.All.Zero);
        Assert.That(lengths.FindIndex(200, l => l > 0), Is.InRange(200, 280));
        Assert.That(lengths[280..], Is.All.GreaterThan(0));
    }

    // Codes at both ends of 24 bits, in both directions.
    [TestCase(1)]
    [TestCase(-1)]
    public void Length_FullScale_DoesNotWrap(int way)
    {
        double Square(double t) => ((1 << 24) - 1) * Math.Sign(Math.Sin(2 * Math.PI * 1.3 * t));
        List<int> lengths = Lengths(30, Square, t => way * Square(t));
        Assert.That(lengths[100..], way > 0 ? Is.All.Zero : Is.All.GreaterThan(0));
    }

    // A pulse like a finger's: a quick rise, a slow fall with a second wave in it.
    private static double Light(double seconds, double beatHz)
    {
        double phase = (seconds * beatHz) - Math.Floor(seconds * beatHz);
        double rise = phase < 0.15 ? 0.5 - (0.5 * Math.Cos(Math.PI * phase / 0.15)) : Math.Exp(-(phase - 0.15) / 0.3);
        double second = 0.12 * Math.Exp(-Math.Pow((phase - 0.45) / 0.07, 2));
        return Level * Math.Exp(-Perfusion * (rise + second));
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static List<int> Lengths(double seconds, Func<double, double> darkAt, Func<double, double> lightAt)
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(RateHz, RateHz, 0, 0, 0), Is.True);
        var lengths = new List<int>();
        int sample = 0;
        for (int tenth = 1; tenth <= seconds * 10; tenth++)
        {
            for (; sample * 10 < tenth * RateHz; sample++)
            {
                stage.Dark((int)Math.Round(darkAt((double)sample / RateHz)));
            }

            stage.Tenth((int)Math.Round(lightAt((double)(sample - 1) / RateHz)));
            lengths.Add(stage.Cycle16);
        }

        return lengths;
    }
}
