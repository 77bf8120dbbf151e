// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Text;

/// <summary>Reads names of channels and kinds from fields without making strings of them.</summary>
internal static class Names
{
    public static ChannelName Channel(this CsvTable table, int column)
    {
        ReadOnlySpan<char> text = table[column];
        for (int i = 0; i < ChannelNames.All.Count; i++)
        {
            if (text.SequenceEqual(ChannelNames.All[i]))
            {
                return (ChannelName)i;
            }
        }

        throw table.Error(column, $"must be one of {string.Join(", ", ChannelNames.All)}");
    }

    public static MarkKind Kind(this CsvTable table, int column)
    {
        ReadOnlySpan<char> text = table[column];
        for (int i = 0; i < MarkKinds.All.Count; i++)
        {
            if (text.SequenceEqual(MarkKinds.All[i].Text))
            {
                return MarkKinds.All[i].Kind;
            }
        }

        throw table.Error(column, $"must be one of {string.Join(", ", MarkKinds.All.Select(k => k.Text))}");
    }
}
