// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;

namespace SensorSim.TwinWriter.Reading;

/// <summary>What of the source goes into the twin: types, functions, tables.</summary>
public sealed class Twin
{
    private readonly Dictionary<ISymbol, TwinMethod> _methods = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, ISymbol> _replaced = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, TwinTable> _tables = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<ISymbol, string> _files = new(SymbolEqualityComparer.Default);

    /// <summary>Sorts a source set.</summary>
    /// <param name="source">The source.</param>
    /// <exception cref="RefusalException">A member has no translation.</exception>
    public Twin(SourceSet source)
    {
        ArgumentNullException.ThrowIfNull(source);
        Source = source;
        foreach (SyntaxTree tree in source.Trees.Where(tree => !Lanes.IsFile(tree.FilePath)))
        {
            foreach ((BaseTypeDeclarationSyntax syntax, INamedTypeSymbol type) in source.TypesOf(tree))
            {
                if (!TypeFacts.IsProbe(type))
                {
                    Add(source.ModelOf(tree), syntax, type);
                }
            }
        }

        foreach (TwinMethod method in _methods.Values.Where(IsForwarder).ToArray())
        {
            _methods.Remove(method.Symbol);
        }
    }

    /// <summary>The source.</summary>
    public SourceSet Source { get; }

    /// <summary>The types, in the order of files and text.</summary>
    public List<INamedTypeSymbol> Types { get; } = [];

    /// <summary>The functions, in the order of files and text.</summary>
    public IEnumerable<TwinMethod> Methods => _methods.Values;

    /// <summary>The tables.</summary>
    public IEnumerable<TwinTable> Tables => _tables.Values;

    /// <summary>The C# file that a type belongs to: of several parts the one named after it.</summary>
    public string FileOf(INamedTypeSymbol type) => _files[type.OriginalDefinition];

    /// <summary>The function of a method, or the one that stands for it.</summary>
    /// <param name="symbol">The method.</param>
    /// <returns>The function; null when the method is none of the source.</returns>
    public TwinMethod? Find(IMethodSymbol symbol)
    {
        ISymbol key = symbol.OriginalDefinition;
        return _methods.GetValueOrDefault(_replaced.GetValueOrDefault(key, key));
    }

    /// <summary>The table behind a property; null when it is none.</summary>
    public TwinTable? FindTable(IPropertySymbol symbol) => _tables.GetValueOrDefault(symbol);

    private void Add(SemanticModel model, BaseTypeDeclarationSyntax syntax, INamedTypeSymbol type)
    {
        if (!_files.TryGetValue(type, out string? file) || syntax.SyntaxTree.FilePath.Length < file.Length)
        {
            _files[type] = syntax.SyntaxTree.FilePath;
        }

        if (!Types.Contains(type, SymbolEqualityComparer.Default))
        {
            Types.Add(type);
        }

        if (syntax is not TypeDeclarationSyntax declaration || TypeFacts.InlineLength(type) > 0)
        {
            return;
        }

        if (type.TypeKind != TypeKind.Struct && !type.IsStatic)
        {
            throw new RefusalException(syntax, $"{type.Name} is no struct, enumeration or static class; only these have a twin");
        }

        if (declaration.ParameterList is not null && type.InstanceConstructors.FirstOrDefault(each => IsOf(each, declaration)) is IMethodSymbol head)
        {
            _methods.Add(head, new TwinMethod(head, declaration, type, null));
        }

        foreach (MemberDeclarationSyntax member in declaration.Members)
        {
            AddMember(model, member);
        }
    }

    private static bool IsOf(IMethodSymbol constructor, TypeDeclarationSyntax declaration) =>
        constructor.DeclaringSyntaxReferences.Any(reference => reference.GetSyntax() == declaration) && constructor.Parameters.Length > 0;

