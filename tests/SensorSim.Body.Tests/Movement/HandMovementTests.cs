// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Movement;

/// <summary>Typing, gestures, tremor, taps and a vehicle: sizes, rates, spectra.</summary>
public sealed class HandMovementTests
{
    private const double StandardGravity = 9.80665;

    // A sine of A metres at f has a peak of (2π f)² A / g0: 0.1 mm at 10 Hz 0.040 g, 1 cm at 5 Hz 1.006 g (calculated).
    [TestCase(10, 0.0001, 0.040)]
    [TestCase(5, 0.01, 1.006)]
    public void Tremor_OfAWayAndAFrequency_HasItsAcceleration(double hertz, double metres, double tremorG)
    {
        Assert.That(tremorG, Is.EqualTo(Math.Pow(2 * Math.PI * hertz, 2) * metres / StandardGravity).Within(0.0006));
        KeyValues values = new KeyValues().Set(HandMovementKeys.TremorG, tremorG).Set(HandMovementKeys.TremorHz, hertz);

        // Power of the way along the main direction: each bin over (2π f)^4. A Gaussian of half a second's memory scatters: over 3000 s its
        // power by √(1 / 6000), the root by half of that; four standard errors and the width of the band, 1.5 (0.3 / f)² or so.
        Drawn drawn = Drawn.Of(values, 3000);
        double[] power = Drawn.Spectrum(Along(drawn));
        double way = 0;
        for (int k = 3 * 1000; k < power.Length; k++)
        {
            way += power[k] / Math.Pow(2 * Math.PI * k / 3000.0, 4);
        }

        Assert.That(Math.Sqrt(2 * way) * StandardGravity, Is.EqualTo(metres).Within(4).Percent);
    }

    // Physiological tremor: 8 to 12 Hz (review PMC6806079, 2019), which the default stands for.
    [Test]
    public void Tremor_ByDefault_LiesBetween8And12Hz()
    {
        Drawn drawn = Drawn.Of(new KeyValues().Set(HandMovementKeys.TremorG, 0.04), 600);
        double[] power = Drawn.Spectrum(Along(drawn));
        double inside = power.Skip(8 * 600).Take(4 * 600).Sum();
        Assert.That(inside / power.Sum(), Is.GreaterThan(0.99));

        // Waxing and waning, not a sine: of a narrow Gaussian band the fourth moment is 3 times the square of the second, of a sine 1.5.
        double[] along = Along(drawn);
        double kurtosis = along.Average(v => v * v * v * v) / Math.Pow(along.Average(v => v * v), 2);
        Assert.That(kurtosis, Is.EqualTo(3).Within(0.5));
    }

    [Test]
    public void Taps_Counted_AreThoseOfTheRateAndARateMovesNone()
    {
        KeyValues values = new KeyValues().Set(HandMovementKeys.TapG, 1);
        Drawn few = Drawn.Of(values.Copy().Set(HandMovementKeys.TapsPerMin, 20), 1800, 200);
        Drawn many = Drawn.Of(values.Copy().Set(HandMovementKeys.TapsPerMin, 40), 1800, 200);
        int[] fewAt = Onsets(few);
        int[] manyAt = Onsets(many);

        // Binomial: n candidates kept with p each; 600 of 7,200 have a standard deviation of 23.5. Some overlap and count as one.
        Assert.That(fewAt, Has.Length.EqualTo(600).Within(4 * 23.5));
        Assert.That(manyAt, Has.Length.EqualTo(1200).Within((4 * 31.6) + 60));
        Assert.That(fewAt.Count(a => Array.Exists(manyAt, b => Math.Abs(a - b) <= 1)), Is.GreaterThan(0.95 * fewAt.Length), "the same taps");

        // Where only the few are, both draw the same to the bit.
        for (int i = 0; i < few.Z.Length; i++)
        {
            bool isSame = few.Z[i] == many.Z[i] || few.Z[i] == 1 || many.Z[i] != 1;
            Assert.That(isSame, $"sample {i}: a tap went");
        }
    }

    [Test]
    public void Tap_Peak_IsTheKnobOnAverage()
    {
        Drawn drawn = Drawn.Of(new KeyValues().Set(HandMovementKeys.TapG, 2).Set(HandMovementKeys.TapsPerMin, 10), 3600, 1000);
        int[] at = Onsets(drawn);
        double[] peaks = [.. at.Where(i => i + 30 < drawn.Z.Length).Select(i => drawn.Z.Skip(i).Take(30).Max(z => Math.Abs(z - 1)))];

        // Even between a half and one and a half: standard deviation 2 / √12, of some 600.
        Assert.That(peaks.Average(), Is.EqualTo(2).Within(4 * 2 / Math.Sqrt(12 * 600)));
        Assert.That(peaks.Max(), Is.LessThanOrEqualTo(3.1));
    }

