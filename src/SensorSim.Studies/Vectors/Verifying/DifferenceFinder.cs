// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using System.Text;
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>Says in the terms of a file where it first differs from what is made: line and column, or channel, sample and time.</summary>
internal static class DifferenceFinder
{
    private const int LongestShown = 100;

    /// <summary>The first difference.</summary>
    /// <param name="disk">The set on the disk.</param>
    /// <param name="path">The file in the set.</param>
    /// <param name="compared">The comparison, which has found a difference.</param>
    /// <param name="rates">Rate of each channel of the file's case [Hz], by name.</param>
    public static FirstDifference Of(SetOnDisk disk, string path, ByteComparison compared, IReadOnlyDictionary<string, int> rates)
    {
        byte[] theirs = Read(disk.FullPath(path), compared.WindowBegin, 8192);
        byte[] made = [.. compared.Window];
        int at = (int)(compared.DifferenceAt - compared.WindowBegin);
        return Path.GetExtension(path) switch
        {
            ".i32" => Codes(disk, path, compared.DifferenceAt, theirs, made, at, rates),
            ".bdf" => BdfPlace.Of(disk.FullPath(path), compared.DifferenceAt, theirs, made, at),
            _ => Text(disk.FullPath(path), compared, theirs, made, at),
        };
    }

    /// <summary>A byte in hexadecimal, or that the file ends there.</summary>
    internal static string ByteAt(byte[] bytes, int at) => at < bytes.Length ? FormattableString.Invariant($"0x{bytes[at]:X2}") : "the end";

    /// <summary>Part of a file; less when it ends before.</summary>
    internal static byte[] Read(string path, long begin, int count)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
        file.Position = begin;
        byte[] bytes = new byte[count];
        return bytes[..file.ReadAtLeast(bytes, count, throwOnEndOfStream: false)];
    }

    private static FirstDifference Codes(
        SetOnDisk disk, string path, long offset, byte[] theirs, byte[] made, int at, IReadOnlyDictionary<string, int> rates)
    {
        string channel = Path.GetFileNameWithoutExtension(path);
        long place = offset / sizeof(int);
        int begin = (int)(at - (offset % sizeof(int)));
        long? sample = SampleOf(disk.FullPath(path[..^4] + "-runs.csv"), place);
        double? seconds = sample is long number && rates.TryGetValue(channel, out int rate) ? (double)number / rate : null;
        string where = sample is long s
            ? FormattableString.Invariant($"byte {offset}, {channel}, sample {s}{(seconds is double t ? FormattableString.Invariant($" at {t:0.######} s") : "")}")
            : FormattableString.Invariant($"byte {offset}, {channel}, code {place}");
        return new FirstDifference(offset, where, CodeAt(theirs, begin), CodeAt(made, begin)) { Channel = channel, Sample = sample, TimeS = seconds };
    }

    private static string CodeAt(byte[] bytes, int begin) => begin + sizeof(int) <= bytes.Length
        ? FormattableString.Invariant($"{BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(begin))}")
        : "the end";

    // Where the stretches are listed in the set: if that list is damaged too, only the place in the file is known.
    private static long? SampleOf(string runs, long place)
    {
        try
        {
            using var lines = new StreamReader(runs);
            lines.ReadLine();
            while (lines.ReadLine() is string line)
            {
                string[] fields = line.Split(',');
                long count = long.Parse(fields[1], System.Globalization.CultureInfo.InvariantCulture);
                if (place < count)
                {
                    return long.Parse(fields[0], System.Globalization.CultureInfo.InvariantCulture) + place;
                }

                place -= count;
            }
        }
        catch (Exception e) when (e is IOException or FormatException or OverflowException or IndexOutOfRangeException or UnauthorizedAccessException)
        {
            return null;
        }

        return null;
    }

    private static FirstDifference Text(string path, ByteComparison compared, byte[] theirs, byte[] made, int at)
    {
        string their = LineAt(theirs, at);
        string our = LineAt(made, at);
        string where = FormattableString.Invariant($"line {compared.Line}");
        if (path.EndsWith(".csv", StringComparison.Ordinal) && Column(path, their, our) is (string column, string theirField, string ourField))
        {
            return new FirstDifference(compared.DifferenceAt, $"{where}, column {column} of {Quote(our)}", Quote(theirField), Quote(ourField)) { Line = compared.Line };
        }

        if (their == our)
        {
            // The line ends differ, or the one is cut off behind it.
            return new FirstDifference(compared.DifferenceAt, FormattableString.Invariant($"{where}, byte {compared.DifferenceAt}"), ByteAt(theirs, at), ByteAt(made, at)) { Line = compared.Line };
        }

        int differs = their.AsSpan().CommonPrefixLength(our);
        return new FirstDifference(compared.DifferenceAt, where, Quote(their, differs), Quote(our, differs)) { Line = compared.Line };
    }

    private static (string Name, string Their, string Our)? Column(string path, string their, string our)
    {
        using var lines = new StreamReader(path);
        string[] names = (lines.ReadLine() ?? "").Split(',');
        string[] theirs = their.Split(',');
        string[] ours = our.Split(',');
        if (theirs.Length != ours.Length || ours.Length != names.Length)
        {
            return null;
        }

        int i = Enumerable.Range(0, ours.Length).FirstOrDefault(k => theirs[k] != ours[k], -1);
        return i < 0 || names[i].Length == 0 ? null : (names[i], theirs[i], ours[i]);
    }

    private static string LineAt(byte[] bytes, int at)
    {
        at = Math.Min(at, bytes.Length);
        int begin = bytes.AsSpan(0, at).LastIndexOf((byte)'\n') + 1;
        int length = bytes.AsSpan(at).IndexOf((byte)'\n');
        return Encoding.UTF8.GetString(bytes, begin, (length < 0 ? bytes.Length : at + length) - begin);
    }

    /// <summary>Text in quotation marks without control characters; of a long one the part around a place.</summary>
    internal static string Quote(string text, int place = 0)
    {
        int from = text.Length <= LongestShown ? 0 : Math.Max(0, Math.Min(place - (LongestShown / 2), text.Length - LongestShown));
        int to = Math.Min(text.Length, from + LongestShown);
        var quoted = new StringBuilder(from > 0 ? "\"..." : "\"");
        foreach (char c in text.AsSpan(from, to - from))
        {
            quoted.Append(char.IsControl(c) ? '?' : c);
        }

        return quoted.Append(to < text.Length ? "...\"" : "\"").ToString();
    }
}
