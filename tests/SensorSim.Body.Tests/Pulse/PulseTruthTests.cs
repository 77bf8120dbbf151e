// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>The true landmarks of the pulse against their definitions, searched for by brute force on the clean pulse at 1 MHz.</summary>
/// <remarks>Required: 10 µs. The waveform of the search holds the later beats too, which the solver leaves out.</remarks>
public sealed class PulseTruthTests
{
    private const double Required = 10e-6;
    private const double LeastRise = 1e-3;
    private const int PerClass = 200;
    private const string Fingerprint = "a94fe46e594f7a24";

    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void Landmarks_OfABody_AgainstBruteForce_Within10Microseconds(string name)
    {
        List<BeatView> beats = new Heartbeats(Cases.Values(name), 12, 60).Beats;
        List<PulseBeat> pulses = [.. beats.Select(b => b.Pulse)];
        for (int n = 0; n < 13; n++)
        {
            int id = 12 + (int)(new KeyedRandom(4, "tests.pulse_truth").Uniform(n) * (beats.Count - 18));
            Assert.That(beats[id].Landmarks.HasFoot, $"beat {id}");
            double scale = PulseContour.Scale(60 / beats[id].LaggedRrSeconds);
            Check(pulses, id, _ => 1, scale, beats[id].Landmarks);
        }
    }

    [TestCaseSource(typeof(PulseTrain), nameof(PulseTrain.Classes))]
    public void Landmarks_OfEachClass_AgainstBruteForce_Within10Microseconds(string name)
    {
        var train = new PulseTrain(name, name is "premature weak" or "after a pause" ? (4 * PerClass) + 40 : PerClass + 24);
        Assert.That(train.Tested, Has.Count.GreaterThanOrEqualTo(PerClass));
        int notches = 0;
        int without = 0;
        foreach (int i in train.Tested)
        {
            PulseLandmarks p = train.Landmarks[i];
            if (!p.HasFoot)
            {
                without++;
                AssertNoFoot(train, i);
                continue;
            }

            Assert.That(p.FootTangentSeconds, Is.EqualTo(train.Feet[i]).Within(1e-9), $"beat {i}: placed");
            notches += Check(train.Beats, i, _ => 1, train.Scale, p) ? 1 : 0;
        }

        TestContext.Out.WriteLine($"{name}: {train.Tested.Count} beats, {without} without foot, {notches} with notch");
        Assert.That(without, name == "premature weak" ? Is.LessThan(0.6 * PerClass) : Is.Zero);
        Assert.That(notches, name is "stiff" or "chest" or "premature weak" ? Is.LessThan(PerClass) : Is.GreaterThan(0.9 * PerClass));
    }

    // Each light sees each beat with its own gain: its landmarks are those of the weighted sum.
    [TestCase("normal")]
    [TestCase("after a pause")]
    [TestCase("fast")]
    public void Solve_OtherGainsOfEarlierBeats_IsTheWeightedSum(string name)
    {
        var train = new PulseTrain(name, 240);
        var random = new KeyedRandom(5, "tests.pulse_gains");
        double[] gains = [.. Enumerable.Range(0, train.Beats.Count).Select(k => 0.01 * (1 + random.Uniform(k)))];
        double farthest = 0;
        foreach (int i in train.Tested.Take(100))
        {
            PulseLandmarks p = train.Solve(i, gains);
            Check(train.Beats, i, k => gains[k] / gains[i], train.Scale, p);
            farthest = Math.Max(farthest, Math.Abs(p.FootTangentSeconds - train.Feet[i]));
        }

        Assert.That(farthest, Is.GreaterThan(1e-4), "the gains matter");
    }

    [Test]
    public void Solve_SameGainsOfEarlierBeats_IsThePlacedPulse()
    {
        var train = new PulseTrain("normal", 100);
        double[] gains = [.. Enumerable.Repeat(0.013, 100)];
        foreach (int i in train.Tested)
        {
            PulseLandmarks placed = train.Landmarks[i];
            PulseLandmarks solved = train.Solve(i, gains);
            Assert.That(solved.FootTangentSeconds, Is.EqualTo(placed.FootTangentSeconds).Within(1e-8));
            Assert.That(solved.FootMinimumSeconds, Is.EqualTo(placed.FootMinimumSeconds).Within(1e-7));
            Assert.That(solved.DiastolicPeakSeconds, Is.EqualTo(placed.DiastolicPeakSeconds).Within(1e-7));
            Assert.That(solved.HeightUnits, Is.EqualTo(placed.HeightUnits).Within(1e-8));
        }
    }

