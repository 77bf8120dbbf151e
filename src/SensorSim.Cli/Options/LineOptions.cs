// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Links;
using SensorSim.Links.Lines;

namespace SensorSim.Cli.Options;

/// <summary>A line to a board, as the command line names it.</summary>
/// <param name="Address">Where it leads.</param>
/// <param name="Options">How it is opened.</param>
internal sealed record LineChoice(LinkAddress Address, LinkOptions Options)
{
    /// <summary>Opens it.</summary>
    /// <exception cref="LinkUnavailableException">It cannot be opened.</exception>
    public ILink Open() => Address.Open(Options);
}

/// <summary>The options that name a line to a board.</summary>
internal sealed record LineOptions
{
    /// <summary>Where it leads.</summary>
    public required Option<string?> Link { get; init; }

    /// <summary>Rate of a serial port.</summary>
    public required Option<long?> Baud { get; init; }

    /// <summary>Flow control of a serial port.</summary>
    public required Option<bool> RtsCts { get; init; }

    /// <summary>Creates the options.</summary>
    public static LineOptions Create() => new()
    {
        Link = new Option<string?>("--link")
        {
            Description = "Where the board is: a serial port (/dev/ttyACM0, COM3) or tcp:HOST:PORT",
            HelpName = "ADDRESS",
        },
        Baud = NumberOption.Whole("--baud", FormattableString.Invariant($"Serial port: rate [baud]; {LinkOptions.UsualBaud} unless given"), LinkOptions.LowestBaud, LinkOptions.HighestBaud),
        RtsCts = new Option<bool>("--rts-cts") { Description = "Serial port: hold back bytes by RTS and CTS" },
    };

    /// <summary>Reads the options; null when no line is named.</summary>
    /// <param name="parsed">The command line.</param>
    /// <exception cref="UsageException">The options do not fit together.</exception>
    public LineChoice? Read(ParseResult parsed)
    {
        string? text = parsed.GetValue(Link);
        long? baud = parsed.GetValue(Baud);
        bool usesRtsCts = parsed.GetValue(RtsCts);
        if (text is null)
        {
            return baud is null && !usesRtsCts ? null : throw new UsageException("--baud and --rts-cts say how a serial port is used; add --link, for example --link /dev/ttyACM0");
        }

        if (!LinkAddress.TryParse(text, out LinkAddress? address, out string? mistake))
        {
            throw new UsageException($"--link {mistake}");
        }

        return address.Kind != LinkKind.Serial && (baud is not null || usesRtsCts)
            ? throw new UsageException($"--baud and --rts-cts belong to a serial port, which {text} is not; leave them out")
            : new LineChoice(address, new LinkOptions { BaudRate = (int)(baud ?? LinkOptions.UsualBaud), UsesRtsCts = usesRtsCts });
    }
}