    private void AddMember(SemanticModel model, MemberDeclarationSyntax member)
    {
        switch (member)
        {
            case BaseTypeDeclarationSyntax or FieldDeclarationSyntax:
                break;
            case MethodDeclarationSyntax or ConstructorDeclarationSyntax:
                var method = (IMethodSymbol)model.GetDeclaredSymbol(member)!;
                _methods.Add(method, new TwinMethod(method, member, method, model.GetOperation(member) ?? throw new RefusalException(member, "no body")));
                break;
            case BasePropertyDeclarationSyntax property:
                AddProperty(model, property);
                break;
            default:
                throw new RefusalException(member, $"a member of kind {member.Kind2()} has no translation");
        }
    }

    private void AddProperty(SemanticModel model, BasePropertyDeclarationSyntax syntax)
    {
        var property = (IPropertySymbol)model.GetDeclaredSymbol(syntax)!;
        if (TypeFacts.Holder(property) is not null)
        {
            return;
        }

        ArrowExpressionClauseSyntax? arrow = syntax switch
        {
            PropertyDeclarationSyntax each => each.ExpressionBody,
            IndexerDeclarationSyntax each => each.ExpressionBody,
            _ => throw new RefusalException(syntax, "neither property nor indexer"),
        };
        if (arrow is not null)
        {
            IOperation body = model.GetOperation(arrow) ?? throw new RefusalException(arrow, "no body");
            if (TableOf(property, syntax, body) is TwinTable table)
            {
                _tables.Add(property, table);
                return;
            }

            _methods.Add(property.GetMethod!, new TwinMethod(property.GetMethod!, syntax, property, body));
            return;
        }

        foreach (AccessorDeclarationSyntax accessor in syntax.AccessorList!.Accessors)
        {
            var method = (IMethodSymbol)model.GetDeclaredSymbol(accessor)!;
            _methods.Add(method, new TwinMethod(method, accessor, property, model.GetOperation(accessor) ?? throw new RefusalException(accessor, "no body")));
        }
    }

    private static TwinTable? TableOf(IPropertySymbol property, SyntaxNode syntax, IOperation body)
    {
        ICollectionExpressionOperation? list = body.Descendants().OfType<ICollectionExpressionOperation>().FirstOrDefault();
        if (list is null)
        {
            return null;
        }

        if (!property.IsStatic || !TypeFacts.IsSpan(property.Type) || list.Elements.Any(element => !element.ConstantValue.HasValue))
        {
            throw new RefusalException(syntax, "a list must be a static property of constants: static ReadOnlySpan<T> Name => [...]");
        }

        return new TwinTable(
            property, syntax, [.. list.Elements.Select(element => Convert.ToString(element.ConstantValue.Value, System.Globalization.CultureInfo.InvariantCulture)!)],
            TypeFacts.SpanElement(property.Type));
    }

    // A method for those who bring no probe: without it the other one has the same parameters, and does the work.
    private bool IsForwarder(TwinMethod method)
    {
        if (method.Symbol.IsGenericMethod || method.Body is null)
        {
            return false;
        }

        IMethodSymbol? other = method.Symbol.ContainingType.GetMembers(method.Symbol.Name).OfType<IMethodSymbol>().FirstOrDefault(each =>
            each.IsGenericMethod && Same(each.Parameters.Where(p => !TypeFacts.IsProbe(p.Type)), method.Symbol.Parameters));
        if (other is null)
        {
            return false;
        }

        if (!method.Body.Descendants().OfType<IInvocationOperation>().Any(call => SymbolEqualityComparer.Default.Equals(call.TargetMethod.OriginalDefinition, other)))
        {
            throw new RefusalException(method.Syntax, "has the parameters of the method with a probe, but does not call it");
        }

        _replaced.Add(method.Symbol, other);
        return true;
    }

    private static bool Same(IEnumerable<IParameterSymbol> one, IEnumerable<IParameterSymbol> other) =>
        one.Select(Key).SequenceEqual(other.Select(Key), StringComparer.Ordinal);

    private static string Key(IParameterSymbol parameter) => $"{parameter.RefKind} {parameter.Type.ToDisplayString()}";
}

/// <summary>Kinds of syntax by name.</summary>
internal static class SyntaxNames
{
    /// <summary>The kind of a piece of syntax, for messages.</summary>
    public static string Kind2(this SyntaxNode node) => Microsoft.CodeAnalysis.CSharp.CSharpExtensions.Kind(node).ToString();
}