    [Test]
    public void Place_NoHeight_IsNoPulse()
    {
        PulseLandmarks p = PulseSolver.Place(new PulseSum(), 3, new PulseContour(PulseSite.Finger, 7, 50, 1.7), 1, 0, out PulseBeat beat);
        Assert.That(p.HasFoot, Is.False);
        Assert.That(beat[0].Height + beat[1].Height + beat[2].Height, Is.Zero);
    }

    // The first pulse of all rises from nothing: its minimum is its start.
    [Test]
    public void Place_NothingBefore_RisesFromItsStart()
    {
        PulseLandmarks p = PulseSolver.Place(new PulseSum(), 3, new PulseContour(PulseSite.Ear, 7, 50, 1.7), 0.9, 2, out PulseBeat beat);
        Assert.That(p.FootMinimumSeconds, Is.EqualTo(beat[0].StartSeconds));
        Assert.That(p.FootTangentSeconds, Is.EqualTo(3).Within(1e-9));
        var wave = new BruteForce([beat], 0, 0, _ => 1);
        Assert.That(p.SteepestSeconds, Is.EqualTo(BruteForce.Largest(wave.Slope, p.SteepestSeconds)).Within(Required));
        Assert.That(
            p.FootSecondDerivativeSeconds, Is.EqualTo(BruteForce.Largest(wave.Curvature, p.FootSecondDerivativeSeconds)).Within(Required));
        Assert.That(p.SystolicPeakSeconds, Is.EqualTo(BruteForce.Largest(wave.Value, p.SystolicPeakSeconds)).Within(Required));
        Assert.That(
            p.FootTangentSeconds, Is.EqualTo(p.SteepestSeconds - (wave.Value(p.SteepestSeconds) / wave.Slope(p.SteepestSeconds))).Within(1e-7));
        Assert.That(p.HeightUnits, Is.EqualTo(wave.Value(p.SystolicPeakSeconds)).Within(1e-9));
    }

    // Landmarks of every class, by the project itself: the same with AVX-512, AVX2, SSE2 and no vector unit.
    [Test]
    public void Landmarks_OfEveryClass_HaveThePinnedBits()
    {
        ulong hash = 0xCBF29CE484222325;
        foreach (PulseLandmarks p in PulseTrain.Classes.SelectMany(name => new PulseTrain(name, 120).Landmarks))
        {
            foreach (double value in new[]
            {
                p.FootMinimumSeconds, p.FootSecondDerivativeSeconds, p.SteepestSeconds, p.SystolicPeakSeconds, p.DicroticNotchSeconds,
                p.DiastolicPeakSeconds, p.HeightUnits,
            })
            {
                ulong bits = double.IsNaN(value) ? 1 : BitConverter.DoubleToUInt64Bits(value);
                for (int shift = 0; shift < 64; shift += 8)
                {
                    hash = unchecked((hash ^ ((bits >> shift) & 0xFF)) * 0x100000001B3);
                }
            }
        }

        Assert.That(hash.ToString("x16", null), Is.EqualTo(Fingerprint));
    }

    [Test]
    public void Before_NextPulseFirst_TakesTheHiddenLandmarksOut()
    {
        var contour = new PulseContour(PulseSite.Finger, 7, 50, 1.7);
        PulseLandmarks p = PulseSolver.Steady(new PulseSum(), contour, 1, out _);
        double between = 0.5 * (p.DicroticNotchSeconds + p.DiastolicPeakSeconds);
        Assert.That(p.Before(contour.Lay(p.DiastolicPeakSeconds + 1e-6, 1, 1)), Is.EqualTo(p));
        PulseLandmarks some = p.Before(contour.Lay(between, 1, 1));
        Assert.That(some.DicroticNotchSeconds, Is.EqualTo(p.DicroticNotchSeconds));
        Assert.That(some.DiastolicPeakSeconds, Is.NaN);
        Assert.That(p.Before(contour.Lay(p.DicroticNotchSeconds, 1, 1)).DicroticNotchSeconds, Is.NaN);
        Assert.That(PulseLandmarks.None.HasFoot, Is.False);
    }

