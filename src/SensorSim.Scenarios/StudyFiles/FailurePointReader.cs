// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.StudyFiles;

/// <summary>Reads <c>[failure_point]</c>.</summary>
internal static class FailurePointReader
{
    /// <summary>What it says; null when it is not there.</summary>
    /// <param name="table">The table.</param>
    /// <param name="varied">What is varied.</param>
    public static StudyFailurePoint? Read(KeyTable table, IReadOnlyList<VariedKey> varied)
    {
        if (!table.IsThere)
        {
            return null;
        }

        bool isOfRuns = table.Word(FailurePointKeys.Of) == FailurePointKeys.Runs;
        if (!isOfRuns)
        {
            table.Refuse(FailurePointKeys.PassFraction, "of = \"runs\"");
        }

        bool isAdaptive = table.Flag(FailurePointKeys.Adaptive);
        if (isAdaptive)
        {
            table.Require(FailurePointKeys.Precision, " with adaptive = true");
            if (varied.Count > 0 && varied[0].Key is not NumberKey)
            {
                table.Add(FailurePointKeys.Adaptive, $"failure_point.adaptive needs numbers in the first [[vary]], and {varied[0].Key.Name} holds words");
            }
        }
        else
        {
            table.Refuse(FailurePointKeys.Precision, "adaptive = true");
            table.Refuse(FailurePointKeys.MostRuns, "adaptive = true");
        }

        return new StudyFailurePoint
        {
            PassFraction = isOfRuns ? table.Number(FailurePointKeys.PassFraction) : null,
            Curve = table.Word(FailurePointKeys.Curve),
            Resamples = (int)table.Number(FailurePointKeys.Resamples),
            IsAdaptive = isAdaptive,
            Precision = isAdaptive ? table.Number(FailurePointKeys.Precision) : 0,
            MostRuns = isAdaptive && table.Given(FailurePointKeys.MostRuns) is double most ? (long)most : null,
        };
    }
}
