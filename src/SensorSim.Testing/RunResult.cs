// SPDX-License-Identifier: MIT
namespace SensorSim.Testing;

/// <summary>Result of a <see cref="RunConstraint"/>, with a message that says what to look at and how.</summary>
internal sealed class RunResult(RunConstraint constraint, ScoredRuns runs, Judgement judgement) : DetectorResult(constraint, runs, judgement.IsMet, judgement.IsBroken)
{
    private const int LabelWidth = 10;

    /// <inheritdoc/>
    public override void WriteActualValueTo(MessageWriter writer)
    {
        ArgumentNullException.ThrowIfNull(writer);
        writer.Write(judgement.Measured);
    }

    /// <inheritdoc/>
    public override void WriteAdditionalLinesTo(MessageWriter writer)
    {
        ArgumentNullException.ThrowIfNull(writer);
        Line(writer, "Tested:", runs.ToString());
        foreach ((string label, string text) in judgement.Details)
        {
            Line(writer, label, text);
        }

        Line(writer, "By hand:", ByHand.Command(runs.Given, runs.Detector, judgement.WorstSeed));
    }

    // Not as a format: the text may hold braces.
    private static void Line(MessageWriter writer, string label, string text) => writer.WriteLine($"  {label.PadRight(LabelWidth)}{text}");
}
