// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.IO.Compression;
using SkiaSharp;

namespace SensorSim.Reports.Vectors;

/// <summary>Writes a bitmap as a PNG of at most 16 colours: a quarter of the size, and a line drawing needs no more.</summary>
/// <remarks>The drawing library encodes full colours only. Format: PNG (ISO/IEC 15948), colour type 3.</remarks>
internal static class PaletteImage
{
    private const int MostColours = 16;

    /// <summary>The bytes of the file.</summary>
    /// <param name="bitmap">The picture, RGBA.</param>
    public static byte[] Png(SKBitmap bitmap)
    {
        ReadOnlySpan<byte> pixels = bitmap.GetPixelSpan();
        int[] palette = Palette(pixels);
        using var png = new MemoryStream();
        png.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        byte[] head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, bitmap.Width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), bitmap.Height);
        head[8] = 8;
        head[9] = 3;
        Chunk(png, "IHDR"u8, head);
        Chunk(png, "PLTE"u8, [.. palette.SelectMany(c => new[] { (byte)(c >> 16), (byte)(c >> 8), (byte)c })]);
        Chunk(png, "IDAT"u8, Compressed(pixels, bitmap, palette));
        Chunk(png, "IEND"u8, []);
        return png.ToArray();
    }

    private static byte[] Compressed(ReadOnlySpan<byte> pixels, SKBitmap bitmap, int[] palette)
    {
        var nearest = new Dictionary<int, byte>();
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            byte[] row = new byte[bitmap.Width + 1];
            for (int y = 0; y < bitmap.Height; y++)
            {
                for (int x = 0; x < bitmap.Width; x++)
                {
                    int colour = ColourAt(pixels, (y * bitmap.RowBytes) + (x * 4));
                    if (!nearest.TryGetValue(colour, out byte index))
                    {
                        index = Nearest(palette, colour);
                        nearest.Add(colour, index);
                    }

                    row[x + 1] = index;
                }

                zlib.Write(row);
            }
        }

        return packed.ToArray();
    }

    // The most frequent ones: paper, ink and the first steps between them. Equal counts are ordered by value.
    private static int[] Palette(ReadOnlySpan<byte> pixels)
    {
        var counts = new Dictionary<int, int>();
        for (int i = 0; i < pixels.Length; i += 4)
        {
            int colour = ColourAt(pixels, i);
            counts[colour] = counts.GetValueOrDefault(colour) + 1;
        }

        return [.. counts.OrderByDescending(c => c.Value).ThenBy(c => c.Key).Take(MostColours).Select(c => c.Key)];
    }

    private static byte Nearest(int[] palette, int colour)
    {
        int best = 0;
        int least = int.MaxValue;
        for (int i = 0; i < palette.Length; i++)
        {
            int red = (palette[i] >> 16) - (colour >> 16);
            int green = ((palette[i] >> 8) & 0xFF) - ((colour >> 8) & 0xFF);
            int blue = (palette[i] & 0xFF) - (colour & 0xFF);
            int distance = (red * red) + (green * green) + (blue * blue);
            if (distance < least)
            {
                (best, least) = (i, distance);
            }
        }

        return (byte)best;
    }

    private static int ColourAt(ReadOnlySpan<byte> pixels, int at) => (pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2];

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
