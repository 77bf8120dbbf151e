// SPDX-License-Identifier: MIT
using Mono.Cecil;
using Mono.Cecil.Cil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Every type that a piece of compiled code mentions, taken apart to its elements.</summary>
internal static class IlTypes
{
    /// <summary>A type and the types inside it: elements of arrays, spans, references, generic arguments, modifiers.</summary>
    public static IEnumerable<TypeReference> Parts(TypeReference? type)
    {
        switch (type)
        {
            case null:
                return [];
            case GenericInstanceType generic:
                return generic.GenericArguments.SelectMany(Parts).Append(generic.ElementType);
            case FunctionPointerType pointer:
                return Signature(pointer);
            case IModifierType modifier:
                return Parts(modifier.ElementType).Concat(Parts(modifier.ModifierType));
            case TypeSpecification specification:
                return Parts(specification.ElementType);
            default:
                return [type];
        }
    }

    /// <summary>Types of the return value and of the parameters.</summary>
    public static IEnumerable<TypeReference> Signature(IMethodSignature method)
        => Parts(method.ReturnType).Concat(method.Parameters.SelectMany(parameter => Parts(parameter.ParameterType)));

    /// <summary>Types in the operand of an instruction: the member's owner, its signature and its generic arguments.</summary>
    public static IEnumerable<TypeReference> Operand(Instruction instruction) => instruction.Operand switch
    {
        GenericInstanceMethod method => Signature(method.ElementMethod).Concat(Parts(method.DeclaringType))
            .Concat(method.GenericArguments.SelectMany(Parts)),
        MethodReference method => Signature(method).Concat(Parts(method.DeclaringType)),
        FieldReference field => Parts(field.FieldType).Concat(Parts(field.DeclaringType)),
        TypeReference type => Parts(type),
        CallSite site => Signature(site),
        _ => [],
    };

    /// <summary>Types in the declaration of a method: signature, locals, limits of its generic parameters.</summary>
    public static IEnumerable<TypeReference> Declaration(MethodDefinition method)
        => Signature(method)
            .Concat(method.HasBody ? method.Body.Variables.SelectMany(variable => Parts(variable.VariableType)) : [])
            .Concat(method.GenericParameters.SelectMany(parameter => parameter.Constraints).SelectMany(limit => Parts(limit.ConstraintType)));

    /// <summary>Types in the declaration of a type: base, interfaces, fields, limits of its generic parameters.</summary>
    public static IEnumerable<TypeReference> Declaration(TypeDefinition type)
        => Parts(type.BaseType)
            .Concat(type.Interfaces.SelectMany(contract => Parts(contract.InterfaceType)))
            .Concat(type.GenericParameters.SelectMany(parameter => parameter.Constraints).SelectMany(limit => Parts(limit.ConstraintType)));

    /// <summary>Name of a type without its generic arguments, as in <c>System.Numerics.Vector`1</c>.</summary>
    public static string Name(TypeReference type) => type.GetElementType().FullName;

    /// <summary>Whether a method is one that the compiler writes for a record: text, equality, hash.</summary>
    public static bool IsRecordMember(MethodDefinition method)
        => method.Name is "PrintMembers" or "ToString" or "GetHashCode" or "Equals"
            && method.CustomAttributes.Any(attribute
                => attribute.AttributeType.FullName == "System.Runtime.CompilerServices.CompilerGeneratedAttribute");
}
