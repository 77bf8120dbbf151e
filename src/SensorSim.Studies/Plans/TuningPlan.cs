// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Studies.Rows;

namespace SensorSim.Studies.Plans;

/// <summary>
/// Divides a study with <c>[tuning]</c> in two: constants are chosen on the tuning seeds, then scored on the study's own seeds, which had no part
/// in the choice. So the figures are not flattered by it.
/// </summary>
public static class TuningPlan
{
    /// <summary>The study that is run first: all points on the tuning seeds.</summary>
    /// <param name="plan">A study with <see cref="StudyPlan.Tuning"/>.</param>
    public static StudyPlan Split(StudyPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Tuning is TuningSettings tuning
            ? plan with { Seeds = tuning.Seeds, Tuning = null }
            : throw new ArgumentException("Nothing is tuned in this study.", nameof(plan));
    }

    /// <summary>Chooses the constants of each detector and gives the study that scores them.</summary>
    /// <param name="plan">The study with its <see cref="StudyPlan.Tuning"/>.</param>
    /// <param name="tuned">Results of <see cref="Split"/>.</param>
    /// <returns>The study of the chosen constants on its own seeds, and what was chosen.</returns>
    /// <exception cref="ScenarioException">No run has the figure that decides.</exception>
    /// <remarks>
    /// The figure of the first requirement decides, pooled over all points of the scenario's keys, seeds and persons; of several channels the
    /// worst. An undefined figure is worse than any. Of equal ones the first in the order of the points is taken.
    /// </remarks>
    public static (StudyPlan Score, IReadOnlyList<TunedConstants> Chosen) Choose(StudyPlan plan, StudyResults tuned)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(tuned);
        RequirementDefinition first = plan.Requirements[0].Definition;
        RequirementOnRow[] deciding = [.. tuned.Requirements.Where(r => r.Definition == first)];
        if (deciding.Length == 0)
        {
            FilePlace place = plan.Source?.PlaceOf(first.Key) ?? default;
            throw new ScenarioException([new ScenarioMistake(
                plan.File, place.Line, place.Column, $"{first.Key.Name} decides what is best, and no run has such a figure; put a requirement first that the scenario's channels have")]);
        }

        int[] constants = [.. Enumerable.Range(0, plan.Factors.Count).Where(f => plan.Factors[f].IsOfDetector)];
        TunedConstants[] chosen = [.. plan.Detectors.Select((_, d) => Best(tuned, d, constants, deciding))];
        return (Score(plan, constants, chosen), chosen);
    }

    private static TunedConstants Best(StudyResults tuned, int detector, int[] constants, RequirementOnRow[] deciding)
    {
        IReadOnlyList<double>? best = null;
        double? bestFigure = null;
        foreach (IGrouping<string, StudyPoint> same in tuned.Plan.Points.GroupBy(p => string.Join(' ', constants.Select(f => PointChecks.Text(p.Values[f])))))
        {
            RunRow[] rows = [.. same.SelectMany(p => tuned.At(p.Index, detector))];
            double? figure = Worst(rows, deciding);
            if (best is null || IsBetter(figure, bestFigure, deciding[0].IsLeast))
            {
                best = [.. constants.Select(f => (double)same.First().Values[f])];
                bestFigure = figure;
            }
        }

        return new TunedConstants(detector, [.. constants.Zip(best!).Select(c => (tuned.Plan.Factors[c.First].Key.Name, c.Second))], bestFigure);
    }

    private static double? Worst(RunRow[] rows, RequirementOnRow[] deciding)
    {
        double? worst = null;
        foreach (RequirementOnRow requirement in deciding)
        {
            var pool = new RunPool(requirement.Definition, requirement.Channel);
            foreach (RunRow row in rows)
            {
                pool.Add(row);
            }

            if (pool.Figure is not double figure)
            {
                return null;
            }

            worst = worst is null || IsBetter(worst, figure, requirement.IsLeast) ? figure : worst;
        }

        return worst;
    }

    private static bool IsBetter(double? figure, double? other, bool isLeast) =>
        figure is double a && (other is not double b || (isLeast ? a > b : Math.Abs(a) < Math.Abs(b)));

    private static StudyPlan Score(StudyPlan plan, int[] constants, TunedConstants[] chosen)
    {
        int[] rest = [.. Enumerable.Range(0, plan.Factors.Count).Except(constants)];
        IEnumerable<IReadOnlyList<object>> values = plan.Points
            .Select(p => (IReadOnlyList<object>)[.. rest.Select(f => p.Values[f])])
            .DistinctBy(v => string.Join(' ', v.Select(PointChecks.Text)));
        return plan with
        {
            Tuning = null,
            Factors = [.. rest.Select(f => plan.Factors[f])],
            Points = [.. values.Select((v, i) => new StudyPoint(i, v))],
            Detectors = [.. plan.Detectors.Select((d, i) => With(d, chosen[i]))],
        };
    }

    private static DetectorChoice With(DetectorChoice detector, TunedConstants chosen)
    {
        var constants = new SortedDictionary<string, double>(StringComparer.Ordinal);
        foreach ((string name, double value) in detector.Constants)
        {
            constants[name] = value;
        }

        foreach ((string name, double value) in chosen.Constants)
        {
            constants[name] = value;
        }

        return detector with { Constants = constants };
    }
}
