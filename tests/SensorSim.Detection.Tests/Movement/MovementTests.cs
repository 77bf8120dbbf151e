// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>Level of movement, its reference, and the cadence.</summary>
[TestFixture]
public sealed class MovementTests
{
    [TestCase(25, 100)]
    [TestCase(50, 1024)]
    [TestCase(100, 4096)]
    [TestCase(400, 16_384)]
    public void Level_SineOfHalfAG_IsItsRms(int rateHz, int codesPerG)
    {
        MovementLevel level = Level(rateHz, codesPerG, 0.5, 10);
        Assert.That(level.LevelMg, Is.EqualTo(500 / Math.Sqrt(2)).Within(18));
        Assert.That(level.IsMoving, Is.True);
        Assert.That(level.IsStill, Is.False);
    }

    [Test]
    public void Level_Bounds_HaveHysteresis()
    {
        // rms 7, 16, 30, 50, 85 mg up and down again.
        MovementLevel level = default;
        level.Start(50, 16_384);
        NoProbe probe = default;
        var seen = new List<string>();
        foreach (double mg in new[] { 7.0, 16, 30, 50, 85, 50, 30, 16, 7 })
        {
            for (int i = 0; i < 500; i++)
            {
                double g = mg / 1000 * Math.Sqrt(2) * Math.Sin(2 * Math.PI * 2 * i / 50.0);
                level.Next((int)(16_384 * g), 0, 16_384, ref probe);
            }

            seen.Add((level.IsStill ? "still" : "-") + (level.IsMoving ? "moving" : "-"));
        }

        Assert.That(seen, Is.EqualTo(new[] { "still-", "still-", "--", "--", "-moving", "-moving", "--", "--", "still-" }));
    }

    [TestCase(5044, 50, 1024, 3000)]
    [TestCase(5045, 400, 16, 200)]
    [TestCase(5046, 25, 1 << 19, 1 << 20)]
    [TestCase(5047, 100, 4096, int.MaxValue)]
    public void Level_AnyCodes_IsTheSameToTheBitAsAxisByAxis(int seed, int rateHz, int codesPerG, int largest)
    {
        var random = new Random(seed);
        MovementLevel level = default;
        level.Start(rateHz, codesPerG);
        NoProbe probe = default;
        long scale = 65_536_000 / codesPerG;
        int shift = MovementReference.LevelShift(rateHz);
        int meanShift = 0;
        for (; 1 << meanShift <= (rateHz + (rateHz / 2)) / 2; meanShift++)
        {
        }

        long[] gravity = new long[3];
        long mean = 0;
        int answers = 0;
        for (int i = 0; i < 4000; i++)
        {
            int[] codes = [random.Next(-largest, largest), random.Next(2) * largest, i % 3 == 0 ? -largest : random.Next(-largest, largest)];
            long square = 0;
            for (int axis = 0; axis < 3; axis++)
            {
                long mg = Math.Clamp((codes[axis] * scale) + 32_768 >> 16, -16_383, 16_383);
                gravity[axis] = i == 0 ? mg << 12 : gravity[axis];
                long high = Math.Clamp(mg - ((gravity[axis] + 2048) >> 12), -16_383, 16_383);
                gravity[axis] += ((mg << 12) - gravity[axis] + ((1 << shift) >> 1)) >> shift;
                square += high * high;
            }

            mean += ((square << 8) - mean + ((1L << meanShift) >> 1)) >> meanShift;
            level.Next(codes[0], codes[1], codes[2], ref probe);
            if ((i + 1) % ((rateHz + 7) / 8) == 0)
            {
                Assert.That(level.LevelMg, Is.EqualTo((int)Math.Sqrt(mean >> 8)), $"sample {i}");
                answers += level.LevelMg > 0 ? 1 : 0;
            }
        }

        Assert.That(answers, Is.GreaterThan(50));
    }

    [Test]
    public void Level_GravityInAnyDirection_IsNoMovement()
    {
        foreach ((int x, int y, int z) in new[] { (1000, 0, 0), (0, -1000, 0), (577, 577, -577) })
        {
            MovementLevel level = default;
            level.Start(50, 1000);
            NoProbe probe = default;
            for (int i = 0; i < 200; i++)
            {
                level.Next(x, y, z, ref probe);
            }

            Assert.That(level.LevelMg, Is.Zero);
            Assert.That(level.IsStill, Is.True);
        }
    }

