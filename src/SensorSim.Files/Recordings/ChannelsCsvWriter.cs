// SPDX-License-Identifier: MIT
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Recordings;

/// <summary>Writes the list of channels of a recording.</summary>
internal static class ChannelsCsvWriter
{
    /// <summary>Writes it.</summary>
    /// <param name="stream">Receives the text; closed.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="endTick">First tick after its end.</param>
    public static void Write(Stream stream, StreamFormat format, long endTick)
    {
        using var csv = new CsvWriter(stream, RecordingNames.ChannelsHeader);
        foreach (ChannelFormat c in format.Channels)
        {
            csv.Text(c.Name.Text());
            csv.Text(c.Device);
            csv.Integer(c.RateHz);
            csv.Integer(c.Bits);
            csv.Integer(c.IsSigned ? 1 : 0);
            csv.Text(c.Unit);
            csv.Number(c.UnitPerCode);
            csv.Integer(c.ZeroCode);
            csv.Integer(c.Polarity);
            csv.Integer(c.DeclaredDelayNs);
            csv.Integer(endTick);
            csv.EndRow();
        }
    }
}
