// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter;

/// <summary>Writes the body of one function. What it does not know it refuses, with file and line.</summary>
/// <remarks>
/// C leaves open in which order operands are computed, so whatever changes something inside of an expression becomes a line of its own before it, and
/// what was read earlier is kept in a variable where the change would show.
/// </remarks>
internal sealed partial class BodyWriter
{
    private readonly Twin _twin;
    private readonly Names _names;
    private readonly Effects _effects;
    private readonly TwinMethod _method;
    private readonly LineBuffer _out = new();
    private readonly LocalNames _locals = new();
    private readonly HashSet<ISymbol> _named = new(SymbolEqualityComparer.Default);
    private readonly HashSet<string> _kept = new(StringComparer.Ordinal);

    /// <summary>Prepares for one function.</summary>
    public BodyWriter(Twin twin, Names names, Effects effects, TwinMethod method)
    {
        (_twin, _names, _effects, _method) = (twin, names, effects, method);
        foreach (IParameterSymbol parameter in Names.Parameters(method.Symbol))
        {
            _locals.Declare(parameter);
        }
    }

    /// <summary>Types whose parts the body names, so that it needs their header.</summary>
    public HashSet<INamedTypeSymbol> Uses { get; } = new(SymbolEqualityComparer.Default);

    /// <summary>Functions that the body calls.</summary>
    public HashSet<IMethodSymbol> Calls { get; } = new(SymbolEqualityComparer.Default);

    /// <summary>Tables that the body reads.</summary>
    public HashSet<IPropertySymbol> Tables { get; } = new(SymbolEqualityComparer.Default);

    /// <summary>Parameters that the body does not look at.</summary>
    public IEnumerable<string> Unused => Names.Parameters(_method.Symbol).Where(parameter => !_named.Contains(parameter)).Select(NameOf);

    /// <summary>Name of a parameter.</summary>
    public string NameOf(IParameterSymbol parameter) => _locals.Of(parameter);

    private string TypeName(ITypeSymbol type)
    {
        Use(type);
        return _names.Type(type);
    }

    private void Use(ITypeSymbol type)
    {
        if (type is INamedTypeSymbol { SpecialType: SpecialType.None } named && _twin.Types.Contains(named, SymbolEqualityComparer.Default))
        {
            Uses.Add(named);
        }
    }

    // A cast where C would otherwise store an int into less.
    private CExpr Stored(CExpr value, ITypeSymbol type) =>
        value.IsWide && TypeFacts.IsNarrow(type) ? new CExpr($"({TypeName(type)}){value.Within(Binding.Unary)}", Binding.Unary) : value;

    // Keeps a value in a variable, so that what comes after cannot change it.
    private CExpr Keep(CExpr value, ITypeSymbol type, string wish)
    {
        if (_kept.Contains(value.Text))
        {
            return value;
        }

        string name = _locals.Fresh(wish);
        _kept.Add(name);
        _out.Add($"{TypeName(type)} {name} = {Stored(value, type).Text};");
        return new CExpr(name);
    }

    private static string WishFor(IOperation operation) => operation switch
    {
        Microsoft.CodeAnalysis.Operations.IInvocationOperation call => Snake.OfVariable(call.TargetMethod.Name) + "_value",
        Microsoft.CodeAnalysis.Operations.IPropertyReferenceOperation property when !property.Property.IsIndexer => Snake.OfVariable(property.Property.Name) + "_value",
        Microsoft.CodeAnalysis.Operations.IFieldReferenceOperation field => Snake.OfVariable(field.Field.Name) + "_value",
        _ => "value",
    };
}
