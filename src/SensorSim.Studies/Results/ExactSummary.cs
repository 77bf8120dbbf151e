// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Expectations;

namespace SensorSim.Studies.Results;

/// <summary>What came of the demand that a detector gives the library's marks, field by field.</summary>
public sealed record ExactSummary
{
    /// <summary>Name and version of the library.</summary>
    public required string Library { get; init; }

    /// <summary>Marks that are the same in every field.</summary>
    public required long EqualCount { get; init; }

    /// <summary>Marks of the same thing that differ in a field.</summary>
    public required long DifferentCount { get; init; }

    /// <summary>Marks that only the library gave.</summary>
    public required long OnlyLibraryCount { get; init; }

    /// <summary>Marks that only the detector under test gave.</summary>
    public required long OnlyDetectorCount { get; init; }

    /// <summary>The difference that was decided first, in one sentence; null when there is none.</summary>
    public string? First { get; init; }

    /// <summary>Time of that mark [s], nominal device time; null when there is none.</summary>
    public double? FirstS { get; init; }

    /// <summary>Whether the demand is met.</summary>
    public bool IsMet => DifferentCount + OnlyLibraryCount + OnlyDetectorCount == 0;

    /// <summary>The summary of a comparison that is complete.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="format">Format of the stream.</param>
    public static ExactSummary Of(ExactComparison comparison, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        return new ExactSummary
        {
            Library = comparison.ExpectedName,
            EqualCount = comparison.EqualCount,
            DifferentCount = comparison.DifferentCount,
            OnlyLibraryCount = comparison.OnlyExpectedCount,
            OnlyDetectorCount = comparison.OnlyGivenCount,
            First = comparison.First?.Sentence(format),
            FirstS = comparison.First?.TimeS(format),
        };
    }

    /// <summary>Writes it as the property <c>bit_exact</c>.</summary>
    /// <param name="json">Inside an object.</param>
    public void WriteProperty(Utf8JsonWriter json)
    {
        ArgumentNullException.ThrowIfNull(json);
        json.WriteStartObject("bit_exact");
        json.WriteBoolean("met", IsMet);
        json.WriteString("library", Library);
        json.WriteNumber("marks_equal", EqualCount);
        json.WriteNumber("marks_different", DifferentCount);
        json.WriteNumber("marks_only_library", OnlyLibraryCount);
        json.WriteNumber("marks_only_detector", OnlyDetectorCount);
        json.WriteString("first_difference", First);
        ScoreJson.Number(json, "first_difference_s", FirstS);
        json.WriteEndObject();
    }
}
