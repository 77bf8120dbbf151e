// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Budgets;

/// <summary>What a stream needs of a line, worked out before anything is sent; sizes are those of <c>docs/link-protocol.md</c>.</summary>
/// <remarks>
/// The way back carries answers and progress. How many answers a detector gives is not known beforehand; taken are 30 marks a second usually and
/// 100 at worst, each in a frame of its own (a fast heart, 4 beats a second, with a dozen marks each, and readings).
/// </remarks>
public sealed class LineBudget
{
    // COBS adds one byte, the 00 another, header and check twelve.
    private const int FrameBytes = FrameLimits.HeaderBytes + FrameLimits.CheckBytes + 2;

    private const int MarkFrameBytes = FrameBytes + 4 + 44;
    private const int ProgressFrameBytes = FrameBytes + 40;
    private const int ProgressPerSecond = 10;
    private const int UsualMarksPerSecond = 30;
    private const int WorstMarksPerSecond = 100;

    private static readonly int[] Bauds =
    [
        300, 600, 1200, 2400, 4800, 9600, 19_200, 38_400, 57_600, 115_200, 230_400, 460_800, 921_600, 1_000_000, 1_500_000, 2_000_000, 3_000_000,
    ];

    private readonly StreamFormat _format;
    private readonly double _speed;

    /// <summary>Works out the needs of a stream.</summary>
    /// <param name="format">The stream.</param>
    /// <param name="speed">Stream seconds in one second; above 0.</param>
    public LineBudget(StreamFormat format, double speed = 1)
    {
        ArgumentNullException.ThrowIfNull(format);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(speed);
        _format = format;
        _speed = speed;
        Samples = new LineNeed(Scaled(BytesPerSecond(format, false)), Scaled(BytesPerSecond(format, true)));
        Answers = new LineNeed(Scaled(AnswerBytes(UsualMarksPerSecond)), Scaled(AnswerBytes(WorstMarksPerSecond)));
    }

    /// <summary>What goes to the board.</summary>
    public LineNeed Samples { get; }

    /// <summary>What comes back, by the numbers of marks that are taken here.</summary>
    public LineNeed Answers { get; }

    /// <summary>Whether the session fits.</summary>
    /// <param name="bytesPerSecond">What the line carries each way; null when it sets no limit.</param>
    public LineFit Fit(long? bytesPerSecond) =>
        bytesPerSecond is not { } carried || carried >= Worst ? LineFit.Fits : carried >= Usual ? LineFit.Tight : LineFit.TooMuch;

    /// <summary>One sentence for a session that fits not or hardly: numbers, and what to change. Null when it fits.</summary>
    /// <param name="link">The line.</param>
    public string? Sentence(ILink link)
    {
        ArgumentNullException.ThrowIfNull(link);
        return Sentence(link.Name, link.BytesPerSecond);
    }

    /// <summary>One sentence for a session that fits not or hardly: numbers, and what to change. Null when it fits.</summary>
    /// <param name="name">Name of the line.</param>
    /// <param name="bytesPerSecond">What the line carries each way; null when it sets no limit.</param>
    public string? Sentence(string name, long? bytesPerSecond)
    {
        LineFit fit = Fit(bytesPerSecond);
        if (fit == LineFit.Fits || bytesPerSecond is not { } carried)
        {
            return null;
        }

        bool isStream = Samples.UsualBytesPerSecond > carried || (fit == LineFit.Tight && Samples.WorstBytesPerSecond > carried);
        string head = Head(isStream, name, carried);
        string less = isStream ? $"lower rates, bits or channels ({Largest()})" : "lower the speed";
        return fit == LineFit.Tight
            ? $"{head}: it fits while few status words change; {Raise(Worst)} to be sure."
            : $"{head}: {Raise(Usual)}, or {less}.";
    }

    private string Head(bool isStream, string name, long carried)
    {
        LineNeed need = isStream ? Samples : Answers;
        string what = isStream ? "stream" : "answers";
        string verb = isStream ? "needs" : "need";
        string at = _speed.Equals(1.0) ? "" : string.Create(CultureInfo.InvariantCulture, $" at speed {_speed:0.###}");
        return string.Create(
            CultureInfo.InvariantCulture,
            $"The {what}{at} {verb} {need.UsualBytesPerSecond} bytes/s, {need.WorstBytesPerSecond} at worst, and the {name} carries {carried}");
    }

    private long Usual => Math.Max(Samples.UsualBytesPerSecond, Answers.UsualBytesPerSecond);

    private long Worst => Math.Max(Samples.WorstBytesPerSecond, Answers.WorstBytesPerSecond);

    /// <summary>The lowest usual baud rate that carries so much; null when none does.</summary>
    /// <param name="bytesPerSecond">Bytes each way.</param>
    internal static int? LowestBaud(long bytesPerSecond)
    {
        foreach (int baud in Bauds)
        {
            if (baud / 10 >= bytesPerSecond)
            {
                return baud;
            }
        }

        return null;
    }

    private static string Raise(long bytesPerSecond) => LowestBaud(bytesPerSecond) is { } baud
        ? string.Create(CultureInfo.InvariantCulture, $"set the baud rate to at least {baud}")
        : "no baud rate carries that";

    private static long AnswerBytes(int marks) => ((long)marks * MarkFrameBytes) + (ProgressPerSecond * ProgressFrameBytes);

    private long Scaled(long bytes) => (long)Math.Ceiling(bytes * _speed);

    // The channel that takes most, since lowering it helps most.
    private string Largest()
    {
        ChannelFormat largest = _format.Channels[0];
        foreach (ChannelFormat channel in _format.Channels)
        {
            if ((long)channel.RateHz * channel.Bits > (long)largest.RateHz * largest.Bits)
            {
                largest = channel;
            }
        }

        return string.Create(CultureInfo.InvariantCulture, $"most takes {largest.Name.Text()}: {largest.RateHz} Hz of {largest.Bits} bits");
    }

    // One second of samples, cut into frames by the sender's own code.
    private static long BytesPerSecond(StreamFormat format, bool hasStatusWords)
    {
        long ticks = format.Clock.TicksPerSecond;
        var block = new SampleBlock(format, ticks);
        block.Begin(0, ticks);
        for (int i = 0; i < format.Channels.Count; i++)
        {
            block.Channels[i].Append(0, format.Channels[i].RateHz, out Span<int> codes, out Span<ushort> status);
            codes.Clear();
            for (int k = 0; k < status.Length; k++)
            {
                status[k] = hasStatusWords ? (ushort)(1 + (k & 1)) : (ushort)1;
            }
        }

        var writer = new SamplesWriter(format);
        writer.Begin(block, false);
        Span<byte> payload = stackalloc byte[FrameLimits.MaximumPayload];
        long sum = 0;
        while (!writer.IsDone)
        {
            sum += writer.Write(payload) + FrameBytes;
        }

        return sum;
    }
}
