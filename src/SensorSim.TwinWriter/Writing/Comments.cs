// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Comments inside of functions, carried over line by line; an empty line stays one.</summary>
internal static class Comments
{
    /// <summary>What stands before a statement, and behind it on its line.</summary>
    public static IEnumerable<string> Before(SyntaxNode syntax)
    {
        SyntaxNode whole = syntax.Parent is ExpressionStatementSyntax or GlobalStatementSyntax ? syntax.Parent : syntax;
        if (whole is not (StatementSyntax or SwitchLabelSyntax) || whole.Parent is ArrowExpressionClauseSyntax)
        {
            return [];
        }

        return Of(whole.GetLeadingTrivia()).Concat(whole is BlockSyntax ? [] : Of(whole.GetTrailingTrivia()).Where(line => line.Length > 0));
    }

    /// <summary>What stands after the last statement of a block.</summary>
    public static IEnumerable<string> AtEnd(SyntaxNode syntax) => syntax is BlockSyntax block ? Of(block.CloseBraceToken.LeadingTrivia) : [];

    /// <summary>Comments among trivia.</summary>
    public static IEnumerable<string> Of(SyntaxTriviaList trivia)
    {
        int line = 0;
        bool isFirst = true;
        foreach (SyntaxTrivia each in trivia)
        {
            if (each.IsKind(SyntaxKind.EndOfLineTrivia))
            {
                line++;
                if (line == 1 && isFirst)
                {
                    yield return "";
                }

                continue;
            }

            if (each.IsKind(SyntaxKind.SingleLineCommentTrivia))
            {
                yield return "/* " + each.ToString()[2..].Trim().Replace("*/", "* /", StringComparison.Ordinal) + " */";
                line = -1;
                isFirst = false;
            }
            else if (each.IsKind(SyntaxKind.MultiLineCommentTrivia))
            {
                throw new Reading.RefusalException(each.Token.Parent!, "comments of several lines have no translation; begin each line with //");
            }
        }
    }
}
