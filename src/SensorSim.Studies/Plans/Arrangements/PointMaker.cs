// SPDX-License-Identifier: MIT
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;

namespace SensorSim.Studies.Plans.Arrangements;

/// <summary>From what a file varies to factors and points; says what stands in the way.</summary>
internal static class PointMaker
{
    /// <summary>Factors and points of a study.</summary>
    /// <param name="file">The study.</param>
    /// <param name="varied">What is varied, as the file has it, or with the detector's own keys.</param>
    /// <param name="scenario">The scenario, for the base of one key at a time.</param>
    /// <param name="detectors">The detectors, for the base of their constants.</param>
    /// <exception cref="ScenarioException">There are too many points, or one of them has no base value.</exception>
    public static (IReadOnlyList<Factor> Factors, IReadOnlyList<StudyPoint> Points) Make(
        StudyFile file, IReadOnlyList<VariedKey> varied, Scenario scenario, IReadOnlyList<DetectorChoice> detectors)
    {
        bool isHypercube = file.PointCount > 0;
        IReadOnlyList<Factor> factors = Arrangement.Factors(varied, isHypercube);
        if (isHypercube)
        {
            return (factors, Arrangement.Hypercube(varied, file.PointCount, file.ArrangementSeed));
        }

        RefuseTwice(file, factors);
        if (file.Arrangement == StudySectionKeys.Arrangement.Default)
        {
            double count = factors.Aggregate(1.0, (product, f) => product * f.Levels.Count);
            return count <= Arrangement.MostPoints ? (factors, Arrangement.Grid(factors)) : throw Wrong(file, 0, FormattableString.Invariant(
                $"the grid has {count:0} points; {Arrangement.MostPoints} at most, so vary fewer keys, or choose arrangement = \"latin_hypercube\""));
        }

        object[] baseValues = [.. factors.Select((f, i) => BaseOf(file, f, i, scenario, detectors))];
        return (factors, Arrangement.OneAtATime(factors, baseValues));
    }

    // Whole numbers are rounded, so two neighbours may fall together.
    private static void RefuseTwice(StudyFile file, IReadOnlyList<Factor> factors)
    {
        for (int i = 0; i < factors.Count; i++)
        {
            if (factors[i].Levels.Distinct().Count() < factors[i].Levels.Count)
            {
                throw Wrong(file, i, $"the values of {factors[i].Key.Name} lie so close that two are the same once rounded; lower vary.count");
            }
        }
    }

    private static object BaseOf(StudyFile file, Factor factor, int index, Scenario scenario, IReadOnlyList<DetectorChoice> detectors)
    {
        if (factor.IsOfDetector)
        {
            double?[] own = [.. detectors.Select(d => d.Constants.TryGetValue(factor.Key.Name, out double value) ? value : (double?)null).Distinct()];
            return own is [double one] ? one : throw Wrong(
                file, index, $"one_at_a_time needs a base value of {factor.Key.Name}; give every detector the same one: constants = {{ {factor.Key.Key} = … }}");
        }

        if (!factor.Key.HasDefault && !scenario.Values.IsSet(factor.Key))
        {
            throw Wrong(file, index, $"one_at_a_time needs a base value of {factor.Key.Name}, and the scenario does not set it; set it there");
        }

        return factor.Key switch
        {
            NumberKey number => scenario.Values[number],
            ChoiceKey choice => scenario.Values[choice],
            _ => throw new InvalidOperationException($"{factor.Key.Name} has neither numbers nor words."),
        };
    }

    private static ScenarioException Wrong(StudyFile file, int index, string message) => new([file.Mistake(file.PlaceOf(VaryKeys.Key, index), message)]);
}
