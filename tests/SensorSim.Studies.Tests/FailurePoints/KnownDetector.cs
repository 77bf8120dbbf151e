// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests.FailurePoints;

/// <summary>
/// A detector of which everything is known: it finds each beat with a probability that depends on level, seed and person. Seed and person shift the
/// curve at all levels alike, as common random numbers do, so beats of a seed are not independent and neither are levels.
/// </summary>
internal sealed record KnownDetector
{
    public const string Key = "ecg_noise.muscle_snr_db";

    /// <summary>Level at the middle of its curve [dB].</summary>
    public double Middle { get; init; } = 2.3;

    /// <summary>Width of its curve [dB].</summary>
    public double WidthDb { get; init; } = 2.2;

    public double Lapse { get; init; } = 0.003;

    public double Floor { get; init; } = 0.3;

    /// <summary>Standard deviation between seeds, shared by all levels [widths].</summary>
    public double SeedSd { get; init; } = 0.8;

    /// <summary>Standard deviation between runs of one seed [widths].</summary>
    public double RunSd { get; init; } = 0.3;

    /// <summary>Standard deviation between persons [widths].</summary>
    public double SubjectSd { get; init; }

    /// <summary>Whether its curve is skew (complementary log-log) instead of logistic.</summary>
    public bool IsSkew { get; init; }

    public int BeatsPerRun { get; init; } = 60;

    public double Finds(double level, double shift)
    {
        double line = ((level - Middle) / WidthDb) + shift;
        double part = IsSkew ? 1 - Math.Exp(-Math.Exp(0.7 * line)) : 1 / (1 + Math.Exp(-line));
        return Floor + ((1 - Floor - Lapse) * part);
    }

    /// <summary>Share of beats found at a level in the mean over everything.</summary>
    public double Pooled(double level) => Mean(shift => Finds(level, shift));

    /// <summary>Share of runs at a level in which at least a share of the beats is found.</summary>
    public double Passing(double level, double limit)
    {
        int least = 0;
        while ((double)least / BeatsPerRun < limit)
        {
            least++;
        }

        return Mean(shift =>
        {
            double p = Finds(level, shift);
            double sum = 0;
            double term = Math.Pow(p, BeatsPerRun);
            for (int k = BeatsPerRun; k >= least; k--)
            {
                sum += term;
                term *= k * (1 - p) / ((BeatsPerRun - k + 1) * p);
            }

            return sum;
        });
    }

    /// <summary>The level at which a rising function reaches a target.</summary>
    public static double LevelWhere(Func<double, double> rising, double target)
    {
        double low = -60;
        double high = 80;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = rising(middle) >= target ? (low, middle) : (middle, high);
        }

        return high;
    }

    /// <summary>A run of the plan, drawn from its own random numbers.</summary>
    public RunRow Row(StudyPlan plan, long run, int world)
    {
        RunKey key = plan.KeyOf(run);
        double level = (double)plan.Points[key.Point].Values[0];
        double shift = (SeedSd * Normal(HashCode(world, 1, key.Seed)))
            + (SubjectSd * Normal(HashCode(world, 2, key.Subject))) + (RunSd * Normal(HashCode(world, 3, (int)run)));
        double p = Finds(level, shift);
        var random = new Random(HashCode(world, 4, (int)run));
        int found = 0;
        for (int beat = 0; beat < BeatsPerRun; beat++)
        {
            found += random.NextDouble() < p ? 1 : 0;
        }

        return RowOf(run, new DetectionCounts(found, BeatsPerRun - found, 0));
    }

    public StudyResults Study(StudyPlan plan, int world)
    {
        var rows = new RunRow[plan.RunCount];
        for (long run = 0; run < rows.Length; run++)
        {
            rows[run] = Row(plan, run, world);
        }

        return new StudyResults(plan, rows);
    }

    public static RunRow RowOf(long run, DetectionCounts counts, long timingNs = 0) => new()
    {
        Run = run,
        Verdict = Verdict.Answered,
        VerdictReason = "",
        SampleCount = 1,
        MarkCount = counts.Matched + counts.Extra,
        ScoredNs = 51_000_000_000,
        Events =
        [
            new EventRow
            {
                Channel = ChannelName.Ecg,
                Kind = MarkKind.RPeak,
                Counts = counts,
                TimedCount = counts.Matched,
                TimingSumNs = timingNs * counts.Matched,
                TimingSquaresNs = (Int128)timingNs * timingNs * counts.Matched,
                TimingP95Ns = counts.Matched == 0 ? null : timingNs,
                UnusableTruth = 0,
                UnusableDetections = 0,
            },
        ],
        Readings = [],
    };

    public static StudyPlan Plan(double[] levels, int seeds, int subjects = 1, double limit = 0.99, string requirement = "r_peak_sensitivity_min") => new()
    {
        Title = "known",
        File = "known.toml",
        Text = "",
        Scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 60\n", "x.toml"),
        Factors = [new Factor(AllKeys.Find(Key)!, [.. levels.Cast<object>()])],
        Points = [.. levels.Select((l, i) => new StudyPoint(i, [l]))],
        Seeds = [.. Enumerable.Range(1, seeds).Select(s => (ulong)s)],
        SubjectSeeds = subjects == 1 ? [] : [.. Enumerable.Range(1, subjects).Select(s => (ulong)s)],
        Detectors = [new DetectorChoice { Label = "known" }],
        Requirements = [(RequirementKeys.All.First(r => r.Key.Name == $"requirements.{requirement}"), limit)],
    };

    public static double[] Even(double from, double to, int count) => [.. Enumerable.Range(0, count).Select(i => from + ((to - from) * i / (count - 1)))];

    private double Mean(Func<double, double> of)
    {
        double sd = Math.Sqrt((SeedSd * SeedSd) + (RunSd * RunSd) + (SubjectSd * SubjectSd));
        double sum = 0;
        double weight = 0;
        for (double z = -7; z <= 7; z += 0.05)
        {
            double w = Math.Exp(-0.5 * z * z);
            sum += w * of(sd * z);
            weight += w;
        }

        return sum / weight;
    }

    /// <summary>A seed of random numbers; close arguments give seeds that have nothing in common, as close seeds do not.</summary>
    public static int HashCode(int world, int what, int index)
    {
        unchecked
        {
            ulong x = ((ulong)(uint)world << 34) ^ ((ulong)(uint)what << 32) ^ (uint)index;
            x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9;
            x = (x ^ (x >> 27)) * 0x94D049BB133111EB;
            return (int)((x ^ (x >> 31)) >> 33);
        }
    }

    // Box and Muller.
    private static double Normal(int seed)
    {
        var random = new Random(seed);
        return Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }
}
