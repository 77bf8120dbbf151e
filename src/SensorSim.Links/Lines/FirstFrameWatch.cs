// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Links.Lines;

/// <summary>Counts what comes before the first valid frame: many bytes and no frame mean a wrong baud rate, or no board of ours.</summary>
public sealed class FirstFrameWatch
{
    /// <summary>Bytes without a frame after which nothing is to be hoped for: eight of the longest frames, with room for what a board says when it starts.</summary>
    public const int UsualLimit = 2048;

    private readonly string _name;
    private readonly bool _isSerial;
    private readonly int _limit;

    /// <summary>Begins to count.</summary>
    /// <param name="link">The link; only its name and rate are asked for.</param>
    /// <param name="limit">Bytes without a frame after which <see cref="IsHopeless"/>.</param>
    public FirstFrameWatch(ILink link, int limit = UsualLimit)
    {
        ArgumentNullException.ThrowIfNull(link);
        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        _name = link.Name;
        _isSerial = link.BytesPerSecond is not null;
        _limit = limit;
    }

    /// <summary>Bytes that came before the first frame.</summary>
    public long Bytes { get; private set; }

    /// <summary>Whether a valid frame has come.</summary>
    public bool HasFrame { get; private set; }

    /// <summary>Whether so many bytes came without a frame that waiting for more is of no use.</summary>
    public bool IsHopeless => !HasFrame && Bytes >= _limit;

    /// <summary>Tells of bytes that came.</summary>
    /// <param name="bytes">How many.</param>
    public void Add(int bytes)
    {
        if (!HasFrame)
        {
            Bytes += bytes;
        }
    }

    /// <summary>Tells that a valid frame has come: from here on nothing is counted.</summary>
    public void FrameCame() => HasFrame = true;

    /// <summary>One sentence about what came: nothing at all, or bytes without a frame.</summary>
    public string Sentence() => Bytes == 0
        ? $"Nothing came from the {_name}: is the board on, and does its firmware speak the link protocol{(_isSerial ? " at this baud rate" : "")}?"
        : string.Create(
            CultureInfo.InvariantCulture,
            $"No valid frame in {Bytes} bytes from the {_name}: {(_isSerial ? "is the baud rate the one that the board uses?" : "does the other end speak the link protocol?")}");
}
