// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;

namespace SensorSim.Detection.Tests.Ambient;

/// <summary>Whether a lamp that the sampling makes slow is seen as what it is, and nothing else is.</summary>
[TestFixture]
public sealed class RoomCycleTests
{
    private const double Amplitude = 5000;

    // A line at f shows at |f − round(f / fs) fs| (sampling theorem, textbook): one cycle lasts as long as one of that. In the mean,
    // that is: at 4 Hz there are two and a half looks a cycle, and the straight line between two of them is off by a few per cent to either side.
    [TestCase(100, 101.3, 1.3)]
    [TestCase(100, 100.6, 0.6)]
    [TestCase(100, 100.3, 0.3)]
    [TestCase(128, 513.3, 1.3)]
    [TestCase(100, 2000.8, 0.8)]
    [TestCase(25, 101.9, 1.9)]
    [TestCase(500, 2002.8, 2.8)]
    [TestCase(100, 102.8, 2.8)]
    [TestCase(100, 104, 4)]
    public void Length_LineThatFoldsToASlowOne_IsThatOfTheFoldedLine(int rateHz, double lineHz, double foldedHz)
    {
        Assert.That(Math.Abs(lineHz - (Math.Round(lineHz / rateHz) * rateHz)), Is.EqualTo(foldedHz).Within(1e-6), "the case itself");
        List<int> lengths = Lengths(rateHz, 50, t => Amplitude * Math.Sin(2 * Math.PI * lineHz * t));
        double expected = 160 / foldedHz;
        List<int> late = lengths[200..];
        Assert.That(late.Count(l => l == 0), Is.LessThanOrEqualTo(late.Count / 10), "seen nearly all the time");
        Assert.That(late.Where(l => l > 0).Average(), Is.EqualTo(expected).Within(3).Percent);
    }

    // A pulse is told after five at the earliest; three even cycles of 1.3 Hz and one that begins them are over by then.
    [Test]
    public void Length_SwitchedLampAt513Hz_IsKnownWithinFourSeconds()
    {
        List<int> lengths = Lengths(128, 6, t => (t * 513.3) - Math.Floor(t * 513.3) < 0.4 ? Amplitude : 0);
        Assert.That(lengths.FindIndex(l => l > 0), Is.InRange(20, 40));
    }

    // Folded to more than 5 Hz a line is slow only because tenths of a second are far apart; below 0.2 Hz it is no pulse and no breath.
    [TestCase(100, 106.3)]
    [TestCase(100, 108)]
    [TestCase(100, 109.3)]
    [TestCase(100, 112.7)]
    [TestCase(100, 120.4)]
    [TestCase(128, 139)]
    [TestCase(100, 100.06)]
    [TestCase(100, 100.15)]
    public void Length_LineThatFoldsElsewhere_IsNone(int rateHz, double lineHz)
    {
        List<int> lengths = Lengths(rateHz, 60, t => Amplitude * Math.Sin(2 * Math.PI * lineHz * t));
        Assert.That(lengths, Is.All.Zero);
    }

    // 20 Hz is 2 Hz at ten looks a second: of the tenth's mean nothing is left.
    [Test]
    public void Length_FastLineBesideASlowOneATenthAsLarge_IsNone()
    {
        List<int> lengths = Lengths(100, 60, t => Amplitude * (Math.Sin(2 * Math.PI * 120 * t) + (0.1 * Math.Sin(2 * Math.PI * 101.2 * t))));
        Assert.That(lengths, Is.All.Zero);
    }

    [Test]
    public void Length_SteadyRoom_IsNone() => Assert.That(Lengths(100, 60, _ => Amplitude), Is.All.Zero);

    [TestCase(7301)]
    [TestCase(7302)]
    public void Length_WhiteNoise_IsHardlyEverThere(int seed)
    {
        var random = new Random(seed);
        List<int> lengths = Lengths(100, 3600, _ => Amplitude * (random.NextDouble() - 0.5));
        Assert.That(lengths.Count(l => l > 0), Is.LessThan(lengths.Count / 1000));
    }

    // Lamps go on or off by chance twelve times a minute: uneven.
    [TestCase(7311)]
    [TestCase(7312)]
    public void Length_LampsThatAreSwitched_IsHardlyEverThere(int seed)
    {
        var random = new Random(seed);
        bool isOn = true;
        List<int> lengths = Lengths(100, 3600, _ =>
        {
            isOn = random.NextDouble() < 0.002 ? !isOn : isOn;
            return isOn ? Amplitude : 0;
        });
        Assert.That(lengths.Count(l => l > 0), Is.LessThan(lengths.Count / 200));
    }

    [Test]
    public void Length_LampThatGoesOff_IsForgottenWithinASecondAndACycle()
    {
        List<int> lengths = Lengths(100, 20, t => t < 10 ? Amplitude * Math.Sin(2 * Math.PI * 101.3 * t) : 0);
        Assert.That(lengths[99], Is.GreaterThan(0));
        Assert.That(lengths[150..], Is.All.Zero);
    }

    [Test]
    public void Length_DarkSlotTooSlowForATenth_IsNone() =>
        Assert.That(Lengths(10, 60, t => Amplitude * Math.Sin(2 * Math.PI * t)), Is.All.Zero);

    // Codes at both ends of 24 bits.
    [Test]
    public void Length_FullScale_DoesNotWrap()
    {
        List<int> lengths = Lengths(100, 30, t => ((1 << 24) - 1) * Math.Sign(Math.Sin(2 * Math.PI * 1.3 * t)));
        Assert.That(lengths[100..].Where(l => l > 0).Average(), Is.EqualTo(160 / 1.3).Within(3).Percent);
    }

    private static List<int> Lengths(int rateHz, double seconds, Func<double, double> roomAt)
    {
        var stage = new DarkSubtraction();
        Assert.That(stage.Start(rateHz, rateHz, 0, 0, 0), Is.True);
        var lengths = new List<int>();
        int sample = 0;
        for (int tenth = 1; tenth <= seconds * 10; tenth++)
        {
            for (; sample * 10 < tenth * rateHz; sample++)
            {
                stage.Dark((int)Math.Round(roomAt((double)sample / rateHz)));
            }

            stage.Tenth(0);
            lengths.Add(stage.Cycle16);
        }

        return lengths;
    }
}
