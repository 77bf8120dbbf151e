// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>
/// Electrode motion: trains of transients. Moments by Campbell's theorem (Rice, Bell System Technical Journal 23:282, 1944): power
/// λ E[a²] ∫h², fourth cumulant λ E[a⁴] ∫h⁴; integrals below by scipy.integrate.quad on the definitions of the forms.
/// </summary>
public sealed class MotionTests
{
    private const int Rate = 125;

    private static KeyValues Walking() => Settings.Silent().Set(MovementKeys.Activity, "walking").Set(EcgAmplifierKeys.RateHz, Rate);

    private static MotionDrive Drive(double perMin) => new(new MovementIntensity(Walking()), perMin, 0);

    [TestCase(true, 0.055187429355585634, 0.03422835290767202, 28.967221324174503)]
    [TestCase(false, 0.016751652500913913, 0.009439149391458087, 86.69992372486391)]
    public void MotionKind_Moments_AreThoseOfItsForms(bool isSlow, double square, double fourth, double kurtosis)
    {
        MotionKind kind = isSlow ? MotionKind.Slow : MotionKind.Sharp;
        Assert.That(kind.SquareSeconds, Is.EqualTo(square).Within(1e-9));
        Assert.That(kind.FourthSeconds, Is.EqualTo(fourth).Within(1e-9));
        Assert.That(kind.ExcessKurtosis(0.5), Is.EqualTo(kurtosis).Within(1e-6 * kurtosis));
    }

    // scipy: 0.5 to 5 Hz holds 66 % of slow motion's transients and 76 % of its baseline, 8 to 20 Hz 57 % of sharp motion.
    [Test]
    public void Share_OfABand_IsThatOfTheNumericalTransforms()
    {
        Assert.That(MotionKind.Slow.Share(0.5, 5), Is.EqualTo(0.65914).Within(2e-3));
        Assert.That(MotionKind.Slow.Share(0, 0.5), Is.EqualTo(0.10175).Within(1e-3));
        Assert.That(MotionKind.Sharp.Share(8, 20), Is.EqualTo(0.57515).Within(1e-3));
        Assert.That(Quadrature.Integrate(MotionBaseline.Density, 0.5, 5), Is.EqualTo(0.75655).Within(1e-3));
        Assert.That(Quadrature.Integrate(MotionBaseline.Density, 0, 20), Is.EqualTo(1).Within(1e-3));
    }

    // Power and kurtosis of ten hours against the closed forms. The errors follow from the number of events: var ∫x² = N E[a⁴] E[(∫h²)²],
    // var ∫x⁴ = N E[a⁸] E[(∫h⁴)²]; E[a⁸] = (1.5⁹ − 0.5⁹)/9 = 4.271, widths even between the ends add (ends ratio 6.25: E[D²]/E[D]² = 1.175).
    [TestCase(true)]
    [TestCase(false)]
    public void Transients_OverTenHours_HavePowerAndKurtosisOfCampbellsTheorem(bool isSlow)
    {
        const int Hours = 10 * 3600;
        const double PerSecond = 0.5;
        MotionKind kind = isSlow ? MotionKind.Slow : MotionKind.Sharp;
        var train = new MotionTransients(kind, Drive(60 * PerSecond), new KeyedRandom(11, "test.motion"), new SampleGrid(0, 1.0 / Rate), 1);
        var buffer = new double[Rate];
        double two = 0;
        double four = 0;
        for (int second = 0; second < Hours; second++)
        {
            Array.Clear(buffer);
            train.Add(buffer, second * (long)Rate, 1);
            two += buffer.Sum(v => v * v) / Rate / Hours;
            four += buffer.Sum(v => v * v * v * v) / Rate / Hours;
        }

        double n = Hours * PerSecond;
        double ofTwo = Math.Sqrt(1.5125 / (13.0 / 12 * 13.0 / 12) * 1.25 / n);
        double ofFour = Math.Sqrt(4.271 / (1.5125 * 1.5125) * 1.25 / n);
        Assert.That(two, Is.EqualTo(1).Within(4 * ofTwo), "power");
        double kurtosis = four - (3 * two * two);
        double expected = kind.ExcessKurtosis(PerSecond);
        Assert.That(kurtosis, Is.EqualTo(expected).Within(4 * ofFour * expected * 1.2), "fourth cumulant");
    }

