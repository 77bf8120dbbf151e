// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pressure;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>An answer of the library as words, in the order of twin_entry.c.</summary>
internal static class AnswerWords
{
    public const int Count = 14;

    public static readonly string[] Names =
    [
        "kind", "reading", "role", "paired role", "quality", "value", "sample", "fraction", "paired sample", "paired fraction", "window", "emitted tick", "lost", "pressure refusal",
    ];

    public static void Write(in Answer answer, int lost, PressureRefusal refusal, Span<long> words)
    {
        words[0] = (long)answer.Kind;
        words[1] = (long)answer.Reading;
        words[2] = (long)answer.Role;
        words[3] = (long)answer.PairedRole;
        words[4] = answer.Quality;
        words[5] = answer.Value;
        words[6] = answer.Place.Sample;
        words[7] = answer.Place.Fraction256;
        words[8] = answer.Paired.Sample;
        words[9] = answer.Paired.Fraction256;
        words[10] = answer.WindowSamples;
        words[11] = answer.EmittedTick;
        words[12] = lost;
        words[13] = (long)refusal;
    }

    /// <summary>The first answer that differs; null when all are the same.</summary>
    public static string? Difference(ReadOnlySpan<long> ours, ReadOnlySpan<long> twins)
    {
        for (int i = 0; i < Math.Min(ours.Length, twins.Length); i++)
        {
            if (ours[i] != twins[i])
            {
                int from = i - (i % Count);
                return FormattableString.Invariant(
                    $"answer {i / Count}, {Names[i % Count]}: C# {ours[i]}, C {twins[i]}; C# [{string.Join(' ', ours.Slice(from, Count).ToArray())}], C [{string.Join(' ', twins.Slice(from, Count).ToArray())}]");
            }
        }

        return ours.Length == twins.Length ? null : FormattableString.Invariant($"C# gives {ours.Length / Count} answers, C {twins.Length / Count}");
    }
}
