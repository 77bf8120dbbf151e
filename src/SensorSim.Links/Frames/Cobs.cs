// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>Bytes without any 00, so that 00 can stand between frames: Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2), 1999.</summary>
/// <remarks>A group is a code n, 1 to 255, then n − 1 bytes that are not 0, then, unless n is 255, a 00 that is implied; the last one is dropped.</remarks>
public static class Cobs
{
    private const int LongestGroup = 255;

    /// <summary>Most bytes that encoding makes of some.</summary>
    /// <param name="length">Bytes before, at least 0.</param>
    public static int MaximumEncoded(int length) => length + 1 + (length / (LongestGroup - 1));

    /// <summary>Encodes; the 00 that ends a frame is not written.</summary>
    /// <param name="source">Any bytes.</param>
    /// <param name="target">Receives what is made of them; room for <see cref="MaximumEncoded"/>.</param>
    /// <returns>Bytes written, at least 1.</returns>
    /// <exception cref="ArgumentException">The target is too short.</exception>
    public static int Encode(ReadOnlySpan<byte> source, Span<byte> target)
    {
        if (target.Length < MaximumEncoded(source.Length))
        {
            throw new ArgumentException($"Encoding {source.Length} bytes needs room for {MaximumEncoded(source.Length)}, not {target.Length}.", nameof(target));
        }

        int code = 0;
        int to = 1;
        for (int from = 0; from < source.Length; from++)
        {
            if (source[from] != 0)
            {
                target[to++] = source[from];
            }

            // A full group implies no 00, so it must not be opened anew when nothing follows.
            bool isFull = to - code == LongestGroup && from + 1 < source.Length;
            if (source[from] == 0 || isFull)
            {
                target[code] = (byte)(to - code);
                code = to++;
            }
        }

        target[code] = (byte)(to - code);
        return to;
    }

    /// <summary>Decodes what stood between two 00.</summary>
    /// <param name="source">The encoded bytes.</param>
    /// <param name="target">Receives the decoded bytes; may begin where the source does.</param>
    /// <param name="length">Bytes written.</param>
    /// <returns>Whether the bytes are sound and fit: no 00 inside, no group beyond the end.</returns>
    public static bool TryDecode(ReadOnlySpan<byte> source, Span<byte> target, out int length)
    {
        length = 0;
        int from = 0;
        while (from < source.Length)
        {
            int code = source[from++];
            int count = code - 1;
            if (code == 0 || count > source.Length - from || count > target.Length - length)
            {
                return false;
            }

            ReadOnlySpan<byte> group = source.Slice(from, count);
            if (group.Contains((byte)0))
            {
                return false;
            }

            group.CopyTo(target[length..]);
            from += count;
            length += count;
            if (code != LongestGroup && from < source.Length)
            {
                if (length == target.Length)
                {
                    return false;
                }

                target[length++] = 0;
            }
        }

        return source.Length > 0;
    }
}
