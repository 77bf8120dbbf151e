// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Naming;

/// <summary>How a function gets its owner.</summary>
internal enum SelfKind
{
    /// <summary>It has none.</summary>
    None,

    /// <summary>As a copy.</summary>
    Value,

    /// <summary>Through a pointer that it only reads.</summary>
    ReadPointer,

    /// <summary>Through a pointer.</summary>
    Pointer,
}

/// <summary>How parameters come into a C function.</summary>
internal static class Signatures
{
    /// <summary>How a function gets its owner.</summary>
    public static SelfKind SelfKind(IMethodSymbol method) =>
        method.IsStatic ? Naming.SelfKind.None
        : method.MethodKind == MethodKind.Constructor ? Naming.SelfKind.Pointer
        : TypeFacts.IsSelfByValue(method.ContainingType) ? Naming.SelfKind.Value
        : method.IsReadOnly ? Naming.SelfKind.ReadPointer : Naming.SelfKind.Pointer;

    /// <summary>Whether a parameter is a pointer in C.</summary>
    public static bool IsPointer(IParameterSymbol parameter) =>
        parameter.RefKind is RefKind.Ref or RefKind.Out || (parameter.RefKind == RefKind.In && TypeFacts.IsStruct(parameter.Type));

    /// <summary>A function's head, without its semicolon.</summary>
    public static string Head(IMethodSymbol method, Names names, Func<IParameterSymbol, string> nameOf)
    {
        var parts = new List<string>();
        bool isConstructor = method.MethodKind == MethodKind.Constructor;
        string owner = method.ContainingType.IsStatic ? "" : names.Type(method.ContainingType);
        switch (isConstructor ? Naming.SelfKind.None : SelfKind(method))
        {
            case Naming.SelfKind.Value:
                parts.Add(owner + " self");
                break;
            case Naming.SelfKind.ReadPointer:
                parts.Add($"const {owner} *self");
                break;
            case Naming.SelfKind.Pointer:
                parts.Add(owner + " *self");
                break;
        }

        foreach (IParameterSymbol parameter in Names.Parameters(method))
        {
            if (parameter.RefKind is not (RefKind.None or RefKind.Ref or RefKind.Out or RefKind.In))
            {
                throw new RefusalException($"{method.ToDisplayString()}: parameter {parameter.Name} is {parameter.RefKind}; only in, ref and out have a translation");
            }

            string type = names.Type(parameter.Type);
            string name = nameOf(parameter);
            parts.Add(!IsPointer(parameter) ? $"{type} {name}" : parameter.RefKind == RefKind.In ? $"const {type} *{name}" : $"{type} *{name}");
        }

        string result = isConstructor ? owner + " " : Result(method, names);
        return $"{result}{names.Function(method)}({(parts.Count == 0 ? "void" : string.Join(", ", parts))})";
    }

    private static string Result(IMethodSymbol method, Names names) => method.RefKind switch
    {
        RefKind.None => names.Type(method.ReturnType) + " ",
        RefKind.RefReadOnly => $"const {names.Type(method.ReturnType)} *",
        _ => names.Type(method.ReturnType) + " *",
    };
}