    [Test]
    public void Typing_On_ComesInBurstsOfSmallTaps()
    {
        Drawn drawn = Drawn.Of(new KeyValues().Set(HandMovementKeys.TypingG, 0.05), 1200, 200);
        double[] windows = [.. Enumerable.Range(0, 300).Select(k => Drawn.Rms([.. drawn.Z.Skip(k * 800).Take(800).Select(z => z - 1)]))];
        int quiet = windows.Count(w => w < 0.1 * windows.Max());

        // Half of 300 windows, standard deviation √75; a stroke at the end of a window rings into the next.
        Assert.That(quiet, Is.EqualTo(150).Within(4 * Math.Sqrt(75)));
        Assert.That(drawn.Z.Max() - 1, Is.InRange(0.05, 0.2));
    }

    [Test]
    public void Gestures_On_TurnGravityAndComeBack()
    {
        KeyValues values = new KeyValues().Set(HandMovementKeys.GesturesPerMin, 6).Set(HandMovementKeys.GestureG, 1);
        Drawn drawn = Drawn.Of(values, 1200);
        Assert.That(drawn.Magnitude().Max(), Is.InRange(1.3, 2.5), "gestures of 0.5 to 2 g (from memory)");

        // 6 a minute of 1.4 s each in the mean: a share of 0.14, less what overlaps; 120 gestures, four standard errors of some 10 %.
        double share = 1 - (drawn.Z.Count(z => z == 1) / (double)drawn.Z.Length);
        Assert.That(share, Is.EqualTo(0.14).Within(40).Percent);

        // The hand goes out and back: its own acceleration has no mean over a gesture. What is left is gravity's turn, the mean over the
        // bell (1 − u²)^4 of a chord 2 sin(θ/2): below 2 sin 35° × 0.41, and small only where the way is short or the axis is upright.
        double[] turns = [.. Stretches(drawn).Select(s => Mean(drawn, s.From, s.To))];
        Assert.That(turns, Has.Length.GreaterThan(70).And.All.LessThan(2 * Math.Sin(35 * Math.PI / 180) * 0.5));
        Assert.That(turns.Count(t => t > 0.1), Is.GreaterThan(turns.Length / 2));

        static double Mean(Drawn d, int from, int to) => Math.Sqrt(
            Math.Pow(d.X[from..to].Average(), 2) + Math.Pow(d.Y[from..to].Average(), 2) + Math.Pow(d.Z[from..to].Average() - 1, 2));
    }

    [TestCase(0.3)]
    [TestCase(2)]
    public void Gesture_SizeOnly_MovesNone(double sizeG)
    {
        KeyValues values = new KeyValues().Set(HandMovementKeys.GesturesPerMin, 6);
        bool[] here = [.. Drawn.Of(values.Copy().Set(HandMovementKeys.GestureG, sizeG), 300).Z.Select(z => z == 1)];
        bool[] there = [.. Drawn.Of(values.Copy().Set(HandMovementKeys.GestureG, 1), 300).Z.Select(z => z == 1)];
        Assert.That(here, Is.EqualTo(there));
        Assert.That(here.Count(s => !s), Is.GreaterThan(1000));
    }

    [TestCase(0.05)]
    [TestCase(0.5)]
    public void Vehicle_Rms_IsTheKnobOnEveryAxis(double rms)
    {
        Drawn drawn = Drawn.Of(new KeyValues().Set(HandMovementKeys.VehicleGRms, rms), 3000);
        for (int axis = 0; axis < 3; axis++)
        {
            double[] a = [.. drawn.Axis(axis).Select(v => axis == 2 ? v - 1 : v)];

            // Power: the band's 0.92 with 2 × 18 Hz × 3000 s of freedom, the sway's 0.08 with about one in a second: standard error of the
            // power 0.0045, four of the root 0.9 %.
            Assert.That(Drawn.Rms(a), Is.EqualTo(rms).Within(0.9).Percent, $"axis {axis}");
        }

        double correlation = drawn.X.Zip(drawn.Y, (p, q) => p * q).Average() / (rms * rms);
        Assert.That(correlation, Is.Zero.Within(0.02), "axes are independent");
    }

