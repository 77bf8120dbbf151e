// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.TimeLine;

/// <summary>A change of a setting as a scenario says it; whether the value fits is seen when the person is known.</summary>
/// <param name="Channel">The channel.</param>
/// <param name="Setting">Which setting.</param>
/// <param name="Value">New value in the setting's unit.</param>
/// <param name="AtSeconds">When it takes effect [s].</param>
/// <param name="ChannelPlace">Place of the channel.</param>
/// <param name="ValuePlace">Place of the value.</param>
internal sealed record PlannedSetting(
    ChannelName Channel, SensorSetting Setting, double Value, double AtSeconds, SourceSpan ChannelPlace, SourceSpan ValuePlace);

/// <summary>Reads one <c>[[setting]]</c>, or says what is wrong with it.</summary>
internal static class SettingReader
{
    /// <summary>The changes, one for each channel; none after a mistake.</summary>
    /// <param name="fields">Its fields.</param>
    /// <param name="endSeconds">End of the scenario [s].</param>
    public static IReadOnlyList<PlannedSetting> Read(FieldReader fields, double endSeconds)
    {
        double at = fields.Begin(endSeconds);
        SensorSetting? setting = ReadSetting(fields);
        double value = fields.Number(TimeLineTables.Value);
        var changes = new List<PlannedSetting>();
        if (!fields.Require(TimeLineTables.Channel))
        {
            return changes;
        }

        ValueSyntax written = fields.Value(TimeLineTables.Channel);
        ValueSyntax[] items = written is ArraySyntax list ? [.. list.Items.Select(i => i.Value!)] : [written];
        if (items.Length == 0)
        {
            fields.Add(written.Span, "channel = [] names no channel; at least one is needed");
        }

        foreach (ValueSyntax item in items)
        {
            if (ReadChannel(fields, item, setting) is ChannelName channel && setting is SensorSetting known)
            {
                changes.Add(new PlannedSetting(channel, known, value, at, item.Span, fields.PlaceOf(TimeLineTables.Value)));
            }
        }

        return fields.IsSound ? changes : [];
    }

    private static SensorSetting? ReadSetting(FieldReader fields)
    {
        if (fields.Text(TimeLineTables.Setting) is not string word)
        {
            return null;
        }

        if (SensorSettings.TryParse(word, out SensorSetting setting))
        {
            return setting;
        }

        fields.Add(
            fields.PlaceOf(TimeLineTables.Setting),
            $"\"{TomlNames.Shown(word)}\" is no setting; the nearest is \"{NearestName.Find(word, SensorSettings.All)}\" of \"{string.Join("\", \"", SensorSettings.All)}\"");
        return null;
    }

    private static ChannelName? ReadChannel(FieldReader fields, ValueSyntax item, SensorSetting? setting)
    {
        if (item is not StringValueSyntax { Value: string word })
        {
            fields.Add(item.Span, $"channel = {ValueReader.Shown(item)} must be a channel in quotation marks, or a list of such");
            return null;
        }

        if (!ChannelNames.TryParse(word, out ChannelName channel))
        {
            fields.Add(
                item.Span,
                $"\"{TomlNames.Shown(word)}\" is no channel; the nearest is \"{NearestName.Find(word, ChannelNames.All)}\" of \"{string.Join("\", \"", ChannelNames.All)}\"");
            return null;
        }

        if (setting is SensorSetting known && !known.IsOf(channel))
        {
            IEnumerable<string> with = ChannelNames.All.Where((_, i) => known.IsOf((ChannelName)i));
            fields.Add(item.Span, $"{word} has no {known.Text()}; {string.Join(", ", with)} have one");
            return null;
        }

        return channel;
    }
}
