// SPDX-License-Identifier: MIT
using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace SensorSim.Links.Lines;

/// <summary>Where a link leads, in one form of text for all: <c>/dev/ttyACM0</c>, <c>COM3</c>, <c>serial:NAME</c>, <c>tcp:HOST:PORT</c>.</summary>
/// <remarks>A bare path or COM name is a serial port. An IPv6 address stands in brackets: <c>tcp:[::1]:7000</c>.</remarks>
public sealed record LinkAddress
{
    private const string SerialPrefix = "serial:";
    private const string TcpPrefix = "tcp:";
    private const string Forms = "a serial port is /dev/ttyACM0, COM3 or serial:NAME, a program is tcp:HOST:PORT";

    private LinkAddress(LinkKind kind, string target, int tcpPort)
    {
        Kind = kind;
        Target = target;
        TcpPort = tcpPort;
    }

    /// <summary>What it leads to.</summary>
    public LinkKind Kind { get; }

    /// <summary>Path or name of the serial port; name or number of the host.</summary>
    public string Target { get; }

    /// <summary>Number of the TCP port, 1 to 65535; 0 for a serial port.</summary>
    public int TcpPort { get; }

    /// <summary>Reads an address.</summary>
    /// <param name="text">The text.</param>
    /// <exception cref="FormatException">It is none; the message is one sentence that says what would be right.</exception>
    public static LinkAddress Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return TryParse(text, out LinkAddress? address, out string? mistake) ? address : throw new FormatException(mistake);
    }

    /// <summary>Reads an address.</summary>
    /// <param name="text">The text.</param>
    /// <param name="address">The address; null if the text is none.</param>
    /// <param name="mistake">One sentence that says what would be right; null if the text is an address.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryParse(string text, [NotNullWhen(true)] out LinkAddress? address, [NotNullWhen(false)] out string? mistake)
    {
        ArgumentNullException.ThrowIfNull(text);
        (address, mistake) = text.StartsWith(TcpPrefix, StringComparison.OrdinalIgnoreCase) ? Tcp(text) : Serial(text);
        return address is not null;
    }

    /// <summary>Opens the link.</summary>
    /// <param name="options">How.</param>
    /// <exception cref="LinkUnavailableException">It cannot be opened; the message is one sentence that says what would be right.</exception>
    public ILink Open(LinkOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return Kind == LinkKind.Tcp ? TcpLink.Connect(Target, TcpPort, options.ConnectTimeout) : SerialLink.Open(Target, options);
    }

    /// <summary>The address as text that <see cref="Parse"/> reads.</summary>
    public override string ToString() => Kind == LinkKind.Serial
        ? SerialPrefix + Target
        : string.Create(CultureInfo.InvariantCulture, $"{TcpPrefix}{(Target.Contains(':', StringComparison.Ordinal) ? $"[{Target}]" : Target)}:{TcpPort}");

    private static (LinkAddress? Address, string? Mistake) Serial(string text)
    {
        bool isNamed = text.StartsWith(SerialPrefix, StringComparison.OrdinalIgnoreCase);
        string port = isNamed ? text[SerialPrefix.Length..] : text;
        if (port.Length == 0)
        {
            return (null, $"\"{text}\" names no port: {Forms}");
        }

        if (isNamed || port[0] == '/' || IsComName(port))
        {
            return (new LinkAddress(LinkKind.Serial, port, 0), null);
        }

        return (null, port.StartsWith("tty", StringComparison.Ordinal) || port.StartsWith("cu.", StringComparison.Ordinal)
            ? $"\"{text}\" is no address of a link; a path begins with /: /dev/{text}"
            : $"\"{text}\" is no address of a link: {Forms}");
    }

    private static (LinkAddress? Address, string? Mistake) Tcp(string text)
    {
        string rest = text[TcpPrefix.Length..];
        int colon = rest.LastIndexOf(':');
        string host = colon < 0 ? "" : rest[..colon];
        bool isInBrackets = host.Length > 2 && host[0] == '[' && host[^1] == ']';
        if (colon < 0 || host.Length == 0)
        {
            return (null, $"\"{text}\" lacks host or port: write tcp:HOST:PORT, for example tcp:127.0.0.1:7000");
        }

        if (!isInBrackets && host.Contains(':', StringComparison.Ordinal))
        {
            return (null, $"\"{text}\" has a colon in its host: an IPv6 address stands in brackets, for example tcp:[::1]:7000");
        }

        if (!int.TryParse(rest.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out int port) || port is < 1 or > 65535)
        {
            return (null, $"\"{rest[(colon + 1)..]}\" in \"{text}\" is no TCP port: 1 to 65535");
        }

        return (new LinkAddress(LinkKind.Tcp, isInBrackets ? host[1..^1] : host, port), null);
    }

    private static bool IsComName(string text) =>
        text.Length is > 3 and < 8 && text.StartsWith("COM", StringComparison.OrdinalIgnoreCase) && text.AsSpan(3).IndexOfAnyExceptInRange('0', '9') < 0;
}
