// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Naming;

/// <summary>The C name of everything in the twin, unique among all of them.</summary>
public sealed class Names
{
    private const string Prefix = "ss_";
    private readonly Twin _twin;
    private readonly Dictionary<ISymbol, string> _types = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, string> _methods = new(SymbolEqualityComparer.Default);
    private readonly HashSet<string> _all = new(StringComparer.Ordinal);

    /// <summary>Names everything.</summary>
    /// <param name="twin">What there is.</param>
    /// <exception cref="RefusalException">Two things would have one name.</exception>
    public Names(Twin twin)
    {
        ArgumentNullException.ThrowIfNull(twin);
        _twin = twin;
        ILookup<string, INamedTypeSymbol> alike = twin.Types.ToLookup(PlainPath, StringComparer.Ordinal);
        foreach (INamedTypeSymbol type in twin.Types)
        {
            string path = PlainPath(type);
            string name = alike[path].Count() == 1 ? path : Snake.Of(type.ContainingNamespace.Name) + "_" + path;
            _types.Add(type, Prefix + name);
            Claim(Prefix + name + "_t", type);
        }

        foreach (TwinMethod method in twin.Methods)
        {
            string name = NameOf(method.Symbol);
            _methods.Add(method.Symbol, name);
            Claim(name, method.Symbol);
        }
    }

    /// <summary>A struct's tag and the beginning of the names of its functions.</summary>
    public string Stem(INamedTypeSymbol type) => _types.TryGetValue(type.OriginalDefinition, out string? name)
        ? name : throw new RefusalException($"{type.ToDisplayString()} is no type of the twin");

    /// <summary>Name of a type as a value, a parameter or a field has it.</summary>
    public string Type(ITypeSymbol type) => type.SpecialType switch
    {
        SpecialType.System_Void => "void",
        SpecialType.System_Boolean => "bool",
        SpecialType.System_Byte => "uint8_t",
        SpecialType.System_SByte => "int8_t",
        SpecialType.System_Int16 => "int16_t",
        SpecialType.System_UInt16 => "uint16_t",
        SpecialType.System_Int32 => "int32_t",
        SpecialType.System_UInt32 => "uint32_t",
        SpecialType.System_Int64 => "int64_t",
        SpecialType.System_UInt64 => "uint64_t",
        _ => TypeFacts.IsSpan(type) ? View(type) + "_t" : type is INamedTypeSymbol named ? Stem(named) + "_t"
            : throw new RefusalException($"{type.ToDisplayString()} is no type of the twin"),
    };

    /// <summary>The views that were named so far, by tag.</summary>
    public SortedDictionary<string, ITypeSymbol> Views { get; } = new(StringComparer.Ordinal);

    /// <summary>Tag of a view of consecutive values.</summary>
    public string View(ITypeSymbol span)
    {
        string name = ViewName(span);
        Views[name] = span;
        return name;
    }

    private string ViewName(ITypeSymbol span)
    {
        ITypeSymbol element = TypeFacts.SpanElement(span);
        string plain = Type(element);
        plain = plain.StartsWith(Prefix, StringComparison.Ordinal) ? plain[Prefix.Length..] : plain;
        return Prefix + (TypeFacts.IsWritableSpan(span) ? "room_" : "view_") + plain[..^2];
    }

    /// <summary>Name of a function.</summary>
    public string Function(IMethodSymbol method) => _methods[_twin.Find(method)!.Symbol];

    /// <summary>Name of a field.</summary>
    public static string Field(IFieldSymbol field)
    {
        ISymbol named = field.AssociatedSymbol ?? field;
        string name = Snake.OfVariable(named.Name);
        bool isTaken = field.AssociatedSymbol is not null && field.ContainingType.GetMembers().OfType<IFieldSymbol>()
            .Any(other => !other.IsStatic && other.AssociatedSymbol is null && Snake.OfVariable(other.Name) == name);
        return isTaken ? name + "_told" : name;
    }

    /// <summary>Name of a constant or of a member of an enumeration.</summary>
    public string Constant(IFieldSymbol field) => Stem(field.ContainingType).ToUpperInvariant() + "_" + Snake.OfConstant(field.Name);

    /// <summary>Name of a table.</summary>
    public string Table(IPropertySymbol table) => Stem(table.ContainingType) + "_" + Snake.Of(table.Name);

    private static string PlainPath(INamedTypeSymbol type) =>
        (type.ContainingType is null ? "" : PlainPath(type.ContainingType) + "_") + Snake.Of(type.Name);

    private string NameOf(IMethodSymbol method)
    {
        string stem = Stem(method.ContainingType) + "_";
        string own = method.MethodKind switch
        {
            MethodKind.Constructor => "make",
            MethodKind.PropertyGet when method.AssociatedSymbol is IPropertySymbol { IsIndexer: true } => "at",
            MethodKind.PropertyGet => Snake.Of(method.AssociatedSymbol!.Name),
            MethodKind.PropertySet => "set_" + Snake.Of(method.AssociatedSymbol!.Name),
            MethodKind.Ordinary => Snake.Of(method.Name),
            _ => throw new RefusalException($"{method.ToDisplayString()}: a method of kind {method.MethodKind} has no translation"),
        };
        IMethodSymbol[] alike = [.. method.ContainingType.GetMembers(method.Name).OfType<IMethodSymbol>()
            .Where(other => _twin.Find(other) is TwinMethod found && SymbolEqualityComparer.Default.Equals(found.Symbol, other))];
        if (alike.Length < 2)
        {
            return stem + own;
        }

        bool isToldByCount = alike.Select(CountOf).Distinct().Count() == alike.Length;
        return isToldByCount
            ? FormattableString.Invariant($"{stem}{own}_{CountOf(method)}")
            : stem + own + string.Concat(Parameters(method).Select(parameter => "_" + Short(parameter.Type)));
    }

    private string Short(ITypeSymbol type)
    {
        string name = Type(type)[..^(type.SpecialType == SpecialType.System_Boolean ? 0 : 2)];
        return name.StartsWith(Prefix, StringComparison.Ordinal) ? name[Prefix.Length..] : name;
    }

    private static int CountOf(IMethodSymbol method) => Parameters(method).Count();

    /// <summary>Parameters of a method that its function has too.</summary>
    public static IEnumerable<IParameterSymbol> Parameters(IMethodSymbol method) => method.Parameters.Where(parameter => !TypeFacts.IsProbe(parameter.Type));

    private void Claim(string name, ISymbol symbol)
    {
        if (!_all.Add(name))
        {
            throw new RefusalException($"{symbol.ToDisplayString()}: there is something else that would be called {name} in C");
        }
    }
}