    // What the recurrences draw is the sum of the definitions at the candidates' own places.
    [TestCase(true)]
    [TestCase(false)]
    public void Transients_OnAGrid_AreTheirDefinition(bool isSlow)
    {
        MotionKind kind = isSlow ? MotionKind.Slow : MotionKind.Sharp;
        MotionDrive drive = Drive(100);
        var random = new KeyedRandom(4, "test.motion_definition");
        var grid = new SampleGrid(0.0007, 1.0 / 333);
        var drawn = new double[3330];
        new MotionTransients(kind, drive, random, grid, 1).Add(drawn, 0, 2.5);
        var cells = new CandidateCells(random, 8);
        int events = 0;
        var expected = new double[drawn.Length];
        for (long cell = -4; cell < 10; cell++)
        {
            for (int k = 0; k < cells.Count(cell); k++)
            {
                if (cells.Uniform(cell, k, 1) >= 100.0 / 60 / 8)
                {
                    continue;
                }

                events++;
                double begin = cell + cells.Uniform(cell, k, 0);
                TransientShape shape = kind.Draw(cells.Uniform(cell, k, 3), cells.Uniform(cell, k, 2), out double duration);
                double width = duration / TransientShapes.WidthsOfDuration(shape);
                double size = kind.PeakOfRms(100.0 / 60) * MotionKind.Size(cells.Uniform(cell, k, 4));
                for (int i = 0; i < expected.Length; i++)
                {
                    expected[i] += 2.5 * size * TransientShapes.At(shape, TransientShapes.Begin(shape) + ((grid.Seconds(i) - begin) / width));
                }
            }
        }

        Assert.That(events, Is.GreaterThan(5));
        Assert.That(drawn, Is.EqualTo(expected).Within(1e-9));
    }

    // Poisson's law: mean and variance of the number in a cell are both 8; standard errors √(8/n) and 8 √(2/n + 1/(8n)).
    [Test]
    public void Candidates_InCells_FollowPoissonsLaw()
    {
        const int Cells = 20_000;
        var cells = new CandidateCells(new KeyedRandom(9, "test.cells"), 8);
        double[] counts = [.. Enumerable.Range(0, Cells).Select(c => (double)cells.Count(c))];
        double mean = counts.Average();
        Assert.That(mean, Is.EqualTo(8).Within(4 * Math.Sqrt(8.0 / Cells)));
        Assert.That(counts.Average(c => (c - mean) * (c - mean)), Is.EqualTo(8).Within(4 * 8 * Math.Sqrt((2.0 / Cells) + (1.0 / 8 / Cells))));
    }

    // Those that are made together are each candidate's own; cells of more than fifteen candidates are among them.
    [Test]
    public void Kept_OfACell_AreThoseWhoseOwnDrawIsBelowTheChance([Values(0, 0.07, 0.8, 1)] double chance)
    {
        var cells = new CandidateCells(new KeyedRandom(9, "test.kept"), 8);
        Span<int> kept = stackalloc int[CandidateCells.Most];
        Span<double> draws = stackalloc double[CandidateCells.Draws];
        int largest = 0;
        for (long cell = -50; cell < 1000; cell++)
        {
            int[] expected = [.. Enumerable.Range(0, cells.Count(cell)).Where(k => cells.Uniform(cell, k, 1) < chance)];
            int count = cells.Kept(cell, chance, kept);
            Assert.That(kept[..count].ToArray(), Is.EqualTo(expected));
            largest = Math.Max(largest, cells.Count(cell));
            foreach (int k in expected)
            {
                cells.Fill(cell, k, draws);
                Assert.That(draws[0], Is.EqualTo(cells.Seconds(cell, k) - cell).Within(1e-12));
                Assert.That(draws[2..].ToArray(), Is.EqualTo(Enumerable.Range(2, CandidateCells.Draws - 2).Select(d => cells.Uniform(cell, k, d))));
            }
        }

        Assert.That(largest, Is.GreaterThan(16));
    }

