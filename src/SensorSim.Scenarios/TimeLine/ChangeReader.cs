// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using static SensorSim.Scenarios.TimeLine.TimeLineTables;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Reads one <c>[[change]]</c>, or says what is wrong with it.</summary>
internal static class ChangeReader
{
    // Each way and the fields that belong to it.
    private static readonly (string Way, string[] With)[] s_ways = [.. Change.Ways.Select(w => (w[0], w.Skip(1).ToArray()))];

    /// <summary>The change; null after a mistake.</summary>
    /// <param name="fields">Its fields.</param>
    /// <param name="endSeconds">End of the scenario [s].</param>
    public static PlannedChange? Read(FieldReader fields, double endSeconds)
    {
        double at = fields.Begin(endSeconds);
        KeyDefinition? key = ReadKey(fields);
        string? way = ReadWay(fields);
        if (way is not null)
        {
            CheckCompany(fields, way);
        }

        PlannedChange? change = way is null ? null : key switch
        {
            NumberKey number => ReadNumber(fields, number, way, at, endSeconds),
            ChoiceKey choice => ReadWord(fields, choice, way, at),
            _ => null,
        };
        return fields.IsSound ? change : null;
    }

    private static KeyDefinition? ReadKey(FieldReader fields)
    {
        if (fields.Text(Key) is not string name)
        {
            return null;
        }

        if (AllKeys.Find(name) is not KeyDefinition key)
        {
            fields.Add(fields.PlaceOf(Key), $"{TomlNames.Shown(name)} is no key; the nearest is {AllKeys.Nearest(name).Name}");
            return null;
        }

        if (!ChangingKeys.MayChange(key))
        {
            string[] live = [.. AllKeys.List().Where(k => ChangingKeys.MayChange(k) && k.Section == key.Section).Select(k => k.Key)];
            string right = live.Length == 0 ? $"no key of [{key.Section}] may change" : $"of [{key.Section}] may change: {string.Join(", ", live)}";
            fields.Add(fields.PlaceOf(Key), $"{name} holds for the whole scenario; {right}");
            return null;
        }

        return key;
    }

    private static string? ReadWay(FieldReader fields)
    {
        string[] found = [.. s_ways.Select(w => w.Way).Where(fields.Has)];
        if (found.Length == 1)
        {
            return found[0];
        }

        string ways = string.Join(", ", s_ways.Select(w => w.Way));
        fields.Add(
            found.Length == 0 ? fields.Place : fields.PlaceOf(found[1]),
            found.Length == 0
                ? $"[[change]] needs one of {ways}"
                : $"{string.Join(" and ", found)} stand together; one [[change]] goes one way, so write another [[change]]");
        return null;
    }

    private static void CheckCompany(FieldReader fields, string way)
    {
        foreach ((string other, string[] with) in s_ways)
        {
            foreach (string name in with)
            {
                if (other == way)
                {
                    fields.Require(name);
                }
                else if (fields.Has(name))
                {
                    fields.Add(fields.PlaceOf(name), $"{name} belongs to {other}; leave it out beside {way}");
                }
            }
        }
    }

    private static PlannedChange? ReadWord(FieldReader fields, ChoiceKey key, string way, double at)
    {
        if (way != StepTo)
        {
            fields.Add(fields.PlaceOf(way), $"{key.Name} holds a word, which cannot go by {way}; use step_to with one of \"{string.Join("\", \"", key.Choices)}\"");
            return null;
        }

        string? word = ValueReader.Word(key, $"{StepTo} of {key.Name}", fields.Value(StepTo), m => fields.Add(fields.PlaceOf(StepTo), m));
        return word is null ? null : new PlannedChange { Key = key, BeginSeconds = at, Place = fields.PlaceOf(StepTo), Words = [(at, word)] };
    }

    private static PlannedChange? ReadNumber(FieldReader fields, NumberKey key, string way, double at, double endSeconds)
    {
        if (key.IsWhole && way != StepTo)
        {
            fields.Add(fields.PlaceOf(way), $"{key.Name} has whole numbers only, which cannot go by {way}; use step_to");
            return null;
        }

        return way switch
        {
            RampTo => Single(fields, key, way, at, ChangeKind.Ramp, PositiveIfThere(fields, Over)),
            SettleTo => Single(fields, key, way, at, ChangeKind.Settle, PositiveIfThere(fields, TimeConstant)),
            SwingBy => Swing(fields, key, at),
            Follow => FollowReader.Read(fields, key, at, endSeconds),
            _ => Single(fields, key, way, at, ChangeKind.Step, 0),
        };
    }

    private static PlannedChange? Single(FieldReader fields, NumberKey key, string way, double at, ChangeKind kind, double over)
    {
        double? target = ValueReader.Number(key, $"{way} of {key.Name}", fields.Value(way), m => fields.Add(fields.PlaceOf(way), m));
        return target is not double value
            ? null
            : new PlannedChange { Key = key, BeginSeconds = at, Place = fields.PlaceOf(way), Numbers = [new CourseChange(at, kind, value, over)] };
    }

    // Whether the whole swing stays in range depends on everything else that the key does: checked when the plan is applied.
    private static PlannedChange Swing(FieldReader fields, NumberKey key, double at)
    {
        double amplitude = fields.Number(SwingBy);
        double period = PositiveIfThere(fields, Period);
        if (period < ShortestPeriodSeconds)
        {
            fields.Add(fields.PlaceOf(Period), $"{Period} = {FieldReader.Shown(period)} is shorter than any knob is looked at; at least {FieldReader.Shown(ShortestPeriodSeconds)} s");
        }

        double lasts = PositiveIfThere(fields, For);
        return new PlannedChange
        {
            Key = key, BeginSeconds = at, Place = fields.PlaceOf(SwingBy), Swing = new Oscillation(at, at + lasts, amplitude, period),
        };
    }

    // Knobs are looked at once a beat or every 64 samples; a tiny period would only overflow the phase.
    private const double ShortestPeriodSeconds = 0.01;

    // Absence has been told already.
    private static double PositiveIfThere(FieldReader fields, string name) => fields.Has(name) ? fields.Positive(name) : double.NaN;
}
