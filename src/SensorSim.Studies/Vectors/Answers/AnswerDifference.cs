// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files.Rows;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Vectors.Answers;

/// <summary>How the answers to a case differ from what is expected.</summary>
/// <param name="EqualCount">Answers that are the same in every column that is compared.</param>
/// <param name="ExpectedCount">Answers that are expected.</param>
/// <param name="GivenCount">Answers that were given.</param>
/// <param name="Columns">The columns that are compared.</param>
/// <param name="FirstExpected">The first one that differs, as expected; null when nothing like what was given is.</param>
/// <param name="FirstGiven">The first one that differs, as given; null when it was not given.</param>
public sealed record AnswerDifference(
    long EqualCount, long ExpectedCount, long GivenCount, IReadOnlyList<string> Columns, DetectionRow? FirstExpected, DetectionRow? FirstGiven)
{
    /// <summary>Whether every answer is as expected.</summary>
    public bool IsExact => EqualCount == ExpectedCount && EqualCount == GivenCount;

    /// <summary>One sentence: how many are the same, and what differs first.</summary>
    public string Sentence
    {
        get
        {
            string text = string.Create(CultureInfo.InvariantCulture, $"{EqualCount} of {ExpectedCount} expected answers are the same in {string.Join(", ", Columns)}; {GivenCount} were given");
            if ((FirstExpected ?? FirstGiven) is not DetectionRow shown)
            {
                return text;
            }

            string what = string.Create(CultureInfo.InvariantCulture, $"{shown.Kind.Text()} in {shown.Channel.Text()} at {shown.TimeNs * 1e-9:0.000######} s");
            string how = FirstGiven is null ? "is expected and was not given"
                : FirstExpected is null ? "was given and is not expected"
                : string.Join(", ", AnswerColumns.Different(FirstExpected.Value, FirstGiven.Value, Columns).Select(d => $"{d.Column} is {d.Given}, expected {d.Expected}"));
            return string.Create(CultureInfo.InvariantCulture, $"{text}; first difference: {what}: {how}");
        }
    }
}
