// SPDX-License-Identifier: MIT
using SensorSim.Signals.Randomness;

namespace SensorSim.Links.Damage;

/// <summary>Damages a frame as a bad line does: bits turned over, bytes overwritten by noise, bytes lost.</summary>
internal static class FrameSpoiler
{
    /// <summary>Most words of randomness that one frame may take.</summary>
    public const int Words = 32;

    private const int MostBits = 8;
    private const int MostOverwritten = 16;
    private const int MostLost = 4;

    /// <summary>Damages a frame in place; it is another one afterwards, always.</summary>
    /// <param name="frame">The frame with its 00.</param>
    /// <param name="length">Its length, 2 at least.</param>
    /// <param name="random">Where the draws come from.</param>
    /// <param name="firstDraw">The first of <see cref="Words"/> draws that are this frame's own.</param>
    /// <returns>Its length now.</returns>
    public static int Spoil(Span<byte> frame, int length, KeyedRandom random, long firstDraw)
    {
        uint kind = Below(random.Word(firstDraw), 3);
        return kind switch
        {
            0 => TurnBits(frame, length, random, firstDraw + 1),
            1 => Overwrite(frame, length, random, firstDraw + 1),
            _ => Lose(frame, length, random, firstDraw + 1),
        };
    }

    private static int TurnBits(Span<byte> frame, int length, KeyedRandom random, long draw)
    {
        int bits = 1 + (int)Below(random.Word(draw), MostBits);
        Span<uint> places = stackalloc uint[MostBits];
        for (int i = 0; i < bits; i++)
        {
            uint place = Below(random.Word(draw + 1 + i), (uint)length * 8);

            // The same bit twice would undo the damage.
            if (!places[..i].Contains(place))
            {
                frame[(int)(place >> 3)] ^= (byte)(1 << (int)(place & 7));
            }

            places[i] = place;
        }

        return length;
    }

    private static int Overwrite(Span<byte> frame, int length, KeyedRandom random, long draw)
    {
        int count = Math.Min(length, 1 + (int)Below(random.Word(draw), MostOverwritten));
        int begin = (int)Below(random.Word(draw + 1), (uint)(length - count + 1));
        bool isOther = false;
        for (int i = 0; i < count; i++)
        {
            byte noise = (byte)random.Word(draw + 2 + i);
            isOther |= frame[begin + i] != noise;
            frame[begin + i] = noise;
        }

        if (!isOther)
        {
            frame[begin] ^= 1;
        }

        return length;
    }

    // At least one byte stays, and a frame that lost a byte cannot be the same one: it is shorter.
    private static int Lose(Span<byte> frame, int length, KeyedRandom random, long draw)
    {
        int count = Math.Min(length - 1, 1 + (int)Below(random.Word(draw), MostLost));
        int begin = (int)Below(random.Word(draw + 1), (uint)(length - count + 1));
        frame[(begin + count)..length].CopyTo(frame[begin..]);
        return length - count;
    }

    private static uint Below(uint word, uint limit) => (uint)(((ulong)word * limit) >> 32);
}
