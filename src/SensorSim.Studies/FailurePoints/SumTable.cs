// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.FailurePoints;

/// <summary>The columns of one detector at the levels of one key, for each seed and subject: resampling only weighs and adds them.</summary>
internal sealed class SumTable
{
    // Seed × subject after seed × subject: the columns of all levels, level by level. A sum goes along the seeds and subjects in their order.
    private readonly double[] _cells;
    private readonly int _cellCount;
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
        _cellCount = found.Count * FigureColumns.Count;
        _cells = new double[_seedCount * _subjectCount * _cellCount];
        for (int level = 0; level < found.Count; level++)
        {
            foreach (RunRow row in found[level].Rows)
            {
                RunKey key = plan.KeyOf(row.Run);
                Span<double> own = CellsOf((placeOf[key.Seed] * _subjectCount) + key.Subject);
                EventCounts[level] += columns.Read(row, own.Slice(level * FigureColumns.Count, FigureColumns.Count));
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
        var sums = new double[_cellCount];
        for (int i = 0; i < _seedCount * _subjectCount; i++)
        {
            Add(1, CellsOf(i), sums);
        }

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
        var resamples = new double[count][];
        for (int resample = 0; resample < count; resample++)
        {
            random.FillWords(words, (long)resample * words.Length);
            Draw(words.AsSpan(0, _seedCount), seedWeights);
            Draw(words.AsSpan(_seedCount), subjectWeights);
            resamples[resample] = new double[_cellCount];
            for (int i = 0; i < _seedCount; i++)
            {
                for (int j = 0; j < _subjectCount; j++)
                {
                    // Whom nobody drew adds nothing: more than a third.
                    if (seedWeights[i] * subjectWeights[j] is double weight && weight != 0)
                    {
                        Add(weight, CellsOf((i * _subjectCount) + j), resamples[resample]);
                    }
                }
            }
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
            for (int i = 0; i < (isOfSubjects ? _seedCount : _subjectCount); i++)
            {
                Add(-1, CellsOf(isOfSubjects ? (i * _subjectCount) + left : (left * _subjectCount) + i), leftOut[left]);
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

    private Span<double> CellsOf(int seedAndSubject) => _cells.AsSpan(seedAndSubject * _cellCount, _cellCount);

    // The cells know nothing of each other, so no addition waits for the one before it.
    private static void Add(double weight, ReadOnlySpan<double> cells, double[] sums)
    {
        for (int i = 0; i < cells.Length && i < sums.Length; i++)
        {
            sums[i] += weight * cells[i];
        }
    }
}
