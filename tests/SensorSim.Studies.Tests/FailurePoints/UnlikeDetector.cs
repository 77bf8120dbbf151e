// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Tests.FailurePoints;

/// <summary>
/// Detectors unlike <see cref="KnownDetector"/> in everything that an interval may have been chosen on: shape and steepness of the curve, how seeds,
/// persons and runs differ, floor, lapse, beats of a run, place of the levels.
/// </summary>
internal sealed record UnlikeDetector
{
    public required double[] Levels { get; init; }

    public int Seeds { get; init; } = 100;

    public int Subjects { get; init; } = 1;

    public double Limit { get; init; } = 0.99;

    public double? PassFraction { get; init; }

    public double Middle { get; init; } = 3;

    public double WidthDb { get; init; } = 2;

    public double Lapse { get; init; } = 0.003;

    public double Floor { get; init; } = 0.3;

    /// <summary>The curve, without floor and lapse, of the distance from the middle in widths.</summary>
    public Func<double, double> Part { get; init; } = Logistic;

    /// <summary>Shift of a seed [widths].</summary>
    public Func<Random, double> SeedShift { get; init; } = _ => 0;

    /// <summary>Shift of a person [widths].</summary>
    public Func<Random, double> SubjectShift { get; init; } = _ => 0;

    /// <summary>Shift of a run [widths].</summary>
    public Func<Random, double> RunShift { get; init; } = _ => 0;

    /// <summary>Beats of a run, from the shift of its seed.</summary>
    public Func<double, Random, int> Beats { get; init; } = (_, _) => 60;

    /// <summary>The worlds, by name.</summary>
    /// <param name="name">Name.</param>
    public static UnlikeDetector Of(string name) => name switch
    {
        // 15 % of seeds are much worse; steep; few found in pure noise; the crossing lies among the last levels.
        "some bad seeds" => new()
        {
            Levels = KnownDetector.Even(36, 4, 9), Seeds = 200, Limit = 0.98, WidthDb = 1.3, Lapse = 0.001, Floor = 0.1,
            SeedShift = r => (0.4 * Normal(r)) - (r.NextDouble() < 0.15 ? 1.5 : 0),
        },

        // Flat, seeds of a heavy tail (Student's t with 4 degrees of freedom), few seeds, long runs, high floor.
        "heavy tail" => new()
        {
            Levels = KnownDetector.Even(30, -18, 9), Seeds = 50, Limit = 0.95, WidthDb = 4, Lapse = 0.008, Floor = 0.6,
            SeedShift = r => 0.5 * Normal(r) / Math.Sqrt(Enumerable.Range(0, 4).Sum(_ => Math.Pow(Normal(r), 2)) / 4), Beats = (_, _) => 150,
        },

        // Fast hearts have more beats and are found worse; normal curve; runs differ more than seeds.
        "unequal beats" => new()
        {
            Levels = KnownDetector.Even(21, -11, 9), Limit = 0.97, Part = x => CurveLink.Probit.Share(x / 1.5), WidthDb = 2.6, Lapse = 0.005, Floor = 0,
            SeedShift = r => 0.5 * Normal(r), RunShift = r => 0.7 * Normal(r), Beats = (shift, r) => Math.Clamp((int)(60 - (30 * shift) + (10 * Normal(r))), 20, 150),
        },

        // Twelve persons, most alike and a few much worse.
        "skew persons" => new()
        {
            Levels = KnownDetector.Even(30, -6, 13), Seeds = 50, Subjects = 12, WidthDb = 1.7, Lapse = 0.002, Floor = 0.2,
            SeedShift = r => 0.4 * Normal(r), SubjectShift = r => 0.5 * (1 + Math.Log(1 - r.NextDouble())), RunShift = r => 0.3 * Normal(r),
        },

        // A curve with long tails (Cauchy's), no lapse, 40 beats.
        "long tail" => new()
        {
            Levels = KnownDetector.Even(16, -16, 9), Limit = 0.95, Part = x => 0.5 + (Math.Atan(1.5 * x) / Math.PI), WidthDb = 1.5, Lapse = 0, Floor = 0.25, Middle = -4,
            SeedShift = r => 0.7 * Normal(r), Beats = (_, _) => 40,
        },
        "share of runs, some bad seeds" => Of("some bad seeds") with { Limit = 0.95, PassFraction = 0.9 },
        "share of runs, unequal beats" => Of("unequal beats") with { Limit = 0.95, PassFraction = 0.5 },
        _ => throw new ArgumentException(name, nameof(name)),
    };

    /// <summary>The level of the failure point, from many draws of seeds, persons and runs.</summary>
    public double Truth()
    {
        var random = new Random(20);
        var draws = new (double Shift, int Beats)[PassFraction is null ? 200_000 : 40_000];
        for (int i = 0; i < draws.Length; i++)
        {
            double seed = SeedShift(random);
            draws[i] = (seed + SubjectShift(random) + RunShift(random), Beats(seed, random));
        }

        double beats = draws.Sum(d => (double)d.Beats);
        return PassFraction is double share
            ? KnownDetector.LevelWhere(x => draws.Average(d => AtLeast(d.Beats, Limit, Finds(x, d.Shift))), share)
            : KnownDetector.LevelWhere(x => draws.Sum(d => d.Beats * Finds(x, d.Shift)) / beats, Limit);
    }

    public StudyPlan Plan() => KnownDetector.Plan(Levels, Seeds, Subjects, Limit) with { FailurePoint = new FailurePointSettings { Resamples = 300, PassFraction = PassFraction } };

    public StudyResults Study(StudyPlan plan, int world) => new(plan, [.. Enumerable.Range(0, (int)plan.RunCount).Select(run => Row(plan, run, world))]);

    /// <summary>A run of the plan, drawn from its own random numbers.</summary>
    public RunRow Row(StudyPlan plan, long run, int world)
    {
        RunKey key = plan.KeyOf(run);
        var ofSeed = new Random(KnownDetector.HashCode(world, 5, key.Seed));
        var random = new Random(KnownDetector.HashCode(world, 6, (int)run));
        double shift = SeedShift(ofSeed);
        int beats = Beats(shift, ofSeed);
        shift += SubjectShift(new Random(KnownDetector.HashCode(world, 7, key.Subject))) + RunShift(random);
        double p = Finds((double)plan.Points[key.Point].Values[0], shift);
        int found = 0;
        for (int beat = 0; beat < beats; beat++)
        {
            found += random.NextDouble() < p ? 1 : 0;
        }

        return KnownDetector.RowOf(run, new DetectionCounts(found, beats - found, 0));
    }

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-x));

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    // The chance that at least a share of beats is found.
    private static double AtLeast(int beats, double limit, double p)
    {
        double sum = 0;
        double term = Math.Pow(p, beats);
        for (int k = beats; k >= 0 && (double)k / beats >= limit; k--)
        {
            sum += term;
            term *= k * (1 - p) / ((beats - k + 1) * p);
        }

        return sum;
    }

    private double Finds(double level, double shift) => Floor + ((1 - Floor - Lapse) * Part(((level - Middle) / WidthDb) + shift));
}
