// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Where a function is defined and who may call it.</summary>
internal enum Linkage
{
    /// <summary>Only from its own C file.</summary>
    File,

    /// <summary>Declared in the header, defined in the C file.</summary>
    Library,

    /// <summary>Defined in the header.</summary>
    Header,
}

/// <summary>A function as C.</summary>
internal sealed class WrittenMethod
{
    /// <summary>Writes a function.</summary>
    public WrittenMethod(Twin twin, Names names, Effects effects, TwinMethod method)
    {
        Method = method;
        var writer = new BodyWriter(twin, names, effects, method);
        IReadOnlyList<Line> body = writer.Write();
        Body = [.. writer.Unused.Select(name => new Line(1, $"(void){name};")), .. body];
        Head = Signatures.Head(method.Symbol, names, writer.NameOf);
        (Uses, Calls, Tables) = (writer.Uses, writer.Calls, writer.Tables);
        foreach (ITypeSymbol type in Names.Parameters(method.Symbol).Select(parameter => parameter.Type).Append(method.Symbol.ReturnType))
        {
            if (type is INamedTypeSymbol named && twin.Types.Contains(named, SymbolEqualityComparer.Default))
            {
                Uses.Add(named);
            }
        }

        if (!method.Symbol.IsStatic)
        {
            Uses.Add(method.Symbol.ContainingType);
        }
    }

    /// <summary>What it is in C#.</summary>
    public TwinMethod Method { get; }

    /// <summary>Its head, without what comes before the type.</summary>
    public string Head { get; }

    /// <summary>Its body.</summary>
    public IReadOnlyList<Line> Body { get; }

    /// <summary>Types whose headers it needs.</summary>
    public HashSet<INamedTypeSymbol> Uses { get; }

    /// <summary>Functions that it calls.</summary>
    public HashSet<IMethodSymbol> Calls { get; }

    /// <summary>Tables that it reads.</summary>
    public HashSet<IPropertySymbol> Tables { get; }

    /// <summary>Where it is defined.</summary>
    public Linkage Linkage { get; set; }

    /// <summary>Whether it is asked to go into its caller: by the source, or because it only tells a value.</summary>
    public bool IsAskedInline => Method.Symbol.MethodImplementationFlags.HasFlag(System.Reflection.MethodImplAttributes.AggressiveInlining)
        || (Method.Symbol.MethodKind == MethodKind.PropertyGet && Body.Count == 1);
}