    [TestCase(50, 2, 1.0)]
    [TestCase(50, 2, 2.0)]
    [TestCase(50, 2, 5.0)]
    [TestCase(200, 2, 2.0)]
    [TestCase(25, 1, 2.0)]
    public void Reference_Sine_HasTheGainAndPhaseOfTheClosedForm(int rateHz, int poleShift, double hz)
    {
        int grid = MovementReference.GridRateHz(rateHz);
        int every = rateHz / grid;
        var reference = new MovementReference();
        Assert.That(reference.Start(rateHz, 10_000), Is.True);
        double worst = 0;
        int n = 0;
        for (int i = 0; i < rateHz * 40; i++)
        {
            reference.Next((int)Math.Round(5000 * Math.Sin(2 * Math.PI * hz * i / rateHz)), 0, 0);
            n += i % every == every - 1 ? 1 : 0;
            if (i > rateHz * 30 && i % every == every - 1)
            {
                double middle = i - ((every - 1) / 2.0);
                double boxGain = every == 1 ? 1 : Math.Sin(Math.PI * hz * every / rateHz) / (every * Math.Sin(Math.PI * hz / rateHz));
                System.Numerics.Complex z = System.Numerics.Complex.FromPolarCoordinates(1, 2 * Math.PI * hz / grid);
                double p = 1 - Math.Pow(2, -poleShift);

                // High-pass of the level: (z − 1) / (z − 1 + k), the level before the sample.
                double k = Math.Pow(2, -MovementReference.LevelShift(grid));
                System.Numerics.Complex high = (z - 1) / (z - 1 + k);
                System.Numerics.Complex h = high * (1 - p) / (1 - (p / z));
                for (int f = 0; f < MovementReference.Functions; f++)
                {
                    System.Numerics.Complex phasor = h * System.Numerics.Complex.FromPolarCoordinates(boxGain * 8192, 2 * Math.PI * hz * middle / rateHz);
                    worst = Math.Max(worst, Math.Abs(phasor.Imaginary - reference.Values[f]));
                    h *= ((1 / z) - p) / (1 - (p / z));
                }
            }
        }

        Assert.That(reference.Steps, Is.EqualTo(n));
        Assert.That(worst, Is.LessThan(8));
        Assert.That(reference.IsStill, Is.False);
    }

    [Test]
    public void Reference_StillAndMoving_AgreesWithTheLevel()
    {
        foreach (double mg in new[] { 4.0, 40, 400 })
        {
            var reference = new MovementReference();
            reference.Start(50, 16_384);
            for (int i = 0; i < 1000; i++)
            {
                reference.Next((int)(16.384 * mg * Math.Sin(2 * Math.PI * 1.9 * i / 50)), 0, 16_384);
            }

            Assert.That(reference.IsStill, Is.EqualTo(Level(50, 16_384, mg / 1000, 20).IsStill), $"{mg}");
        }
    }

    [TestCase(1.4, 50)]
    [TestCase(1.6, 50)]
    [TestCase(1.9, 50)]
    [TestCase(1.9, 25)]
    [TestCase(1.9, 400)]
    [TestCase(2.2, 100)]
    [TestCase(2.5, 50)]
    [TestCase(2.7, 50)]
    [TestCase(3.1, 50)]
    public void Cadence_Gait_IsThatOfTheSteps(double hz, int rateHz)
    {
        double[][] g = new Gait { CadenceHz = hz, UpG = hz > 2.4 ? 1.5 : 0.5, SwingG = hz > 2.4 ? 0.8 : 0.4 }.Make(120, rateHz);
        List<(double PerMin, int Quality)> found = Cadences(g, rateHz);
        Assert.That(found, Has.Count.GreaterThan(50));
        foreach ((double perMin, int quality) in found)
        {
            // The pace of the gait wanders by up to 0.02 Hz.
            Assert.That(perMin, Is.EqualTo(60 * hz).Within(0.02 * 60 * hz), $"{quality}");
            Assert.That(quality, Is.GreaterThan(100));
        }
    }

    [Test]
    public void Cadence_ArmSwingAlongUp_IsHalvedToSteps()
    {
        // Power of the swing in the up direction half of the steps': the stride repeats best, the step still repeats.
        double[][] g = [.. new Gait { CadenceHz = 1.9, UpG = 0.5, SwingG = 0.1 }.Make(60, 50)
            .Select((v, i) => new[] { v[0], v[1], v[2] + (0.3 * Math.Sin(Math.PI * 1.9 * i / 50.0)) })];
        List<(double PerMin, int Quality)> found = Cadences(g, 50);
        Assert.That(found.Count(f => Math.Abs(f.PerMin - 114) < 5), Is.GreaterThan(0.9 * found.Count));
    }

