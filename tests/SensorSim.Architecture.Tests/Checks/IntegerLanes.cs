// SPDX-License-Identifier: MIT
using Mono.Cecil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Finds instructions of a processor that are not on the list of exact ones: the integer rooms may compute in lanes of integers, floating ones are found by <see cref="FloatingPoint"/>.</summary>
internal static class IntegerLanes
{
    /// <summary>One line per place; empty when every lane gets exactly what the scalar operation would give.</summary>
    /// <param name="types">What to look through.</param>
    public static IEnumerable<string> Findings(IEnumerable<TypeDefinition> types) =>
        from method in types.SelectMany(type => type.Methods)
        where method.HasBody
        from called in method.Body.Instructions.Select(instruction => instruction.Operand).OfType<MethodReference>()
        where IlTypes.Name(called.DeclaringType).StartsWith("System.Runtime.Intrinsics.", StringComparison.Ordinal)
        let why = Intrinsics.Refusal(called)
        where why is not null
        select $"{method.FullName}: {called.FullName}: {why}";
}
