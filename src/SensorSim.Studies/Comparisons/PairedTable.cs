// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Fitting;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Randomness;
using SensorSim.Studies.FailurePoints;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Comparisons;

/// <summary>One figure of both detectors at one point, or over several: sums for each seed and subject.</summary>
internal sealed class PairedTable
{
    private readonly ComparedColumns _columns;

    // For each detector and column one number for each seed × subject.
    private readonly double[][] _cells = new double[2 * ComparedColumns.Count][];
    private readonly int _seedCount;
    private readonly int _subjectCount;

    /// <summary>Reads the rows.</summary>
    /// <param name="results">Plan and rows of the pair.</param>
    /// <param name="figure">The figure.</param>
    /// <param name="points">Points to pool over.</param>
    public PairedTable(StudyResults results, ComparedFigure figure, IReadOnlyList<int> points)
    {
        _columns = new ComparedColumns(figure);
        StudyPlan plan = results.Plan;
        var rows = points.SelectMany(p => results.At(p, ComparedPair.First).Concat(results.At(p, ComparedPair.Second))).Select(r => (Row: r, Key: plan.KeyOf(r.Run))).ToArray();

        // Seeds that nobody ran (adaptive studies) are none of the sample.
        int[] seeds = [.. rows.Select(r => r.Key.Seed).Distinct().Order()];
        Dictionary<int, int> placeOf = seeds.Select((seed, place) => (seed, place)).ToDictionary(s => s.seed, s => s.place);
        _seedCount = seeds.Length;
        _subjectCount = plan.SubjectCount;
        for (int c = 0; c < _cells.Length; c++)
        {
            _cells[c] = new double[_seedCount * _subjectCount];
        }

        Span<double> values = stackalloc double[ComparedColumns.Count];
        foreach ((RunRow row, RunKey key) in rows)
        {
            EventCounts[key.Detector] += _columns.Read(row, values);
            for (int c = 0; c < values.Length; c++)
            {
                _cells[(key.Detector * ComparedColumns.Count) + c][(placeOf[key.Seed] * _subjectCount) + key.Subject] += values[c];
            }
        }

        RunCount = rows.Length / 2;
    }

    /// <summary>Runs of each detector.</summary>
    public long RunCount { get; }

    /// <summary>Events or readings behind the figure of each detector.</summary>
    public long[] EventCounts { get; } = new long[2];

    /// <summary>The figure of a detector; null when undefined.</summary>
    public double? Figure(int detector) =>
        _columns.Figure(Sums(null).AsSpan(detector * ComparedColumns.Count, ComparedColumns.Count)) is double f && !double.IsNaN(f) ? f : null;

    /// <summary>The interval of the difference; null where there is one seed and subject only, or where it is undefined in one resample in twenty or more.</summary>
    /// <param name="resamples">Resamples.</param>
    /// <param name="confidence">Confidence.</param>
    public Interval? IntervalOfDifference(int resamples, double confidence)
    {
        if (_seedCount < 2 && _subjectCount < 2)
        {
            return null;
        }

        var random = new KeyedRandom(1, "comparisons.resampling");
        var words = new uint[_seedCount + _subjectCount];
        var weights = new double[_seedCount * _subjectCount];
        var found = new List<double>(resamples);
        for (int resample = 0; resample < resamples; resample++)
        {
            random.FillWords(words, (long)resample * words.Length);
            Weigh(words, weights);
            double difference = Difference(weights);
            if (!double.IsNaN(difference))
            {
                found.Add(difference);
            }
        }

        if (found.Count * 20 <= resamples * 19)
        {
            return null;
        }

        found.Sort();
        double moved = CrossingInterval.Confidence(LeftOut(isOfSubjects: false), LeftOut(isOfSubjects: true), confidence);
        return ResamplingIntervals.Percentile(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(found), moved);
    }

    /// <summary>Probability of the swap test over whole seeds, or over whole subjects when there is one seed; 1 when there is one of each.</summary>
    /// <param name="draws">Ways drawn where not all are tried.</param>
    public double SwapP(int draws)
    {
        bool isOfSubjects = _seedCount < 2;
        int units = isOfSubjects ? _subjectCount : _seedCount;
        if (units < 2)
        {
            return 1;
        }

        // Both detectors' columns for each unit.
        var sums = new double[units * _cells.Length];
        for (int c = 0; c < _cells.Length; c++)
        {
            for (int i = 0; i < _cells[c].Length; i++)
            {
                sums[((isOfSubjects ? i % _subjectCount : i / _subjectCount) * _cells.Length) + c] += _cells[c][i];
            }
        }

        var total = new double[_cells.Length];
        return SwapTest.P(
            units,
            isSwapped =>
            {
                Array.Clear(total);
                for (int unit = 0; unit < isSwapped.Length; unit++)
                {
                    for (int c = 0; c < ComparedColumns.Count; c++)
                    {
                        int other = c + ComparedColumns.Count;
                        (int a, int b) = isSwapped[unit] ? (other, c) : (c, other);
                        total[c] += sums[(unit * total.Length) + a];
                        total[other] += sums[(unit * total.Length) + b];
                    }
                }

                return DifferenceOf(total);
            },
            draws: draws);
    }

    private double[] LeftOut(bool isOfSubjects)
    {
        int count = isOfSubjects ? _subjectCount : _seedCount;
        if (count < 2)
        {
            return [];
        }

        var weights = new double[_seedCount * _subjectCount];
        var differences = new List<double>(count);
        for (int left = 0; left < count; left++)
        {
            for (int i = 0; i < weights.Length; i++)
            {
                weights[i] = (isOfSubjects ? i % _subjectCount : i / _subjectCount) == left ? 0 : 1;
            }

            if (Difference(weights) is double d && !double.IsNaN(d))
            {
                differences.Add(d);
            }
        }

        return [.. differences];
    }

    private void Weigh(ReadOnlySpan<uint> words, double[] weights)
    {
        Span<double> drawn = new double[words.Length];
        for (int i = 0; i < words.Length; i++)
        {
            bool isSeed = i < _seedCount;
            int count = isSeed ? _seedCount : _subjectCount;
            drawn[(isSeed ? 0 : _seedCount) + (int)(((ulong)words[i] * (ulong)count) >> 32)]++;
        }

        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] = drawn[i / _subjectCount] * drawn[_seedCount + (i % _subjectCount)];
        }
    }

    private double Difference(double[]? weights) => DifferenceOf(Sums(weights));

    private double DifferenceOf(double[] sums) => _columns.Difference(sums.AsSpan(0, ComparedColumns.Count), sums.AsSpan(ComparedColumns.Count));

    private double[] Sums(double[]? weights)
    {
        var sums = new double[_cells.Length];
        for (int c = 0; c < _cells.Length; c++)
        {
            double[] values = _cells[c];
            double sum = 0;
            for (int i = 0; i < values.Length; i++)
            {
                sum += weights is null ? values[i] : weights[i] * values[i];
            }

            sums[c] = sum;
        }

        return sums;
    }
}
