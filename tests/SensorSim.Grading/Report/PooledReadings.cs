// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scoring.Report;
using SensorSim.Scoring.Statistics;
using SensorSim.Signals.Marks;

namespace SensorSim.Grading.Report;

/// <summary>Scores of one kind of reading over several records, on whichever channels it was given.</summary>
internal sealed class PooledReadings
{
    private readonly PooledErrors _errors = new();

    /// <summary>Pools rows of several reports.</summary>
    /// <param name="reports">The reports.</param>
    /// <param name="isWanted">Which rows.</param>
    public PooledReadings(IEnumerable<ScoreReport> reports, Func<ReadingScore, bool> isWanted)
    {
        foreach (ReadingScore score in reports.SelectMany(r => r.Readings).Where(isWanted))
        {
            _errors.Add(score.Count, score.Bias, score.Sd);
            Wrong += score.Wrong;
            InUnusable += score.InUnusableCount;
            Judged += score.JudgedCount;
            Unjudged += score.UnjudgedCount;
            Given += score.JudgedCount + score.UnjudgedCount + score.OutsideCount;
            UsableS += score.UsableS;
            AvailableS += score.AvailableS;
            if (score.FirstReadingS is double first)
            {
                LatestFirstS = Math.Max(LatestFirstS ?? 0, first);
            }
        }
    }

    /// <summary>Pools a kind.</summary>
    public PooledReadings(IEnumerable<ScoreReport> reports, MarkKind kind)
        : this(reports, r => r.Kind == kind)
    {
    }

    /// <summary>Readings, scored or not.</summary>
    public long Given { get; }

    /// <summary>Readings that could be judged.</summary>
    public long Judged { get; }

    /// <summary>Readings that truth could not judge.</summary>
    public long Unjudged { get; }

    /// <summary>Wrong readings.</summary>
    public long Wrong { get; }

    /// <summary>Of these, in unusable stretches.</summary>
    public long InUnusable { get; }

    /// <summary>Usable time [s].</summary>
    public double UsableS { get; }

    /// <summary>Of it, with a reading [s].</summary>
    public double AvailableS { get; }

    /// <summary>First reading of the record in which it came last [s].</summary>
    public double? LatestFirstS { get; }

    /// <summary>Mean error in the kind's unit.</summary>
    public double? Bias => _errors.Mean;

    /// <summary>Its standard deviation.</summary>
    public double? Sd => _errors.Sd;

    /// <summary>Root of the mean square.</summary>
    public double? Rms => _errors.Rms;

    /// <summary>Wrong readings among those judged; null when none was given.</summary>
    public double? WrongOrNull => Given == 0 ? null : Wrong;

    /// <summary>Counts in words.</summary>
    public string WrongText => Given == 0 ? "-" : FormattableString.Invariant($"{Wrong} of {Judged} wrong");

    /// <summary>Errors in words.</summary>
    public string ErrorText(string unit) => Given == 0 || Bias is null
        ? "-"
        : $"bias {Figures.Text(Bias)} {unit}, SD {Figures.Text(Sd)} {unit}, root mean square {Figures.Text(Rms)} {unit}; {WrongText}";

    /// <summary>Interval of a mean number of events a day, from a count over days.</summary>
    public static string PerDay(long count, double days)
    {
        Interval i = EventRates.Interval95(count);
        string format = count > 10 * days ? "0" : "0.0#";
        string Text(double value) => value.ToString(format, CultureInfo.InvariantCulture);
        return $"{Text(count / days)} a day ({Text(i.Low / days)} to {Text(i.High / days)})";
    }
}
