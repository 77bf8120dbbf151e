// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.IO.Compression;
using SensorSim.Reports.Drawing;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>Writes a bitmap of the inks as a PNG of 15 colours: a quarter of the size, and a line drawing needs no more.</summary>
/// <remarks>The drawing library encodes full colours only. Format: PNG (ISO/IEC 15948), colour type 3, two pixels in a byte.</remarks>
internal static class PaletteImage
{
    private static readonly SKColor[] s_inks = [Ink.Paper, Ink.Text, Ink.Signal, Ink.Frame, Ink.Gap, Ink.Grid, Ink.TruthPale, Ink.Truth, Ink.Detected];
    private static readonly SKColor[] s_smoothed = [Ink.Truth, Ink.Detected, Ink.Signal];

    // The inks, and the steps between them and the paper that smooth their edges: a palette of what is frequent would lose the few pixels of truth.
    private static readonly int[] s_palette =
    [
        .. s_inks.Select(c => Number(c.Red, c.Green, c.Blue)),
        .. s_smoothed.SelectMany(c => Enumerable.Range(1, 2).Select(part => Number(Mixed(c.Red, part), Mixed(c.Green, part), Mixed(c.Blue, part)))),
    ];

    /// <summary>The bytes of the file.</summary>
    /// <param name="bitmap">The picture, RGBA.</param>
    public static byte[] Png(SKBitmap bitmap)
    {
        ReadOnlySpan<byte> pixels = bitmap.GetPixelSpan();
        using var png = new MemoryStream();
        png.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        byte[] head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, bitmap.Width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), bitmap.Height);
        head[8] = 4;
        head[9] = 3;
        Chunk(png, "IHDR"u8, head);
        Chunk(png, "PLTE"u8, [.. s_palette.SelectMany(c => new[] { (byte)(c >> 16), (byte)(c >> 8), (byte)c })]);
        Chunk(png, "IDAT"u8, Compressed(pixels, bitmap));
        Chunk(png, "IEND"u8, []);
        return png.ToArray();
    }

    private static byte[] Compressed(ReadOnlySpan<byte> pixels, SKBitmap bitmap)
    {
        var nearest = new Dictionary<int, byte>();
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] row = new byte[1 + ((bitmap.Width + 1) / 2)];
            for (int y = 0; y < bitmap.Height; y++)
            {
                Array.Clear(row);
                for (int x = 0; x < bitmap.Width; x++)
                {
                    int colour = ColourAt(pixels, (y * bitmap.RowBytes) + (x * 4));
                    if (!nearest.TryGetValue(colour, out byte index))
                    {
                        index = Nearest(colour);
                        nearest.Add(colour, index);
                    }

                    row[1 + (x / 2)] |= (byte)(x % 2 == 0 ? index << 4 : index);
                }

                zlib.Write(row);
            }
        }

        return packed.ToArray();
    }

    private static int Mixed(byte ink, int part) => ((ink * part) + (255 * (3 - part))) / 3;

    private static int Number(int red, int green, int blue) => (red << 16) | (green << 8) | blue;

    private static byte Nearest(int colour)
    {
        int best = 0;
        int least = int.MaxValue;
        for (int i = 0; i < s_palette.Length; i++)
        {
            int red = (s_palette[i] >> 16) - (colour >> 16);
            int green = ((s_palette[i] >> 8) & 0xFF) - ((colour >> 8) & 0xFF);
            int blue = (s_palette[i] & 0xFF) - (colour & 0xFF);
            int distance = (red * red) + (green * green) + (blue * blue);
            if (distance < least)
            {
                (best, least) = (i, distance);
            }
        }

        return (byte)best;
    }

    private static int ColourAt(ReadOnlySpan<byte> pixels, int at) => Number(pixels[at], pixels[at + 1], pixels[at + 2]);

    private static void Chunk(MemoryStream png, ReadOnlySpan<byte> type, byte[] data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        png.Write(number);
        png.Write(type);
        png.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Crc(Crc(uint.MaxValue, type), data));
        png.Write(number);
    }

    // ISO/IEC 15948, annex D: the usual 32-bit check, bit by bit; a picture has some ten thousand bytes.
    private static uint Crc(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (byte b in bytes)
        {
            crc ^= b;
            for (int bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? 0xEDB88320u ^ (crc >> 1) : crc >> 1;
            }
        }

        return crc;
    }
}
