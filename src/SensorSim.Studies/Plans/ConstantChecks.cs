// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Detectors.Choices;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans.Arrangements;

namespace SensorSim.Studies.Plans;

/// <summary>Holds the constants of a study against what its detectors have.</summary>
internal static class ConstantChecks
{
    /// <summary>The study with the detectors' own keys in place of the file's names.</summary>
    public static StudyPlan Check(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(factories);
        if (factories.Count != plan.Detectors.Count)
        {
            throw new ArgumentException("One factory for each detector.", nameof(factories));
        }

        var mistakes = new List<ScenarioMistake>();
        for (int d = 0; d < factories.Count; d++)
        {
            foreach ((string name, double value) in plan.Detectors[d].Constants)
            {
                int detector = d;
                FilePlace Place() => plan.Source?.PlaceOfConstant(name, detector) ?? default;
                if (Find(plan, d, factories[d], name, m => mistakes.Add(Mistake(plan, Place(), m))) is NumberKey key)
                {
                    Hold(key, value, m => mistakes.Add(Mistake(plan, Place(), m)));
                }
            }
        }

        NumberKey?[] keys = [.. plan.Factors.Select((f, i) => f.IsOfDetector ? KeyOf(plan, factories, i, mistakes) : null)];
        ThrowIfAny(mistakes);
        StudyPlan known = WithKeys(plan, keys);
        for (int f = 0; f < keys.Length; f++)
        {
            if (keys[f] is NumberKey key)
            {
                // Several detectors may state several ranges; each value must lie within all of them.
                foreach (object value in known.Points.Select(p => p.Values[f]).Distinct())
                {
                    foreach (IDetectorFactory factory in factories)
                    {
                        Hold(factory.Constants.First(k => k.Name == key.Name), (double)value, m => mistakes.Add(Mistake(plan, VaryPlace(plan, f), m)));
                    }
                }
            }
        }

        ThrowIfAny(mistakes);
        return known;
    }

    private static NumberKey? KeyOf(StudyPlan plan, IReadOnlyList<IDetectorFactory> factories, int factor, List<ScenarioMistake> mistakes)
    {
        NumberKey? key = null;
        for (int d = 0; d < factories.Count; d++)
        {
            NumberKey? own = Find(plan, d, factories[d], plan.Factors[factor].Key.Name, m => mistakes.Add(Mistake(plan, VaryPlace(plan, factor), m)));
            key ??= own;
        }

        return key;
    }

    // Every detector of the study must have it: one without would be run at each value for nothing.
    private static NumberKey? Find(StudyPlan plan, int detector, IDetectorFactory factory, string name, Action<string> report)
    {
        NumberKey? key = factory.Constants.FirstOrDefault(k => k.Name == name);
        if (key is null)
        {
            DetectorChoice choice = plan.Detectors[detector];
            report(factory.Constants.Count == 0
                ? $"{name} is no constant of the detector \"{choice.Label}\", which has none; leave it out"
                : $"{name} is no constant of the detector \"{choice.Label}\"; the nearest is {NearestName.Find(name, factory.Constants.Select(k => k.Name))}");
        }

        return key;
    }

    private static void Hold(NumberKey key, double value, Action<string> report)
    {
        string range = $"{Text(key.Minimum)} to {Text(key.Maximum)} {key.Unit}".TrimEnd();
        if (!(value >= key.Minimum && value <= key.Maximum))
        {
            report($"{key.Name} = {Text(value)} is outside of {range}");
        }
        else if (key.IsWhole && value != Math.Truncate(value))
        {
            report($"{key.Name} = {Text(value)} must be a whole number, {range}");
        }
    }

    private static StudyPlan WithKeys(StudyPlan plan, NumberKey?[] keys)
    {
        if (keys.All(k => k is null))
        {
            return plan;
        }

        // Points of ranges are laid anew, as whole numbers are rounded; points that somebody made otherwise stay as they are.
        bool isRange = plan.Source is StudyFile file && file.Varied.Count == keys.Length
            && file.Varied.Where((v, i) => keys[i] is { IsWhole: true } && v.IsRange).Any();
        if (isRange)
        {
            VariedKey[] varied = [.. plan.Source!.Varied.Select((v, i) => keys[i] is NumberKey key ? v with { Key = key } : v)];
            (IReadOnlyList<Factor> factors, IReadOnlyList<StudyPoint> points) = PointMaker.Make(plan.Source, varied, plan.Scenario, plan.Detectors);
            return plan with { Factors = factors, Points = points };
        }

        return plan with { Factors = [.. plan.Factors.Select((f, i) => keys[i] is NumberKey key ? f with { Key = key } : f)] };
    }

    private static FilePlace VaryPlace(StudyPlan plan, int factor)
    {
        StudyFile? file = plan.Source;
        int index = file is null ? -1 : file.Varied.ToList().FindIndex(v => v.Key.Name == plan.Factors[factor].Key.Name);
        return index < 0 ? default : file!.PlaceOf(VaryKeys.Key, index);
    }

    private static ScenarioMistake Mistake(StudyPlan plan, FilePlace place, string message) => new(plan.File, place.Line, place.Column, message);

    private static void ThrowIfAny(List<ScenarioMistake> mistakes)
    {
        if (mistakes.Count > 0)
        {
            throw new ScenarioException([.. mistakes.Distinct().OrderBy(m => m.Line).ThenBy(m => m.Column)]);
        }
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
