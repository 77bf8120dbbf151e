// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Which function is defined where, and which header needs which.</summary>
internal sealed class LibraryPlan
{
    private readonly Dictionary<ISymbol, WrittenMethod> _methods = new(SymbolEqualityComparer.Default);
    private readonly Dictionary<string, SortedSet<string>> _needs = new(StringComparer.Ordinal);
    private readonly Twin _twin;

    /// <summary>Writes every function and finds its place.</summary>
    public LibraryPlan(Twin twin, Names names)
    {
        _twin = twin;
        var effects = new Effects(twin);
        var refused = new List<string>();
        foreach (TwinMethod method in twin.Methods)
        {
            try
            {
                _methods.Add(method.Symbol, new WrittenMethod(twin, names, effects, method));
            }
            catch (RefusalException refusal)
            {
                refused.Add(refusal.Message);
            }
        }

        if (refused.Count > 0)
        {
            throw new RefusalException(string.Join('\n', refused));
        }

        RefuseRecursion();
        foreach (INamedTypeSymbol type in twin.Types)
        {
            foreach (IFieldSymbol field in TypeFacts.FieldsOf(type))
            {
                Need(HeaderOf(type), field.Type);
            }
        }

        foreach (WrittenMethod method in _methods.Values)
        {
            method.Linkage = IsPrivate(method.Method.Symbol) ? Linkage.File : Linkage.Library;
        }

        // Callees first, so that what calls what is in a header can follow it there.
        foreach (WrittenMethod method in _methods.Values)
        {
            TryInline(method, []);
        }

        foreach (WrittenMethod caller in _methods.Values)
        {
            foreach (WrittenMethod callee in caller.Calls.Select(each => _methods[each]).Where(each => each.Linkage == Linkage.File))
            {
                bool isElsewhere = caller.Linkage == Linkage.Header || caller.Method.File != callee.Method.File;
                callee.Linkage = isElsewhere ? Linkage.Library : Linkage.File;
            }
        }
    }

    /// <summary>The functions in the order of the source.</summary>
    public IEnumerable<WrittenMethod> Methods => _methods.Values;

    /// <summary>Headers that a header needs, by path.</summary>
    public IEnumerable<string> NeedsOf(string header) => _needs.TryGetValue(header, out SortedSet<string>? found) ? found : [];

    /// <summary>Path of the header of a type, without its ending.</summary>
    public string HeaderOf(INamedTypeSymbol type) => FilePaths.Stem(_twin.FileOf(type));

    // A board has no stack to spare for functions that come to call themselves.
    private void RefuseRecursion()
    {
        var done = new HashSet<WrittenMethod>();
        foreach (WrittenMethod method in _methods.Values)
        {
            Visit(method, []);
        }

        void Visit(WrittenMethod method, HashSet<WrittenMethod> path)
        {
            if (!path.Add(method))
            {
                throw new RefusalException(method.Method.Syntax, $"{method.Method.Symbol.Name} comes to call itself; the twin has no recursion");
            }

            if (done.Add(method))
            {
                foreach (IMethodSymbol callee in method.Calls)
                {
                    Visit(_methods[callee], path);
                }
            }

            path.Remove(method);
        }
    }

    private static bool IsPrivate(IMethodSymbol method) =>
        method.DeclaredAccessibility == Accessibility.Private || method.AssociatedSymbol?.DeclaredAccessibility == Accessibility.Private;

    private void Need(string header, ITypeSymbol type)
    {
        if (type is INamedTypeSymbol { TypeKind: TypeKind.Struct } named && _twin.Types.Contains(named, SymbolEqualityComparer.Default) && HeaderOf(named) != header)
        {
            Needs(header).Add(HeaderOf(named));
        }
        else if (TypeFacts.InlineLength(type) > 0)
        {
            Need(header, TypeFacts.InlineElement(type));
        }
    }

    private SortedSet<string> Needs(string header)
    {
        if (!_needs.TryGetValue(header, out SortedSet<string>? found))
        {
            _needs[header] = found = new SortedSet<string>(StringComparer.Ordinal);
        }

        return found;
    }

    // Into the header, when it is asked for and no two headers come to need each other by it.
    private void TryInline(WrittenMethod method, HashSet<WrittenMethod> path)
    {
        if (method.Linkage == Linkage.Header || !method.IsAskedInline || method.Tables.Count > 0 || !path.Add(method)
            || IsPrivate(method.Method.Symbol) || _twin.FileOf(method.Method.Symbol.ContainingType) != method.Method.File)
        {
            return;
        }

        foreach (IMethodSymbol callee in method.Calls)
        {
            TryInline(_methods[callee], path);
        }

        string own = HeaderOf(method.Method.Symbol.ContainingType);
        string[] more = [.. method.Uses.Concat(method.Calls.Select(each => each.ContainingType)).Select(HeaderOf).Where(each => each != own).Distinct(StringComparer.Ordinal)];
        if (!more.Any(each => Reaches(each, own, [])))
        {
            Needs(own).UnionWith(more);
            method.Linkage = Linkage.Header;
        }
    }

    private bool Reaches(string from, string to, HashSet<string> seen) =>
        from == to || (seen.Add(from) && NeedsOf(from).Any(next => Reaches(next, to, seen)));
}
