// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;

namespace SensorSim.TwinWriter.Naming;

/// <summary>Names of the locals of one function: none hides another one.</summary>
internal sealed class LocalNames
{
    private readonly Dictionary<ISymbol, string> _names = new(SymbolEqualityComparer.Default);
    private readonly Stack<HashSet<string>> _blocks = new();
    private readonly HashSet<string> _kept = new(StringComparer.Ordinal);

    /// <summary>A function begins.</summary>
    public LocalNames() => _blocks.Push(new HashSet<string>(StringComparer.Ordinal));

    /// <summary>A block begins.</summary>
    public void Push() => _blocks.Push(new HashSet<string>(StringComparer.Ordinal));

    /// <summary>A block ends.</summary>
    public void Pop() => _blocks.Pop();

    /// <summary>Names a variable of the source.</summary>
    public string Declare(ISymbol symbol)
    {
        string name = Free(Snake.OfVariable(symbol.Name));
        _names[symbol] = name;
        return name;
    }

    /// <summary>Whether a variable has a name already.</summary>
    public bool Has(ISymbol symbol) => _names.ContainsKey(symbol);

    /// <summary>Name of a variable of the source.</summary>
    public string Of(ISymbol symbol) => _names[symbol];

    /// <summary>A name that nothing in reach has, for a variable of the writer's own; no other one of the function gets it later.</summary>
    public string Fresh(string wish)
    {
        string name = Free(wish);
        _kept.Add(name);
        return name;
    }

    private string Free(string wish)
    {
        string name = wish;
        for (int i = 2; _kept.Contains(name) || _blocks.Any(block => block.Contains(name)); i++)
        {
            name = FormattableString.Invariant($"{wish}_{i}");
        }

        _blocks.Peek().Add(name);
        return name;
    }
}
