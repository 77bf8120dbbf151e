// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace SensorSim.TwinWriter.Reading;

/// <summary>Values that fields and properties are given where they are declared.</summary>
internal static class HeadValues
{
    /// <summary>The value; null when it is given none.</summary>
    public static IOperation? Of(SourceSet source, ISymbol member)
    {
        SyntaxNode syntax = member.DeclaringSyntaxReferences[0].GetSyntax();
        EqualsValueClauseSyntax? value = syntax switch
        {
            PropertyDeclarationSyntax property => property.Initializer,
            VariableDeclaratorSyntax field => field.Initializer,
            _ => null,
        };
        return value is null ? null : source.ModelOf(syntax.SyntaxTree).GetOperation(value) is ISymbolInitializerOperation initializer
            ? initializer.Value : throw new RefusalException(syntax, "this value has no translation into C");
    }
}
