// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;

namespace SensorSim.TwinWriter.Reading;

/// <summary>One piece of C# that becomes a C function: a method, a getter, a setter or a constructor.</summary>
/// <param name="Symbol">What it is.</param>
/// <param name="Syntax">Where it stands; of a constructor in the head of a type the type.</param>
/// <param name="Documented">What carries its documentation.</param>
/// <param name="Body">Its statements; null for a constructor in the head of a type.</param>
public sealed record TwinMethod(IMethodSymbol Symbol, SyntaxNode Syntax, ISymbol Documented, IOperation? Body)
{
    /// <summary>Path of the C# file.</summary>
    public string File => Syntax.SyntaxTree.FilePath;
}

/// <summary>A table of constants: a static property whose value is a list.</summary>
/// <param name="Symbol">The property.</param>
/// <param name="Syntax">Where it stands.</param>
/// <param name="Values">The entries as C numbers.</param>
/// <param name="Element">Type of an entry.</param>
public sealed record TwinTable(IPropertySymbol Symbol, SyntaxNode Syntax, IReadOnlyList<string> Values, ITypeSymbol Element);
