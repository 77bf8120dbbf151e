// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;

namespace SensorSim.TwinWriter.Reading;

/// <summary>The C# source holds something that has no sure translation: it is told with its place, and nothing is written.</summary>
public sealed class RefusalException : Exception
{
    /// <summary>Creates a refusal without a place.</summary>
    /// <param name="message">What is not understood, and what would be.</param>
    public RefusalException(string message)
        : base(message)
    {
    }

    /// <summary>Creates a refusal at a place in the source.</summary>
    /// <param name="syntax">The place.</param>
    /// <param name="message">What is not understood, and what would be.</param>
    public RefusalException(SyntaxNode syntax, string message)
        : base(Place(syntax) + ": " + message)
    {
    }

    private static string Place(SyntaxNode syntax)
    {
        FileLinePositionSpan span = syntax.GetLocation().GetLineSpan();
        return FormattableString.Invariant($"{span.Path}:{span.StartLinePosition.Line + 1}");
    }
}
