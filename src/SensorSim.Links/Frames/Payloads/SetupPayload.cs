// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames.Payloads;

/// <summary>Host: what the detector is told before the start.</summary>
public static class SetupPayload
{
    /// <summary>Most of them in one frame.</summary>
    public const int MaximumCount = FrameLimits.MaximumPayload / ItemBytes.Each;

    /// <summary>Reads a payload.</summary>
    /// <param name="payload">The payload of a <c>setup</c> frame.</param>
    /// <param name="items">Receives what it holds; room for <see cref="MaximumCount"/>.</param>
    /// <param name="count">How many there are.</param>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(ReadOnlySpan<byte> payload, Span<SetupItem> items, out int count)
    {
        count = ItemBytes.Count(payload);
        if (count < 0 || count > items.Length)
        {
            count = 0;
            return false;
        }

        for (int i = 0; i < count; i++)
        {
            items[i] = ItemBytes.Read(payload[(ItemBytes.Each * i)..]);
        }

        return true;
    }

    /// <summary>Writes the payload.</summary>
    /// <param name="items">At most <see cref="MaximumCount"/>.</param>
    /// <param name="payload">Receives it; 12 bytes for each.</param>
    /// <returns>Bytes written.</returns>
    /// <exception cref="ArgumentException">There are too many.</exception>
    public static int Write(ReadOnlySpan<SetupItem> items, Span<byte> payload)
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