    // Any cut, with a size that stands still and with one that follows a walk; also where a sample lies on a node (every fifth of 100 Hz).
    [Test]
    public void Baseline_CutAnywhere_GivesTheSameBits([Values(50, 100, 250)] int rate, [Values] bool isChanging)
    {
        KeyValues values = Walking();
        if (isChanging)
        {
            values.SetChanges(MovementKeys.Activity, [(4, "rest"), (8, "running")]);
        }

        MotionBaseline Start() => new(
            new KeyedRandom(2, "test.baseline_cut"), new SampleGrid(0, 1.0 / rate), new MotionDrive(new MovementIntensity(values), 30, 0), 0.3);
        double[] whole = new double[12 * rate];
        Start().Add(whole, 0, 2);
        foreach (int length in new[] { 1, 7, 64, 250 })
        {
            MotionBaseline baseline = Start();
            double[] cut = new double[whole.Length];
            for (int done = 0; done < cut.Length; done += length)
            {
                baseline.Add(cut.AsSpan(done, Math.Min(length, cut.Length - done)), done, 2);
                baseline = done % 5 == 0 ? baseline.Copy() : baseline;
            }

            Assert.That(cut, Is.EqualTo(whole), $"blocks of {length}");
        }
    }

    // Correlation time of the band by its spectrum: effective degrees of freedom 2T (∫S)²/∫S² (Bendat and Piersol; textbook).
    [Test]
    public void Baseline_OverTwoHours_HasTheStatedPower()
    {
        const int Seconds = 7200;
        var baseline = new MotionBaseline(new KeyedRandom(2, "test.baseline"), new SampleGrid(0, 1.0 / 50), Drive(30), 0.3);
        var x = new double[Seconds * 50];
        baseline.Add(x, 0, 2);
        double square = Quadrature.Integrate(f => MotionBaseline.Density(f) * MotionBaseline.Density(f), 0, 20);
        Assert.That(x.Average(v => v * v), Is.EqualTo(4 * 0.3).Within(4 * 0.3 * 4 * Math.Sqrt(square / Seconds)));
        double[] power = Measure.Spectrum(x);
        double share = power[(Seconds / 2)..(5 * Seconds)].Sum() / power.Sum();
        Assert.That(share, Is.EqualTo(0.75655).Within(4 * 0.75655 / Math.Sqrt(4.5 * Seconds * 18 / 35)));
    }

    [Test]
    public void Motion_AtRest_IsNoneUnlessARateAtRestIsSet()
    {
        KeyValues rest = Settings.Silent();
        Assert.That(AnalogEcg.Of(rest.Copy().Set(EcgNoiseKeys.SlowMotionUvRms, 100).Set(EcgNoiseKeys.SharpMotionSnrDb, 0), 60), Has.All.Zero);
        KeyValues floor = rest.Copy().Set(EcgNoiseKeys.SharpMotionUvRms, 100).Set(EcgNoiseKeys.SharpMotionRestPerMin, 20);
        Assert.That(AnalogEcg.Of(floor, 60).Max(Math.Abs), Is.GreaterThan(0.1));

        // 20 of 30 + 20 a minute: the power there is 0.4 of that in the reference gait.
        var levels = new EcgNoiseLevels(floor);
        Assert.That(levels.RmsMv(EcgNoiseKind.SharpMotion, 0), Is.EqualTo(0.1 * Math.Sqrt(0.4)).Within(1e-12));
    }

    // Rest for a minute, walking for a minute, over and over: power where there is movement, none elsewhere. The baseline's size goes in lines
    // over 64 samples, so it rises up to half a second early.
    [Test]
    public void Motion_WithWalksInBetween_FollowsTheMovement()
    {
        const int Minutes = 40;
        KeyValues values = Walking().Set(MovementKeys.Activity, "rest").Set(EcgNoiseKeys.SlowMotionUvRms, 100);
        values.SetChanges(MovementKeys.Activity, [.. Enumerable.Range(1, Minutes - 1).Select(m => (60.0 * m, m % 2 == 1 ? "walking" : "rest"))]);
        double[] x = AnalogEcg.Of(values, 60 * Minutes);
        double[] power = [.. Enumerable.Range(0, Minutes).Select(m => x[(((60 * m) + 5) * Rate)..(((60 * m) + 59) * Rate)].Average(v => v * v))];
        double walking = power.Where((_, m) => m % 2 == 1).Average();
        double resting = power.Where((_, m) => m % 2 == 0).Average();
        Assert.That(resting, Is.LessThan(1e-9));

        // 0.5 a second over 20 × 54 s for 70 % of the power, the rest steady.
        double error = 0.7 * Math.Sqrt(1.5125 / (13.0 / 12 * 13.0 / 12) * 1.25 / (0.5 * 20 * 54)) * 1.1;
        Assert.That(walking, Is.EqualTo(0.01).Within(0.01 * 4 * error));
        Assert.That(MathNet.Numerics.Statistics.Correlation.Pearson(power, [.. power.Select((_, m) => (double)(m % 2))]), Is.GreaterThan(0.7));
    }

