// SPDX-License-Identifier: MIT
using SensorSim.Studies.Rows;

namespace SensorSim.Reports.StudyReports;

/// <summary>What all runs of a detector at a point give together, for one requirement.</summary>
/// <param name="Figure">The pooled figure; null when undefined.</param>
/// <param name="IsMet">Whether it meets the requirement.</param>
/// <param name="RunCount">Runs.</param>
/// <param name="RunsThatMeet">Runs that meet the requirement by themselves.</param>
internal readonly record struct PooledFigure(double? Figure, bool IsMet, long RunCount, long RunsThatMeet);

/// <summary>Everything pooled once, for all tables and figures of a report.</summary>
internal sealed class PooledFigures
{
    private readonly PooledFigure[] _atPoints;
    private readonly PooledFigure[] _overall;
    private readonly int _points;
    private readonly int _detectors;

    internal PooledFigures(StudyResults results)
    {
        Results = results;
        Requirements = results.Requirements;
        _points = results.Plan.Points.Count;
        _detectors = results.Plan.Detectors.Count;
        _atPoints = new PooledFigure[Requirements.Count * _points * _detectors];
        _overall = new PooledFigure[Requirements.Count * _detectors];
        Rows = new RunRow[_points * _detectors][];
        for (int point = 0; point < _points; point++)
        {
            for (int detector = 0; detector < _detectors; detector++)
            {
                Rows[(point * _detectors) + detector] = [.. results.At(point, detector)];
            }
        }

        for (int r = 0; r < Requirements.Count; r++)
        {
            for (int detector = 0; detector < _detectors; detector++)
            {
                Pool(r, detector);
            }
        }
    }

    internal StudyResults Results { get; }

    /// <summary>The requirements, each on each of its channels.</summary>
    internal IReadOnlyList<RequirementOnRow> Requirements { get; }

    private RunRow[][] Rows { get; }

    internal PooledFigure At(int requirement, int point, int detector) => _atPoints[(((requirement * _points) + point) * _detectors) + detector];

    /// <summary>Over all points.</summary>
    internal PooledFigure Overall(int requirement, int detector) => _overall[(requirement * _detectors) + detector];

    internal IReadOnlyList<RunRow> RowsAt(int point, int detector) => Rows[(point * _detectors) + detector];

    private void Pool(int index, int detector)
    {
        RequirementOnRow requirement = Requirements[index];
        var overall = new RunPool(requirement.Definition, requirement.Channel);
        long metOverall = 0;
        for (int point = 0; point < _points; point++)
        {
            var pool = new RunPool(requirement.Definition, requirement.Channel);
            long met = 0;
            foreach (RunRow row in RowsAt(point, detector))
            {
                pool.Add(row);
                overall.Add(row);
                met += requirement.IsMetBy(row) ? 1 : 0;
            }

            metOverall += met;
            _atPoints[(((index * _points) + point) * _detectors) + detector] = new PooledFigure(pool.Figure, requirement.IsMetBy(pool.Figure), pool.RunCount, met);
        }

        _overall[(index * _detectors) + detector] = new PooledFigure(overall.Figure, requirement.IsMetBy(overall.Figure), overall.RunCount, metOverall);
    }
}
