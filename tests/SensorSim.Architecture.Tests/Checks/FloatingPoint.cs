// SPDX-License-Identifier: MIT
using Mono.Cecil;
using Mono.Cecil.Cil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Finds floating point (and decimal) numbers anywhere in compiled code: rule 7, the detector is firmware.</summary>
/// <remarks>An analyzer that bans System.Double sees calls of its members only; locals, fields and literals show here.</remarks>
internal static class FloatingPoint
{
    private static readonly HashSet<string> Types = new(StringComparer.Ordinal)
    {
        "System.Single", "System.Double", "System.Half", "System.Decimal", "System.Numerics.BFloat16", "System.Numerics.Complex",
        "System.Runtime.InteropServices.NFloat",
    };

    private static readonly HashSet<Code> Instructions =
    [
        Code.Ldc_R4, Code.Ldc_R8, Code.Conv_R4, Code.Conv_R8, Code.Conv_R_Un, Code.Ldind_R4, Code.Ldind_R8, Code.Stind_R4, Code.Stind_R8,
        Code.Ldelem_R4, Code.Ldelem_R8, Code.Stelem_R4, Code.Stelem_R8, Code.Ckfinite,
    ];

    /// <summary>One line per place; empty when the code is free of floating point.</summary>
    public static IEnumerable<string> Findings(IEnumerable<TypeDefinition> types)
    {
        foreach (TypeDefinition type in types)
        {
            foreach (string found in Named(IlTypes.Declaration(type)))
            {
                yield return $"{type.FullName}: its declaration names {found}";
            }

            foreach (FieldDefinition field in type.Fields)
            {
                foreach (string found in Named(IlTypes.Parts(field.FieldType)))
                {
                    yield return $"{type.FullName}.{field.Name}: field of {found}";
                }
            }

            foreach (string finding in type.Methods.SelectMany(InMethod))
            {
                yield return finding;
            }
        }
    }

    private static IEnumerable<string> InMethod(MethodDefinition method)
    {
        foreach (string found in Named(IlTypes.Declaration(method)))
        {
            yield return $"{method.FullName}: parameter, result or local of {found}";
        }

        foreach (Instruction instruction in method.HasBody ? method.Body.Instructions : [])
        {
            if (Instructions.Contains(instruction.OpCode.Code))
            {
                yield return $"{method.FullName}: {instruction}";
            }

            foreach (string found in Named(IlTypes.Operand(instruction)))
            {
                yield return $"{method.FullName}: {instruction.OpCode} {instruction.Operand} ({found})";
            }
        }
    }

    private static IEnumerable<string> Named(IEnumerable<TypeReference> types)
        => types.Select(IlTypes.Name).Where(Types.Contains).Distinct(StringComparer.Ordinal);
}
