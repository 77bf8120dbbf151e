// SPDX-License-Identifier: MIT
using Mono.Cecil;
using Mono.Cecil.Cil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Finds what could make two machines compute different bits: rule 1.</summary>
internal static class Portability
{
    private static readonly HashSet<string> RefusedNumbers = new(StringComparer.Ordinal)
    {
        "System.Single", "System.Half", "System.Decimal", "System.Numerics.BFloat16", "System.Numerics.Complex",
        "System.Numerics.Vector`1", "System.Runtime.InteropServices.NFloat",
    };

    private static readonly HashSet<Code> SingleInstructions =
    [
        Code.Ldc_R4, Code.Conv_R4, Code.Ldind_R4, Code.Stind_R4, Code.Ldelem_R4, Code.Stelem_R4,
    ];

    /// <summary>One line per place; empty when the code is portable to the bit.</summary>
    /// <param name="types">What to look through.</param>
    /// <param name="textNamespaces">Namespaces that may turn numbers into text and back.</param>
    public static IEnumerable<string> Findings(IEnumerable<TypeDefinition> types, IReadOnlyCollection<string> textNamespaces)
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

            bool isText = textNamespaces.Any(text => IsInside(Namespace(type), text));
            foreach (string finding in type.Methods.Where(method => !IlTypes.IsRecordMember(method)).SelectMany(method => InMethod(method, isText)))
            {
                yield return finding;
            }
        }
    }

    private static IEnumerable<string> InMethod(MethodDefinition method, bool isText)
    {
        if (method.IsPInvokeImpl)
        {
            yield return $"{method.FullName}: native code is not under this rule's control";
        }

        foreach (string found in Named(IlTypes.Declaration(method)))
        {
            yield return $"{method.FullName}: parameter, result or local of {found}";
        }

        foreach (Instruction instruction in method.HasBody ? method.Body.Instructions : [])
        {
            if (SingleInstructions.Contains(instruction.OpCode.Code))
            {
                yield return $"{method.FullName}: {instruction} (System.Single)";
            }

            foreach (string found in Named(IlTypes.Operand(instruction)))
            {
                yield return $"{method.FullName}: {instruction.OpCode} {instruction.Operand} ({found})";
            }

            if (instruction.Operand is MethodReference member && !IsExempt(method, member))
            {
                string? refusal = PortableMembers.Refusal(member, isText) ?? NoCulture(instruction, member);
                if (refusal is not null)
                {
                    yield return $"{method.FullName}: {member.FullName}: {refusal}";
                }
            }
            else if (instruction.Operand is FieldReference { Name: "IsLittleEndian" or "NewLine" } field)
            {
                yield return $"{method.FullName}: {field.FullName}: depends on the machine";
            }
        }
    }

    /// <summary>What the compiler writes of its own accord, and hash codes that feed only a type's own hash code.</summary>
    private static bool IsExempt(MethodDefinition method, MethodReference member)
    {
        bool isOwnHash = method is { Name: "GetHashCode", IsVirtual: true, HasParameters: false };
        bool isHash = member.Name == "GetHashCode" || IlTypes.Name(member.DeclaringType) == "System.HashCode";
        bool isIterator = method.DeclaringType.Name.StartsWith('<') && member.Name == "get_CurrentManagedThreadId";
        return (isOwnHash && isHash) || isIterator;
    }

    /// <summary>A format provider given as null means the culture of the user: look for it among the last arguments pushed.</summary>
    private static string? NoCulture(Instruction call, MethodReference member)
    {
        if (IlTypes.Name(member.DeclaringType) != "System.Double"
            || member.Parameters.All(parameter => parameter.ParameterType.FullName != "System.IFormatProvider"))
        {
            return null;
        }

        Instruction? previous = call.Previous;
        for (int i = 0; i < 2 && previous is not null; i++, previous = previous.Previous)
        {
            if (previous.OpCode.Code == Code.Ldnull)
            {
                return "needs CultureInfo.InvariantCulture, not null";
            }
        }

        return null;
    }

    private static string Namespace(TypeDefinition type)
    {
        TypeDefinition outer = type;
        while (outer.DeclaringType is not null)
        {
            outer = outer.DeclaringType;
        }

        return outer.Namespace;
    }

    private static bool IsInside(string name, string space)
        => name == space || name.StartsWith(space + ".", StringComparison.Ordinal);

    private static IEnumerable<string> Named(IEnumerable<TypeReference> types)
        => types.Select(IlTypes.Name).Where(RefusedNumbers.Contains).Distinct(StringComparer.Ordinal);
}
