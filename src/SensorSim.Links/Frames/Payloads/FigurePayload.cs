// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames.Payloads;

/// <summary>Board: what it measured about itself.</summary>
public static class FigurePayload
{
    /// <summary>Most of them in one frame.</summary>
    public const int MaximumCount = FrameLimits.MaximumPayload / ItemBytes.Each;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>figures</c> frame.</param>
    /// <param name="items">Receives what it holds; room for <see cref="MaximumCount"/>.</param>
    /// <param name="count">How many there are.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, Span<BoardFigure> items, out int count)
    {
        count = ItemBytes.Count(payload);
        if (count < 0 || count > items.Length)
        {
            count = 0;
            return false;
        }

        for (int i = 0; i < count; i++)
        {
            SetupItem read = ItemBytes.Read(payload[(ItemBytes.Each * i)..]);
            items[i] = new BoardFigure(read.Item, read.Index, read.Value);
        }

        return true;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="items">At most <see cref="MaximumCount"/>.</param>
    /// <param name="payload">Receives it; 12 bytes for each.</param>
    /// <returns>Bytes written.</returns>
    /// <exception cref="ArgumentException">There are too many.</exception>
    public static int Write(ReadOnlySpan<BoardFigure> items, Span<byte> payload)
    {
        if (items.Length > MaximumCount)
        {
            throw new ArgumentException($"A frame holds at most {MaximumCount} items, not {items.Length}.", nameof(items));
        }

        for (int i = 0; i < items.Length; i++)
        {
            ItemBytes.Write(items[i].Item, items[i].Index, items[i].Value, payload[(ItemBytes.Each * i)..]);
        }

        return ItemBytes.Each * items.Length;
    }
}
