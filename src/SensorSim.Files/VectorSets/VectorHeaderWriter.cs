// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Writes a C99 header that needs nothing but <c>stdint.h</c>: arrays go into flash, no code runs at start.</summary>
public static class VectorHeaderWriter
{
    /// <summary>Size of an entry of the runs [bytes].</summary>
    public const int RunBytes = 8;

    /// <summary>Size of an entry of the status words [bytes].</summary>
    public const int StatusBytes = 12;

    private const int LongestLine = 110;

    private const string Types = """
        #ifndef SENSORSIM_VECTOR_TYPES
        #define SENSORSIM_VECTOR_TYPES

        /* Consecutive samples. Where first_index jumps from one run to the next, samples never came; the codes of the runs lie one after another. */
        typedef struct sensorsim_vector_run {
            int32_t first_index; /* sample number of the first one, from the start of the stream */
            int32_t count;
        } sensorsim_vector_run;

        /* Codes whose status word is not 0; of all others it is. Bits: 1, 2, 4 lead-off of the positive, negative, third electrode; 8 saturated;
           16 over range; 32 samples lost before; 64 pacing spike; 128 no contact with the skin; above 255: number of the settings. */
        typedef struct sensorsim_vector_status {
            int32_t first; /* place in the codes, not a sample number */
            int32_t count;
            uint16_t word;
            uint16_t reserved;
        } sensorsim_vector_status;

        typedef struct sensorsim_vector_channel {
            const char *name;
            int32_t role;             /* ecg 0, red 1, infrared 2, green 3, dark 4, accel_x 5, accel_y 6, accel_z 7 */
            int32_t rate_hz;
            int32_t ticks_per_sample;
            int32_t polarity;         /* physical value = (code - zero_code) * unit_per_code * polarity */
            int32_t zero_code;
            int32_t codes_per_unit256;
            int64_t delay256;         /* declared delay of the chain [1/256 tick] */
            const char *unit;
            const char *unit_per_code;
            int32_t shift;            /* bits by which the codes were shifted to the right, rounded; all numbers here are after that */
            int32_t keep_every;       /* 1: every sample; n: those whose number was a multiple of n; all numbers here are after that */
            const int16_t *codes16;   /* one of the two is 0 */
            const int32_t *codes32;
            int32_t count;            /* codes */
            const sensorsim_vector_run *runs;
            int32_t run_count;
            const sensorsim_vector_status *status;
            int32_t status_count;
        } sensorsim_vector_channel;

        typedef struct sensorsim_vector {
            const char *name;
            int64_t ticks_per_second;
            int64_t end_tick; /* first tick after the end */
            int32_t channel_count;
            const sensorsim_vector_channel *channels;
        } sensorsim_vector;

        #endif
        """;

    /// <summary>Writes it.</summary>
    /// <param name="stream">Receives the text; closed.</param>
    /// <param name="header">What it holds.</param>
    public static void Write(Stream stream, VectorHeader header)
    {
        ArgumentNullException.ThrowIfNull(header);
        using var text = new StreamWriter(stream, new UTF8Encoding(false)) { NewLine = "\n" };
        string guard = $"SENSORSIM_{header.CName.ToUpperInvariant()}_H";
        text.WriteLine("/* SPDX-License-Identifier: MIT */");
        text.WriteLine("/*");
        foreach (string line in header.Comment)
        {
            text.WriteLine((" * " + Plain(line)).TrimEnd());
        }

        text.WriteLine(" */");
        text.WriteLine($"#ifndef {guard}");
        text.WriteLine($"#define {guard}");
        text.WriteLine();
        text.WriteLine("#include <stdint.h>");
        text.WriteLine();
        text.WriteLine(Types.ReplaceLineEndings("\n"));
        text.WriteLine();
        for (int c = 0; c < header.Channels.Count; c++)
        {
            WriteArrays(text, header, c);
        }

        text.WriteLine($"static const sensorsim_vector_channel {header.CName}_channels[{header.Channels.Count.ToString(CultureInfo.InvariantCulture)}] = {{");
        for (int c = 0; c < header.Channels.Count; c++)
        {
            WriteChannel(text, header, c);
        }

        text.WriteLine("};");
        text.WriteLine();
        text.WriteLine(FormattableString.Invariant($"static const sensorsim_vector {header.CName} = {{"));
        text.WriteLine(FormattableString.Invariant(
            $"    \"{header.Name}\", INT64_C({header.Format.Clock.TicksPerSecond}), INT64_C({header.EndTick}), {header.Channels.Count}, {header.CName}_channels"));
        text.WriteLine("};");
        text.WriteLine();
        text.WriteLine("/* The vector of the header that was included last, for a program that includes one and need not know its name. */");
        text.WriteLine("#undef SENSORSIM_VECTOR_LAST");
        text.WriteLine($"#define SENSORSIM_VECTOR_LAST {header.CName}");
        text.WriteLine();
        text.WriteLine("#endif");
    }

