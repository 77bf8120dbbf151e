// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;
using static SensorSim.Scenarios.TimeLine.FieldReader;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>Reads the points of a change that follows a line: <c>[[time, value], …]</c>, times from the change's start on.</summary>
internal static class FollowReader
{
    private const string Right = "must be points such as [[0, 70], [30, 120]]";

    /// <summary>The change; null after a mistake.</summary>
    public static PlannedChange? Read(FieldReader fields, NumberKey key, double at, double endSeconds)
    {
        ValueSyntax list = fields.Value(TimeLineTables.Follow);
        if (list is not ArraySyntax points || points.Items.ChildrenCount == 0)
        {
            fields.Add(list.Span, $"follow of {key.Name} = {ValueReader.Shown(list)} {Right}");
            return null;
        }

        var changes = new List<CourseChange>();
        double before = 0;
        bool isSound = true;
        foreach (ArrayItemSyntax item in points.Items)
        {
            if (Point(fields, key, item.Value!) is not (double time, double value))
            {
                isSound = false;
                continue;
            }

            bool isFirst = changes.Count == 0;
            if (time < 0 || (!isFirst && time <= before))
            {
                string right = isFirst ? "the first time is 0 or more" : $"times rise, so it must be above {Shown(before)}";
                fields.Add(item.Value!.Span, $"follow of {key.Name}: the time {Shown(time)} comes too early; {right}");
                isSound = false;
            }
            else if (at + time > endSeconds)
            {
                fields.Add(
                    item.Value!.Span,
                    $"follow of {key.Name}: the time {Shown(time)} lies after the end of the scenario; at most {Shown(endSeconds - at)} from at_s = {Shown(at)} on");
                isSound = false;
            }

            changes.Add(time == 0
                ? new CourseChange(at, ChangeKind.Step, value, 0)
                : new CourseChange(at + before, ChangeKind.Ramp, value, time - before));
            before = time;
        }

        return isSound ? new PlannedChange { Key = key, BeginSeconds = at, Place = list.Span, Numbers = changes } : null;
    }

    private static (double Time, double Value)? Point(FieldReader fields, NumberKey key, ValueSyntax value)
    {
        ValueSyntax[] pair = value is ArraySyntax array ? [.. array.Items.Select(i => i.Value!)] : [];
        if (pair.Length != 2)
        {
            fields.Add(value.Span, $"follow of {key.Name}: {ValueReader.Shown(value)} is no point; it {Right}");
            return null;
        }

        double time = fields.Number("time", pair[0]);
        double? number = ValueReader.Number(key, $"follow of {key.Name}", pair[1], m => fields.Add(pair[1].Span, m));
        return number is double x && !double.IsNaN(time) ? (time, x) : null;
    }
}
