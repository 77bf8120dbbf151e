// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>Says where in a BDF file a byte lies: in the header, or in which record, signal and sample.</summary>
/// <remarks>The layout is the published one: 256 bytes, then 256 for each signal, then records of 3-byte little-endian samples.</remarks>
internal static class BdfPlace
{
    private const int Head = 256;
    private const int SampleBytes = 3;

    public static FirstDifference Of(string path, long offset, byte[] theirs, byte[] made, int at)
    {
        try
        {
            byte[] head = DifferenceFinder.Read(path, 0, Head);
            int signals = Number(head, 252, 4);
            if (signals is < 1 or > 512 || offset < Head + ((long)signals * Head))
            {
                return InHeader(offset, theirs, made, at);
            }

            byte[] lists = DifferenceFinder.Read(path, Head, signals * Head);
            long inData = offset - Head - ((long)signals * Head);
            int[] counts = [.. Enumerable.Range(0, signals).Select(s => Number(lists, (216 * signals) + (8 * s), 8))];
            long recordBytes = counts.Sum(c => (long)c) * SampleBytes;
            double recordS = double.Parse(Field(head, 244, 8), NumberStyles.Float, CultureInfo.InvariantCulture);
            long record = inData / recordBytes;
            long rest = inData % recordBytes;
            int signal = 0;
            while (rest >= (long)counts[signal] * SampleBytes)
            {
                rest -= (long)counts[signal++] * SampleBytes;
            }

            string label = Field(lists, 16 * signal, 16);
            long sample = rest / SampleBytes;
            int begin = at - (int)(rest % SampleBytes);
            if (label.Contains("Annotations", StringComparison.Ordinal))
            {
                return new FirstDifference(offset, FormattableString.Invariant($"byte {offset}, annotations of record {record}"), DifferenceFinder.ByteAt(theirs, at), DifferenceFinder.ByteAt(made, at));
            }

            double seconds = (record + ((double)sample / counts[signal])) * recordS;
            long index = (record * counts[signal]) + sample;
            return new FirstDifference(
                offset, FormattableString.Invariant($"byte {offset}, signal {label}, sample {index} at {seconds:0.######} s"), ValueAt(theirs, begin), ValueAt(made, begin))
            {
                Channel = label,
                Sample = index,
                TimeS = seconds,
            };
        }
        catch (Exception e) when (e is FormatException or OverflowException or DivideByZeroException or IndexOutOfRangeException or IOException)
        {
            // The header itself is beyond reading.
            return InHeader(offset, theirs, made, at);
        }
    }

    private static FirstDifference InHeader(long offset, byte[] theirs, byte[] made, int at) => new(
        offset, FormattableString.Invariant($"byte {offset}{(offset < Head ? " of the header" : "")}"), DifferenceFinder.ByteAt(theirs, at), DifferenceFinder.ByteAt(made, at));

    private static string ValueAt(byte[] bytes, int begin) => begin + SampleBytes <= bytes.Length
        ? FormattableString.Invariant($"{(sbyte)bytes[begin + 2] * 65536 + bytes[begin + 1] * 256 + bytes[begin]}")
        : "the end";

    private static int Number(byte[] bytes, int at, int length) => int.Parse(Field(bytes, at, length), NumberStyles.None, CultureInfo.InvariantCulture);

    private static string Field(byte[] bytes, int at, int length) => Encoding.ASCII.GetString(bytes, at, length).Trim();
}