    // Broad from 1 to 20 Hz (common practice for road vehicles), little between the sway and 1 Hz.
    [Test]
    public void Vehicle_Spectrum_IsBroadFrom1To20Hz()
    {
        const int Seconds = 2000;
        double[] power = Drawn.Spectrum(Drawn.Of(new KeyValues().Set(HandMovementKeys.VehicleGRms, 1), Seconds, 200).Z);
        double Between(double low, double high) => power.Skip((int)(low * Seconds)).Take((int)((high - low) * Seconds)).Sum() / power.Sum();
        Assert.That(Between(1, 20), Is.GreaterThan(0.8));
        Assert.That(Between(30, 100), Is.LessThan(0.02));
        double[] density = [.. new[] { (1.5, 3.0), (3, 5), (5, 8), (8, 11), (11, 14) }.Select(b => Between(b.Item1, b.Item2) / (b.Item2 - b.Item1))];
        Assert.That(density, Has.All.GreaterThan(0.5 * density.Max()), "within half of its power in the middle");
        Assert.That(Between(0, 0.5), Is.EqualTo(0.28 * 0.28).Within(20).Percent, "the sway");
        Assert.That(Between(0.5, 0.8) / 0.3, Is.LessThan(0.5 * Between(1.5, 4) / 2.5));
    }

    private static IEnumerable<TestCaseData> Sizes()
    {
        yield return new TestCaseData(HandMovementKeys.TypingG, 0.2);
        yield return new TestCaseData(HandMovementKeys.TremorG, 0.2);
        yield return new TestCaseData(HandMovementKeys.TapG, 0.5);
        yield return new TestCaseData(HandMovementKeys.VehicleGRms, 0.2);
    }

    // One knob, one change: what a size adds is the same whatever else goes on, and twice as large for twice the size.
    [TestCaseSource(nameof(Sizes))]
    public void Size_TurnedUp_AddsItsOwnAndNothingElse(NumberKey key, double size)
    {
        KeyValues still = new KeyValues().Set(HandMovementKeys.TapsPerMin, 60).Set(HandMovementKeys.TapG, 0);
        KeyValues busy = MovementGridTests.Everything().Copy();
        foreach (KeyValues values in new[] { still, busy })
        {
            values.Set(HandMovementKeys.TremorHz, 7).SetChanges(key, [], []).Set(key, 0);
        }

        Drawn alone = Drawn.Of(still.Copy().Set(key, size), 60).Less(Drawn.Of(still, 60));
        if (key != HandMovementKeys.TapG)
        {
            Drawn among = Drawn.Of(busy.Copy().Set(key, size), 60).Less(Drawn.Of(busy, 60));
            AssertAlike(among, alone, 1);
        }

        AssertAlike(Drawn.Of(still.Copy().Set(key, 2 * size), 60).Less(Drawn.Of(still, 60)), alone, 2);
        Assert.That(alone.Z.Max(Math.Abs), Is.GreaterThan(0.5 * size));
    }

    [Test]
    public void Size_Changing_FollowsWithinHalfASecond()
    {
        KeyValues values = new KeyValues().SetChanges(HandMovementKeys.VehicleGRms, [Drawn.Step(10.1, 0.4), new CourseChange(20, ChangeKind.Ramp, 0, 10)], []);
        Drawn drawn = Drawn.Of(values, 40);
        Drawn full = Drawn.Of(new KeyValues().Set(HandMovementKeys.VehicleGRms, 0.4), 40);
        Assert.That(drawn.X[..1011], Has.All.Zero);
        Assert.That(drawn.X[1060..2000], Is.EqualTo(full.X[1060..2000]));
        Assert.That(drawn.X[2525], Is.EqualTo(0.5 * full.X[2525]).Within(1e-12), "half way down the ramp, a quarter of a second late");
        Assert.That(drawn.X[3050..], Has.All.Zero);
    }

    private static IEnumerable<(int From, int To)> Stretches(Drawn drawn)
    {
        int from = -1;
        for (int i = 0; i < drawn.Z.Length; i++)
        {
            bool isStill = drawn.Z[i] == 1 && drawn.X[i] == 0;
            if (!isStill && from < 0)
            {
                from = i;
            }
            else if (isStill && from >= 0)
            {
                yield return (from, i);
                from = -1;
            }
        }
    }

    private static double[] Along(Drawn drawn) => [.. drawn.X.Select((x, i) => (0.6 * x) + (0.8 * (drawn.Z[i] - 1)))];

    // First samples off 1 g after at least 0.1 s on it.
    private static int[] Onsets(Drawn drawn)
    {
        var at = new List<int>();
        int still = int.MaxValue / 2;
        for (int i = 0; i < drawn.Z.Length; i++)
        {
            if (Math.Abs(drawn.Z[i] - 1) < 0.02)
            {
                still++;
                continue;
            }

            if (still > drawn.RateHz / 10)
            {
                at.Add(i);
            }

            still = 0;
        }

        return [.. at];
    }

    private static void AssertAlike(Drawn actual, Drawn expected, double factor)
    {
        for (int axis = 0; axis < 3; axis++)
        {
            double worst = actual.Axis(axis).Zip(expected.Axis(axis), (a, e) => Math.Abs(a - (factor * e))).Max();
            Assert.That(worst, Is.LessThan(1e-12), $"axis {axis}");
        }
    }
}