    // A machine that shakes six and seven times a second, at a rate low enough for the search to reach it: nobody steps so.
    [TestCase(6.1, 24)]
    [TestCase(6.9, 24)]
    public void Cadence_FasterThanLegs_IsNone(double hz, int rateHz)
    {
        double[][] g = [.. Enumerable.Range(0, 60 * rateHz).Select(i => new[] { 0, 0, 1 + (0.3 * Math.Sin(2 * Math.PI * hz * i / rateHz)) })];
        Assert.That(Cadences(g, rateHz).Where(c => c.PerMin > 300), Is.Empty);
    }

    // Up and down by less than 30/1024 g rms nobody walks. Sums of four samples at 50 Hz let 0.961 of 2 Hz pass: 30.5 mg.
    [TestCase(29, false)]
    [TestCase(32, true)]
    public void Cadence_FaintSteps_AreNone(double rmsMg, bool isFound)
    {
        double[][] g = [.. Enumerable.Range(0, 60 * 50).Select(i => new[] { 0, 0, Math.Sqrt(2) * rmsMg / 1000 * Math.Sin(2 * Math.PI * 2 * i / 50.0) })];
        List<(double PerMin, int Quality)> found = Cadences(g, 50);
        Assert.That(found, Has.Count.GreaterThan(20));
        Assert.That(found.Select(f => f.PerMin > 0), Is.All.EqualTo(isFound));
    }

    [Test]
    public void Cadence_Rest_IsNone()
    {
        var random = new Random(5060);
        double[][] g = [.. Enumerable.Range(0, 3000).Select(_ => new[] { 0.003 * SyntheticEcg.Normal(random), 0.003 * SyntheticEcg.Normal(random), 0.003 * SyntheticEcg.Normal(random) })];
        Assert.That(Cadences(g, 50).All(f => f.PerMin == 0 && f.Quality == 0), Is.True);
    }

    [TestCase(11, 1000)]
    [TestCase(1601, 1000)]
    [TestCase(50, 15)]
    [TestCase(50, 524_289)]
    public void Start_WrongArguments_SaysNo(int rateHz, int codesPerG)
    {
        Assert.That(new MovementLevel().Start(rateHz, codesPerG), Is.False);
        Assert.That(new MovementReference().Start(rateHz, codesPerG), Is.False);
        Assert.That(new CadenceTracker().Start(rateHz, codesPerG), Is.False);
    }

    [Test]
    public void AllStages_CodesAtTheRails_StayBounded()
    {
        MovementLevel level = default;
        CadenceTracker cadence = default;
        level.Start(50, 16);
        cadence.Start(1600, 16);
        NoProbe probe = default;
        for (int i = 0; i < 200_000; i++)
        {
            int code = i / 7 % 2 == 0 ? 524_287 : -524_288;
            level.Next(code, -code, code, ref probe);
            cadence.Next(code, code, -code);
            Assert.That(level.LevelMg, Is.InRange(0, 65_535));
            Assert.That(cadence.CadenceMilliPerMin, Is.InRange(0, 300_000));
        }
    }

    private static MovementLevel Level(int rateHz, int codesPerG, double amplitudeG, int seconds)
    {
        MovementLevel level = default;
        Assert.That(level.Start(rateHz, codesPerG), Is.True);
        NoProbe probe = default;
        for (int i = 0; i < rateHz * seconds; i++)
        {
            level.Next((int)Math.Round(codesPerG * amplitudeG * Math.Sin(2 * Math.PI * 1.9 * i / rateHz)), 0, codesPerG, ref probe);
        }

        return level;
    }

    private static List<(double PerMin, int Quality)> Cadences(double[][] g, int rateHz)
    {
        CadenceTracker tracker = default;
        Assert.That(tracker.Start(rateHz, 1000), Is.True);
        var found = new List<(double, int)>();
        for (int i = 0; i < g.Length; i++)
        {
            int[] codes = Gait.Codes(g[i], 1000);
            if (tracker.Next(codes[0], codes[1], codes[2]) && i > 8 * rateHz)
            {
                found.Add((tracker.CadenceMilliPerMin / 1000.0, tracker.Quality));
            }
        }

        return found;
    }
}