    private static void WriteArrays(StreamWriter text, VectorHeader header, int c)
    {
        VectorHeaderChannel channel = header.Channels[c];
        string name = NameOf(header, c);
        if (channel.Codes.Count > 0)
        {
            text.WriteLine(FormattableString.Invariant($"static const int{header.Bits}_t {name}_codes[{channel.Codes.Count}] = {{"));
            WriteValues(text, channel.Codes);
            text.WriteLine("};");
            text.WriteLine(FormattableString.Invariant($"static const sensorsim_vector_run {name}_runs[{channel.Runs.Count}] = {{"));
            foreach ((long first, int count) in channel.Runs)
            {
                text.WriteLine(FormattableString.Invariant($"    {{ {first}, {count} }},"));
            }

            text.WriteLine("};");
        }

        if (channel.Statuses.Count > 0)
        {
            text.WriteLine(FormattableString.Invariant($"static const sensorsim_vector_status {name}_status[{channel.Statuses.Count}] = {{"));
            foreach ((int first, int count, ushort word) in channel.Statuses)
            {
                text.WriteLine(FormattableString.Invariant($"    {{ {first}, {count}, {word}u, 0u }},"));
            }

            text.WriteLine("};");
        }

        text.WriteLine();
    }

    private static void WriteValues(StreamWriter text, IReadOnlyList<int> values)
    {
        var line = new StringBuilder();
        foreach (int value in values)
        {
            string word = value.ToString(CultureInfo.InvariantCulture);
            if (line.Length + word.Length + 2 > LongestLine)
            {
                text.WriteLine(line);
                line.Clear();
            }

            line.Append(line.Length == 0 ? "    " : " ").Append(word).Append(',');
        }

        text.WriteLine(line);
    }

    private static void WriteChannel(StreamWriter text, VectorHeader header, int c)
    {
        VectorHeaderChannel channel = header.Channels[c];
        ChannelFormat format = header.Format.Channels[c];
        string name = NameOf(header, c);
        bool hasCodes = channel.Codes.Count > 0;
        string codes = hasCodes ? $"{name}_codes" : "0";
        text.WriteLine(FormattableString.Invariant(
            $"    {{ \"{format.Name.Text()}\", {channel.Role}, {format.RateHz}, {header.Format.TicksPerSample(c)}, {format.Polarity}, {format.ZeroCode}, {channel.CodesPerUnit256}, INT64_C({channel.Delay256}),"));
        text.WriteLine(FormattableString.Invariant(
            $"      \"{format.Unit}\", \"{format.UnitPerCode:R}\", {channel.Shift}, {header.KeepEvery},"));
        text.WriteLine(FormattableString.Invariant(
            $"      {(header.Bits == 16 ? codes : "0")}, {(header.Bits == 16 ? "0" : codes)}, {channel.Codes.Count},"));
        text.WriteLine(FormattableString.Invariant(
            $"      {(hasCodes ? $"{name}_runs" : "0")}, {channel.Runs.Count}, {(channel.Statuses.Count > 0 ? $"{name}_status" : "0")}, {channel.Statuses.Count} }},"));
    }

    private static string NameOf(VectorHeader header, int c) => $"{header.CName}_{header.Format.Channels[c].Name.Text()}";

    // A comment must not end early, and a compiler may read another encoding.
    private static string Plain(string line)
    {
        var plain = new StringBuilder(line.Length);
        foreach (char c in line)
        {
            plain.Append(c is >= ' ' and <= '~' ? c : '?');
        }

        return plain.ToString().Replace("*/", "* /", StringComparison.Ordinal).Replace("/*", "/ *", StringComparison.Ordinal);
    }
}
