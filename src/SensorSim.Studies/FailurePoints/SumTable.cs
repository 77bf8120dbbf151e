// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The columns of one detector at the levels of one key, for each seed and subject: resampling only weighs and adds them.</summary>
internal sealed class SumTable
{
    // Column c of level l: [l, c] holds one number for each seed × subject.
    private readonly double[][] _cells;
    private readonly int _seedCount;
    private readonly int _subjectCount;

    /// <summary>Reads the rows.</summary>
    /// <param name="results">Plan and rows.</param>
    /// <param name="detector">Index of the detector.</param>
    /// <param name="group">The levels.</param>
    /// <param name="columns">The columns.</param>
    public SumTable(StudyResults results, int detector, SearchGroup group, FigureColumns columns)
    {
        StudyPlan plan = results.Plan;
        _subjectCount = plan.SubjectCount;
        var found = new List<(double Level, int Point, RunRow[] Rows)>();
        foreach ((double level, int point) in group.Points)
        {
            RunRow[] rows = [.. results.At(point, detector)];
            if (rows.Length > 0)
            {
                found.Add((level, point, rows));
            }
        }

        // Seeds nobody ran are none of the sample; those that ran at some levels only (adaptive studies) are.
        int[] seeds = [.. found.SelectMany(f => f.Rows).Select(r => plan.KeyOf(r.Run).Seed).Distinct().Order()];
        var placeOf = seeds.Select((seed, place) => (seed, place)).ToDictionary(s => s.seed, s => s.place);
        _seedCount = seeds.Length;
        Levels = [.. found.Select(f => f.Level)];
        Points = [.. found.Select(f => f.Point)];
        RunCounts = [.. found.Select(f => (long)f.Rows.Length)];
        EventCounts = new long[found.Count];
        _cells = new double[found.Count * FigureColumns.Count][];
        Span<double> values = stackalloc double[FigureColumns.Count];
        for (int level = 0; level < found.Count; level++)
        {
            for (int c = 0; c < FigureColumns.Count; c++)
            {
                _cells[(level * FigureColumns.Count) + c] = new double[_seedCount * _subjectCount];
            }

            foreach (RunRow row in found[level].Rows)
            {
                RunKey key = plan.KeyOf(row.Run);
                EventCounts[level] += columns.Read(row, values);
                for (int c = 0; c < FigureColumns.Count; c++)
                {
                    _cells[(level * FigureColumns.Count) + c][(placeOf[key.Seed] * _subjectCount) + key.Subject] = values[c];
                }
            }
        }
    }

    /// <summary>Levels with rows, ascending.</summary>
    public double[] Levels { get; }

    /// <summary>Indices of their points.</summary>
    public int[] Points { get; }

    /// <summary>Runs at each level.</summary>
    public long[] RunCounts { get; }

    /// <summary>Events or readings at each level.</summary>
    public long[] EventCounts { get; }

    /// <summary>Seeds with rows.</summary>
    public int SeedCount => _seedCount;

    /// <summary>Subjects.</summary>
    public int SubjectCount => _subjectCount;

    /// <summary>Sums of the columns over all runs, level by level.</summary>
    public double[] Totals()
    {
        var sums = new double[_cells.Length];
        double[] ones = new double[_seedCount * _subjectCount];
        Array.Fill(ones, 1);
        Add(ones, sums);
        return sums;
    }

    /// <summary>Sums of the columns in resamples of whole seeds and whole subjects, each drawn with replacement.</summary>
    /// <param name="count">Resamples.</param>
    /// <param name="seed">Seed of the drawing.</param>
    /// <returns>For each resample the sums as <see cref="Totals"/> gives them.</returns>
    public double[][] Resample(int count, ulong seed)
    {
        var random = new KeyedRandom(seed, "studies.resampling");
        var words = new uint[_seedCount + _subjectCount];
        var seedWeights = new double[_seedCount];
        var subjectWeights = new double[_subjectCount];
        var weights = new double[_seedCount * _subjectCount];
        var resamples = new double[count][];
        for (int resample = 0; resample < count; resample++)
        {
            random.FillWords(words, (long)resample * words.Length);
            Draw(words.AsSpan(0, _seedCount), seedWeights);
            Draw(words.AsSpan(_seedCount), subjectWeights);
            for (int i = 0; i < weights.Length; i++)
            {
                weights[i] = seedWeights[i / _subjectCount] * subjectWeights[i % _subjectCount];
            }

            resamples[resample] = new double[_cells.Length];
            Add(weights, resamples[resample]);
        }

        return resamples;
    }

    /// <summary>Sums of the columns with one seed, or one subject, left out.</summary>
    /// <param name="isOfSubjects">Whether subjects are left out instead of seeds.</param>
    /// <returns>For each seed (subject) the sums as <see cref="Totals"/> gives them; empty when there is only one.</returns>
    public double[][] LeftOut(bool isOfSubjects)
    {
        int count = isOfSubjects ? _subjectCount : _seedCount;
        if (count < 2)
        {
            return [];
        }

        double[] totals = Totals();
        var leftOut = new double[count][];
        for (int left = 0; left < count; left++)
        {
            leftOut[left] = (double[])totals.Clone();
            for (int cell = 0; cell < _cells.Length; cell++)
            {
                for (int i = isOfSubjects ? left : left * _subjectCount; i < (isOfSubjects ? _cells[cell].Length : (left + 1) * _subjectCount); i += isOfSubjects ? _subjectCount : 1)
                {
                    leftOut[left][cell] -= _cells[cell][i];
                }
            }
        }

        return leftOut;
    }

    private static void Draw(ReadOnlySpan<uint> words, Span<double> weights)
    {
        weights.Clear();
        foreach (uint word in words)
        {
            weights[(int)(((ulong)word * (ulong)weights.Length) >> 32)]++;
        }
    }

    private void Add(double[] weights, double[] sums)
    {
        for (int cell = 0; cell < _cells.Length; cell++)
        {
            double[] values = _cells[cell];
            double sum = 0;
            for (int i = 0; i < values.Length; i++)
            {
                sum += weights[i] * values[i];
            }

            sums[cell] = sum;
        }
    }
}