    // More transients leave those in place that there were: scaled by their own size, what is in one train is in the other.
    [Test]
    public void SharpMotionPerMin_Raised_MovesNoTransient()
    {
        var grid = new SampleGrid(0, 1.0 / 250);
        double[] few = new double[250 * 300];
        double[] many = new double[few.Length];
        new MotionTransients(MotionKind.Sharp, Drive(5), new KeyedRandom(4, "test.rate"), grid, 1).Add(few, 0, 1 / MotionKind.Sharp.PeakOfRms(5.0 / 60));
        new MotionTransients(MotionKind.Sharp, Drive(10), new KeyedRandom(4, "test.rate"), grid, 1).Add(many, 0, 1 / MotionKind.Sharp.PeakOfRms(10.0 / 60));
        int[] loud = [.. Enumerable.Range(0, few.Length).Where(i => Math.Abs(few[i]) > 0.01)];
        Assert.That(loud, Has.Length.GreaterThan(200));
        Assert.That(loud.Count(i => Math.Abs(few[i] - many[i]) < 1e-9), Is.GreaterThan(0.9 * loud.Length));
        Assert.That(many.Count(v => Math.Abs(v) > 0.01), Is.GreaterThan(1.4 * loud.Length));
    }

    // How hard the body moves against what it does: mean square of the acceleration over ten minutes, gravity taken off.
    [TestCase("walking", "", 0, 1)]
    [TestCase("rest", "movement.typing_g", 1, 0)]
    [TestCase("rest", "movement.taps_per_min", 200, 0)]
    [TestCase("rest", "movement.tremor_g", 1, 0)]
    [TestCase("rest", "movement.vehicle_g_rms", 0.5, 0)]
    [TestCase("rest", "movement.gestures_per_min", 20, 0)]
    public void MovementIntensity_OfAMovement_IsItsRmsOverThatOfTheReferenceGait(string activity, string key, double value, double expected)
    {
        KeyValues walking = Walking().Set(MovementKeys.StepVariationPercent, 4);
        KeyValues values = walking.Copy().Set(MovementKeys.Activity, activity);
        if (key.Length > 0)
        {
            values.Set(MovementKeys.All.OfType<NumberKey>().Single(k => k.Name == key), value);
        }

        double intensity = new MovementIntensity(values).At(100);
        if (expected > 0)
        {
            Assert.That(intensity, Is.EqualTo(expected).Within(1e-12));
        }

        // A gesture also turns gravity against the sensor, which does not count as movement: up to a half more. Bursts of typing come by chance.
        double within = key.Contains("gesture", StringComparison.Ordinal) ? 0.5 : 0.15;
        Assert.That(intensity, Is.EqualTo(AccelerationRms(values) / AccelerationRms(walking)).Within(within * intensity));
    }

    // Running after a walk, against the walk: both sizes of the wrist, sites without knobs of size.
    [Test]
    public void MovementIntensity_OfRunningAfterWalking_IsTheRatioOfBoth()
    {
        KeyValues values = Walking().SetChanges(MovementKeys.Activity, [(600, "running")]);
        double intensity = new MovementIntensity(values).At(900);
        Assert.That(new MovementIntensity(values).At(300), Is.EqualTo(1).Within(1e-12));
        Assert.That(intensity, Is.InRange(3, 6));
        Assert.That(intensity, Is.EqualTo(AccelerationRms(values, 605) / AccelerationRms(values)).Within(0.05 * intensity));
    }

    private static double AccelerationRms(KeyValues values, double from = 0)
    {
        var model = new MovementModel(values, 5);
        return Math.Sqrt(Enumerable.Range(0, 59_000).Average(i =>
        {
            Axes a = model.Acceleration(from + (i * 0.01)) - model.Gravity(from + (i * 0.01));
            return a.Dot(a);
        }));
    }
}
