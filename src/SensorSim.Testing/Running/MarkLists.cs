// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing;

/// <summary>Compares marks of two runs.</summary>
internal static class MarkLists
{
    /// <summary>The first difference in a sentence; null when there is none. When marks were given does not count.</summary>
    public static string? FirstDifference(IReadOnlyList<Mark> expected, IReadOnlyList<Mark> found, StreamFormat format)
    {
        for (int i = 0; i < Math.Min(expected.Count, found.Count); i++)
        {
            if (expected[i] with { EmittedTick = 0 } != found[i] with { EmittedTick = 0 })
            {
                return FormattableString.Invariant($"mark {i + 1} is {Text(found[i], format)}, in blocks of 1 s it was {Text(expected[i], format)}");
            }
        }

        return expected.Count == found.Count ? null
            : found.Count > expected.Count ? FormattableString.Invariant($"mark {expected.Count + 1}, {Text(found[expected.Count], format)}, was not there in blocks of 1 s")
            : FormattableString.Invariant($"mark {found.Count + 1} is missing, in blocks of 1 s it was {Text(expected[found.Count], format)}");
    }

    private static string Text(in Mark mark, StreamFormat format)
    {
        string channel = mark.Channel >= 0 && mark.Channel < format.Channels.Count ? format.Channels[mark.Channel].Name.Text() : "channel " + FormattableString.Invariant($"{mark.Channel}");
        string value = mark.HasValue ? FormattableString.Invariant($" of {mark.Value:0.###}") : "";
        return FormattableString.Invariant($"{channel} {mark.Kind.Text()}{value} at sample {mark.Sample} + {mark.Fraction256}/256, quality {mark.Quality}");
    }
}
