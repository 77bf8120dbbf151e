// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;

namespace SensorSim.Links.Tests.Frames;

/// <summary>Random payloads, and frames on a wire that does everything to them that a bad wire may do.</summary>
internal static class FrameFuzz
{
    /// <summary>Bytes of a random sort: all values, mostly zeros, no zeros.</summary>
    public static byte[] Payload(Random random, int length)
    {
        var bytes = new byte[length];
        random.NextBytes(bytes);
        int sort = random.Next(3);
        for (int i = 0; i < length; i++)
        {
            bytes[i] = sort == 0 ? bytes[i] : sort == 1 ? (byte)(bytes[i] & (byte)-(bytes[i] & 1)) : (byte)(bytes[i] | 1);
        }

        return bytes;
    }

    /// <summary>Some frames, each of them perhaps damaged, lost, doubled, cut, with something before it, or held back for one of its followers.</summary>
    public static byte[] DamagedWire(Random random, int frames)
    {
        FrameType[] types = Enum.GetValues<FrameType>();
        var writer = new FrameWriter((uint)random.NextInt64(1L << 32));
        var wire = new List<byte>();
        byte[] heldBack = [];
        for (int i = 0; i < frames; i++)
        {
            FrameType type = random.Next(8) == 0 ? types[random.Next(types.Length)] : FrameType.Samples;
            byte[] frame = FrameTests.Made(writer, type, Payload(random, random.Next(FrameLimits.MaximumPayload + 1)));
            switch (random.Next(16))
            {
                case 0:
                    FlipBits(random, frame);
                    break;
                case 1:
                    frame = [.. frame.Where((_, at) => at % frame.Length != 3 && random.Next(50) != 0)];
                    break;
                case 2:
                    frame = frame[..random.Next(frame.Length)];
                    break;
                case 3:
                    wire.AddRange(frame);
                    break;
                case 4:
                    frame = [];
                    break;
                case 5:
                    wire.AddRange(Payload(random, random.Next(600)));
                    break;
                case 6:
                    int at = random.Next(frame.Length);
                    frame = [.. frame[..at], .. Payload(random, random.Next(1, 5)), .. frame[at..]];
                    break;
                case 7:
                    (heldBack, frame) = (frame, heldBack);
                    break;
                case 8:
                    wire.AddRange(new byte[random.Next(3)]);
                    break;
            }

            wire.AddRange(frame);
        }

        return [.. wire];
    }

    private static void FlipBits(Random random, byte[] bytes)
    {
        for (int flips = 1 << random.Next(5); flips > 0; flips--)
        {
            bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
        }
    }
}
