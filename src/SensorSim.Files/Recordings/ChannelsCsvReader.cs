// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Reads <c>channels.csv</c> of a recording folder.</summary>
internal static class ChannelsCsvReader
{
    private static readonly string[] s_columns = RecordingNames.ChannelsHeader.Split(',');

    public static (StreamFormat Format, long EndTick) Read(string path)
    {
        var channels = new List<ChannelFormat>();
        long endTick = -1;
        using var table = new CsvTable(InputFiles.OpenRead(path), path, s_columns, [], isStrict: true);
        while (table.ReadRow())
        {
            ChannelFormat channel = Parse(table);
            if (channels.Count > 0 && channel.Name <= channels[^1].Name)
            {
                throw table.Error(0, $"must come before {channels[^1].Name.Text()}, and once; the order is {string.Join(", ", ChannelNames.All)}");
            }

            long end = table.Integer(10, 0, long.MaxValue / 4);
            if (channels.Count > 0 && end != endTick)
            {
                throw table.Error(10, "must be the same in every row");
            }

            endTick = end;
            channels.Add(channel);
        }

        if (channels.Count == 0)
        {
            throw table.Error("there is no channel after the header; a recording needs at least one.");
        }

        try
        {
            return (new StreamFormat(channels), endTick);
        }
        catch (Exception e) when (e is ArgumentOutOfRangeException or OverflowException)
        {
            throw new InputFileException(path, 0, 0, "the rates have no common multiple up to 1 GHz; choose rates that have.", e);
        }
    }

    private static ChannelFormat Parse(CsvTable table)
    {
        ChannelName name = table.Channel(0);
        if (!table[5].SequenceEqual(name.Unit()))
        {
            throw table.Error(5, $"must be {name.Unit()} for {name.Text()}");
        }

        int bits = (int)table.Integer(3, 4, 24);
        double unitPerCode = table.Number(6);
        if (unitPerCode <= 0)
        {
            throw table.Error(6, "must be above 0");
        }

        int polarity = (int)table.Integer(8, -1, 1);
        return new ChannelFormat
        {
            Name = name,
            Device = table[1].ToString(),
            RateHz = (int)table.Integer(2, 1, 1_000_000_000),
            Bits = bits,
            IsSigned = table.Integer(4, 0, 1) == 1,
            UnitPerCode = unitPerCode,
            ZeroCode = (int)table.Integer(7, int.MinValue, int.MaxValue),
            Polarity = polarity != 0 ? polarity : throw table.Error(8, "must be 1 or -1"),
            DeclaredDelayNs = table.Integer(9, -1_000_000_000_000, 1_000_000_000_000),
        };
    }
}
