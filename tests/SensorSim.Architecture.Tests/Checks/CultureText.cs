// SPDX-License-Identifier: MIT
using Mono.Cecil;
using Mono.Cecil.Cil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Finds interpolated strings that write a double the way the user's culture does: "0,5" instead of "0.5".</summary>
/// <remarks>The analyzers' culture rules see ToString and string.Format, not $"..."; say string.Create(CultureInfo.InvariantCulture, $"...").</remarks>
internal static class CultureText
{
    private const string Handler = "System.Runtime.CompilerServices.DefaultInterpolatedStringHandler";

    /// <summary>One line per method; empty when all such text is invariant.</summary>
    public static IEnumerable<string> Findings(IEnumerable<TypeDefinition> types)
        => from method in types.SelectMany(type => type.Methods)
           where method.HasBody && HasCulturelessHandler(method) && FormatsDouble(method)
           select $"{method.FullName}: $\"...\" writes a number by the user's culture; use string.Create(CultureInfo.InvariantCulture, $\"...\")";

    private static bool HasCulturelessHandler(MethodDefinition method)
        => Calls(method).Any(call => call is { Name: ".ctor", Parameters.Count: 2 } && IlTypes.Name(call.DeclaringType) == Handler);

    private static bool FormatsDouble(MethodDefinition method)
        => Calls(method).OfType<GenericInstanceMethod>().Any(call => call.Name == "AppendFormatted"
            && call.GenericArguments.SelectMany(IlTypes.Parts).Any(type => type.FullName is "System.Double" or "System.Single" or "System.Decimal"));

    private static IEnumerable<MethodReference> Calls(MethodDefinition method)
        => method.Body.Instructions.Select(instruction => instruction.Operand).OfType<MethodReference>();
}
