// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pulses;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Pulses;

/// <summary>What is held goes round: where a pulse lies in it must not show, though eight samples at once are only taken where they lie without a break.</summary>
[TestFixture]
public sealed class HeldPlaceTests
{
    [TestCase(100, 3000)]
    [TestCase(100, 4_000_000)]
    [TestCase(190, 60_000)]
    [TestCase(30, 3000)]
    public void Locate_AtAnyPlace_GivesTheSame(int rateHz, int height)
    {
        PulseWindows windows = PulseWindows.ForRate(rateHz);
        int reach = windows.MinimumReach;
        int found = 0;
        for (int choice = 0; choice < CubicFits.Length; choice++)
        {
            var first = new List<int>();
            for (int turn = 0; turn < 256; turn++)
            {
                List<int> here = Answers(windows, choice, reach, Turned(height, rateHz, turn), turn);
                first = turn == 0 ? here : first;
                Assert.That(here, Is.EqualTo(first), $"fit {choice}, turned by {turn}");
            }

            found += first.Count;
        }

        Assert.That(found, Is.EqualTo(7 * CubicFits.Length), "each fit finds the foot");
    }

    [TestCase(2, 0)]
    [TestCase(5, 3)]
    [TestCase(12, 8)]
    public void Find_AtAnyPlace_IsThePlainSum(int arm, int shift)
    {
        const int From = 150;
        const int Back = 40;
        var random = new Random(5113 + arm);
        var samples = new int[256];
        for (int i = 0; i < 256; i++)
        {
            // Some beyond the rail of the differences.
            samples[i] = random.Next(-8000, 8000) << shift;
            samples[i] += i % 41 == 0 ? 100_000 << shift : 0;
        }

        int Value(int at)
        {
            int Clipped(int k) => Math.Clamp((samples[at + k] - samples[at] + ((1 << shift) >> 1)) >> shift, -32_767, 32_767);
            return Enumerable.Range(1, arm).Sum(k => ((3 * k * k) - (arm * (arm + 1))) * (Clipped(k) + Clipped(-k)));
        }

        int expected = Enumerable.Range(0, Back + 1).MaxBy(i => Value(From - i));
        int vertex = Parabola.Vertex256(Value(From - expected - 1), Value(From - expected), Value(From - expected + 1)) - (expected * 256);
        Assert.That(expected, Is.GreaterThan(0), "a maximum inside");
        for (int turn = 0; turn < 256; turn++)
        {
            var held = new Word256();
            for (int i = 0; i < 256; i++)
            {
                held[(i + turn) & 255] = samples[i];
            }

            NoProbe probe = default;
            Assert.That(CurvatureFoot.Find(held, From + turn, Back, arm, shift, ref probe), Is.EqualTo(vertex), $"turned by {turn}");
        }
    }

    private static List<int> Answers(in PulseWindows windows, int choice, int reach, in Word256 held, int turn)
    {
        var locator = new FootLocator();
        locator.Restart(windows);
        return locator.Locate(windows, held, (128 + turn) & 255, choice, reach, isCut: false)
            ? [locator.Foot256, locator.Steepest256, locator.Minimum, locator.MinimumBack, locator.Slope, locator.ShortSlope, locator.ScaleShift]
            : [];
    }

    // A rise of 120 ms round the sample 128, with noise.
    private static Word256 Turned(int height, int rateHz, int turn)
    {
        var random = new Random(5117);
        var held = new Word256();
        for (int i = 0; i < 256; i++)
        {
            double seconds = (i - 128.3) / rateHz;
            double rise = height / (1 + Math.Exp(-seconds / 0.025));
            held[(i + turn) & 255] = (int)(rise + (height * 0.002 * random.NextDouble()) - (height * 0.05 * seconds));
        }

        return held;
    }
}