    // Returns whether the pulse has a notch.
    private static bool Check(List<PulseBeat> beats, int i, Func<int, double> gain, double scale, PulseLandmarks truth)
    {
        var wave = new BruteForce(beats, i, Math.Min(i + 3, beats.Count - 1), gain);
        double start = beats[i][0].StartSeconds;
        double minimum = BruteForce.Largest(t => -wave.Value(t), truth.FootMinimumSeconds);
        double steepest = BruteForce.Largest(wave.Slope, truth.SteepestSeconds);
        double curved = BruteForce.Largest(wave.Curvature, truth.FootSecondDerivativeSeconds, start, steepest);
        double peak = BruteForce.Largest(wave.Value, truth.SystolicPeakSeconds);
        double tangent = steepest - ((wave.Value(steepest) - wave.Value(minimum)) / wave.Slope(steepest));
        PulseLandmarks seen = i + 1 < beats.Count ? truth.Before(beats[i + 1]) : truth;
        Assert.Multiple(() =>
        {
            Assert.That(truth.HasFoot, $"beat {i}");
            Assert.That(truth.FootMinimumSeconds, Is.EqualTo(minimum).Within(Required), $"minimum, beat {i}");
            Assert.That(truth.SteepestSeconds, Is.EqualTo(steepest).Within(Required), $"steepest, beat {i}");
            Assert.That(truth.FootTangentSeconds, Is.EqualTo(tangent).Within(Required), $"tangent, beat {i}");
            Assert.That(truth.FootSecondDerivativeSeconds, Is.EqualTo(curved).Within(Required), $"curvature, beat {i}");
            Assert.That(truth.SystolicPeakSeconds, Is.EqualTo(peak).Within(Required), $"peak, beat {i}");
            Assert.That(truth.HeightUnits, Is.EqualTo(wave.Value(peak) - wave.Value(minimum)).Within(1e-7), $"height, beat {i}");
            CheckTail(beats, i, gain, scale, truth, seen, wave);
        });
        return !double.IsNaN(truth.DicroticNotchSeconds);
    }

    private static void CheckTail(
        List<PulseBeat> beats, int i, Func<int, double> gain, double scale, PulseLandmarks truth, PulseLandmarks seen, BruteForce wave)
    {
        // Whether there are any is a question of this pulse and the earlier ones.
        var alone = new BruteForce(beats, i, i, gain);
        (double notch, double diastolic) = alone.FirstDip(truth.SystolicPeakSeconds + 1e-3, truth.SystolicPeakSeconds + (0.65 * scale));
        double rise = double.IsNaN(notch) ? 0 : (alone.Value(diastolic) - alone.Value(notch)) / truth.HeightUnits;
        if (Math.Abs(rise - LeastRise) > 0.02 * LeastRise)
        {
            Assert.That(!double.IsNaN(truth.DicroticNotchSeconds), Is.EqualTo(rise > LeastRise), $"notch or none, beat {i}, rise {rise:R}");
            Assert.That(!double.IsNaN(truth.DiastolicPeakSeconds), Is.EqualTo(rise > LeastRise), $"diastolic peak or none, beat {i}");
        }

        if (!double.IsNaN(seen.DicroticNotchSeconds))
        {
            double found = BruteForce.Largest(t => -wave.Value(t), seen.DicroticNotchSeconds, notch - 2e-3, Math.Min(notch + 2e-3, diastolic));
            Assert.That(seen.DicroticNotchSeconds, Is.EqualTo(found).Within(Required), $"notch, beat {i}");
        }

        if (!double.IsNaN(seen.DiastolicPeakSeconds))
        {
            double found = BruteForce.Largest(wave.Value, seen.DiastolicPeakSeconds, diastolic - 2e-3, diastolic + 2e-3);
            Assert.That(seen.DiastolicPeakSeconds, Is.EqualTo(found).Within(Required), $"diastolic peak, beat {i}");
        }
    }

    // Where a pulse has no foot the wave falls, or rises, all the way: or its foot jumps past the wanted place however it is shifted.
    private static void AssertNoFoot(PulseTrain train, int i)
    {
        bool IsReached(double shift)
        {
            PulseBeat own = train.Contour.Lay(train.Beats[i][0].StartSeconds + shift, train.Scale, train.Beats[i][0].Height);
            List<PulseBeat> beats = [.. train.Beats.Take(i), own];
            var wave = new BruteForce(beats, i, i, _ => 1);
            double start = own[0].StartSeconds;
            double from = start - (0.12 * train.Scale);
            double until = start + (0.155 * train.Scale);
            double steepest = start + (0.06 * train.Scale);
            for (double t = steepest; t <= until; t += 1e-3)
            {
                steepest = wave.Slope(t) > wave.Slope(steepest) ? t : steepest;
            }

            double minimum = steepest;
            while (minimum > from && wave.Slope(minimum) > 0)
            {
                minimum -= 5e-4;
            }

            if (wave.Slope(steepest) <= 0 || minimum <= from)
            {
                return false;
            }

            double tangent = steepest - ((wave.Value(steepest) - wave.Value(minimum)) / wave.Slope(steepest));
            return Math.Abs(tangent - train.Feet[i]) < 6e-4 && minimum < tangent;
        }

        int reached = Enumerable.Range(-60, 121).Count(n => IsReached(n * 5e-4));
        Assert.That(reached, Is.Zero, $"beat {i}: a foot that the solver did not find");
    }
}
