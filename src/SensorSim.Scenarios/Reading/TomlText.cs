// SPDX-License-Identifier: MIT
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Reading;

/// <summary>Parses the TOML of scenarios and sensors.</summary>
internal static class TomlText
{
    /// <summary>Parses a text; throws when it is not TOML.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">Name of its file.</param>
    /// <param name="mistakes">Mistakes of that file.</param>
    /// <exception cref="ScenarioException">It is not TOML.</exception>
    /// <remarks>The parser goes on after an error and may find others that only follow from it: one a line is told.</remarks>
    public static DocumentSyntax Parse(string text, string file, MistakeList mistakes)
    {
        const string Right = "a line is [section], key = value or # comment";
        try
        {
            // What stands twice is found by the reader, in words that name the first place.
            DocumentSyntax document = SyntaxParser.Parse(text, file, validate: false);
            foreach (DiagnosticMessage message in document.Diagnostics.DistinctBy(m => m.Span.Start.Line))
            {
                mistakes.Add(message.Span, $"not TOML: {TomlNames.FirstLine(message.Message)}; {Right}");
            }

            mistakes.ThrowIfAny();
            return document;
        }
        catch (TomlException e)
        {
            // Without a place only when lists or tables are nested without end: there the parser gives up as a whole.
            string what = e.Span is null ? "lists or tables are nested too deep" : TomlNames.FirstLine(e.Message);
            mistakes.Add(e.Span?.Start.Line ?? -1, e.Span?.Start.Column ?? -1, $"not TOML for a scenario: {what}; {Right}");
            throw mistakes.ToException();
        }
    }
}
