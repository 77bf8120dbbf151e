// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Body.Breathing;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Refuses what two keys do together while they change: the rules of <see cref="ScenarioChecks"/> at every later time.</summary>
internal static class TimeLineChecks
{
    private const int MostPeaks = 200;

    // A change is looked at where it begins and on its way: as shares of its length or time constant.
    private static readonly double[] s_onTheWay = [0, 0.25, 0.5, 1, 2, 4];

    /// <summary>Reports the first contradiction of each rule.</summary>
    /// <param name="values">Values and courses of the scenario.</param>
    /// <param name="endSeconds">End of the scenario [s].</param>
    /// <param name="report">Takes the time [s], the keys that meet there, and a sentence with what would be right.</param>
    public static void Check(KeyValues values, double endSeconds, Action<double, KeyDefinition[], string> report)
    {
        CheckVariability(values, endSeconds, report);
        CheckPair(values, BreathingKeys.RatePerMin, BreathingKeys.SpreadPerMin, ScenarioChecks.BreathingSpreads, "breathing that runs backwards", endSeconds, report);
        if (values[ArrivalKeys.From] == "knob")
        {
            CheckPair(values, PulseKeys.ArrivalMs, PulseKeys.ArrivalSpreadMs, ScenarioChecks.ArrivalSpreads, "feet before their R peak", endSeconds, report);
        }
    }

    private static void CheckVariability(KeyValues values, double endSeconds, Action<double, KeyDefinition[], string> report)
    {
        // A scenario that asks for figures of variability gets its bands from them.
        if (values.IsSet(HeartKeys.SdnnMs))
        {
            return;
        }

        KeyDefinition[] keys = [HeartKeys.RateBpm, HeartKeys.RespiratoryVariabilityMs, HeartKeys.SlowVariabilityMs, HeartKeys.DriftVariabilityMs];
        Course rate = values.Course(HeartKeys.RateBpm);
        Course respiratory = values.Course(HeartKeys.RespiratoryVariabilityMs);
        Course slow = values.Course(HeartKeys.SlowVariabilityMs);
        Course drift = values.Course(HeartKeys.DriftVariabilityMs);
        foreach (double at in Moments(endSeconds, rate, respiratory, slow, drift))
        {
            double r = respiratory.Value(at);
            double s = slow.Value(at);
            double d = drift.Value(at);
            double sum = Math.Sqrt((r * r) + (s * s) + (d * d));
            double room = Math.Max(0, (60000 / rate.Value(at)) - ScenarioChecks.ShortestRrMs) / 3;
            if (sum > room)
            {
                report(
                    at,
                    keys,
                    $"RR variability of {Text(Math.Round(sum))} ms in all is too much at {Text(Math.Round(rate.Value(at)))} bpm, reached at {Text(at)} s; at most {Text(Math.Floor(room))} ms leave every RR above {Text(ScenarioChecks.ShortestRrMs)} ms");
                return;
            }
        }
    }

    // The spread must stay below a share of its middle.
    private static void CheckPair(
        KeyValues values, NumberKey middle, NumberKey spread, double share, string consequence, double endSeconds, Action<double, KeyDefinition[], string> report)
    {
        Course middles = values.Course(middle);
        Course spreads = values.Course(spread);
        foreach (double at in Moments(endSeconds, middles, spreads))
        {
            double most = Math.Floor(10 * middles.Value(at) / share) / 10;
            if (spreads.Value(at) > most)
            {
                report(
                    at,
                    [middle, spread],
                    $"{spread.Name} = {Text(Rounded(spreads.Value(at)))} at {middle.Name} = {Text(Rounded(middles.Value(at)))}, reached at {Text(at)} s, would mean {consequence}; at most {Text(most)}");
                return;
            }
        }
    }

    private static IEnumerable<double> Moments(double endSeconds, params Course[] courses)
    {
        var moments = new List<double>();
        foreach (Course course in courses)
        {
            moments.AddRange(course.Changes.SelectMany(c => s_onTheWay.Select(w => c.AtSeconds + (c.Kind == ChangeKind.Step ? 0 : w * c.OverSeconds))));
            foreach (Oscillation o in course.Oscillations)
            {
                double peaks = Math.Min(MostPeaks, Math.Ceiling(2 * (o.EndSeconds - o.AtSeconds) / o.PeriodSeconds));
                for (int k = 0; k < peaks; k++)
                {
                    moments.Add(o.AtSeconds + ((0.25 + (0.5 * k)) * o.PeriodSeconds));
                }
            }
        }

        return moments.Where(m => m < endSeconds).Order();
    }

    private static double Rounded(double value) => Math.Round(value * 10) / 10;

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
