// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;

namespace SensorSim.TwinWriter.Reading;

/// <summary>Questions about C# types and members that several parts of the writer ask.</summary>
internal static class TypeFacts
{
    /// <summary>Whether it is what the library is watched with: that has no place in the twin.</summary>
    public static bool IsProbe(ITypeSymbol? type) => type switch
    {
        ITypeParameterSymbol parameter => parameter.ConstraintTypes.Any(constraint => constraint.Name == "IProbe"),
        INamedTypeSymbol named => named.Name is "IProbe" or "NoProbe" or "ProbePoint" && named.ContainingNamespace.ToDisplayString() == "SensorSim.FixedPoint",
        _ => false,
    };

    /// <summary>Number of entries of an array that lives inside its owner; 0 when the type is none.</summary>
    public static int InlineLength(ITypeSymbol type)
    {
        AttributeData? attribute = type.GetAttributes().FirstOrDefault(each => each.AttributeClass?.Name == "InlineArrayAttribute");
        return attribute is null ? 0 : (int)attribute.ConstructorArguments[0].Value!;
    }

    /// <summary>Type of the entries of an array that lives inside its owner.</summary>
    public static ITypeSymbol InlineElement(ITypeSymbol type) => type.GetMembers().OfType<IFieldSymbol>().Single(field => !field.IsStatic).Type;

    /// <summary>Whether it is a view of consecutive values, writable or not.</summary>
    public static bool IsSpan(ITypeSymbol? type) => type is INamedTypeSymbol { Name: "Span" or "ReadOnlySpan", ContainingNamespace.Name: "System" };

    /// <summary>Whether values can be written through the view.</summary>
    public static bool IsWritableSpan(ITypeSymbol type) => type.Name == "Span";

    /// <summary>Type of the values of a view.</summary>
    public static ITypeSymbol SpanElement(ITypeSymbol type) => ((INamedTypeSymbol)type).TypeArguments[0];

    /// <summary>The type of an integer that stands for a value: of an enumeration the one beneath it.</summary>
    public static SpecialType Integer(ITypeSymbol type) =>
        type is INamedTypeSymbol { EnumUnderlyingType: INamedTypeSymbol beneath } ? beneath.SpecialType : type.SpecialType;

    /// <summary>Whether the value is an integer, or an enumeration, which is one too.</summary>
    public static bool IsInteger(ITypeSymbol type) => Bits(type) > 0;

    /// <summary>Width of an integer in bits; 0 for what is none.</summary>
    public static int Bits(ITypeSymbol type) => Integer(type) switch
    {
        SpecialType.System_Byte or SpecialType.System_SByte => 8,
        SpecialType.System_Int16 or SpecialType.System_UInt16 => 16,
        SpecialType.System_Int32 or SpecialType.System_UInt32 => 32,
        SpecialType.System_Int64 or SpecialType.System_UInt64 => 64,
        _ => 0,
    };

    /// <summary>Whether an integer has a sign.</summary>
    public static bool IsSigned(ITypeSymbol type) => Integer(type) is SpecialType.System_SByte or SpecialType.System_Int16
        or SpecialType.System_Int32 or SpecialType.System_Int64;

    /// <summary>Narrower than an int: C, as C#, computes with it as an int.</summary>
    public static bool IsNarrow(ITypeSymbol type) => Bits(type) is 8 or 16;

    /// <summary>Whether the type has parts.</summary>
    public static bool IsStruct(ITypeSymbol type) => type.TypeKind == TypeKind.Struct && type.SpecialType == SpecialType.None;

    /// <summary>The field that holds an automatic property; null when code computes it.</summary>
    public static IFieldSymbol? Holder(IPropertySymbol property) => property.ContainingType.GetMembers().OfType<IFieldSymbol>()
        .FirstOrDefault(field => SymbolEqualityComparer.Default.Equals(field.AssociatedSymbol, property));

    /// <summary>Whether a function gets its owner as a copy and not through a pointer.</summary>
    public static bool IsSelfByValue(INamedTypeSymbol type) => type.IsReadOnly;

    /// <summary>Fields that a value of the type has, in the order of the text.</summary>
    public static IEnumerable<IFieldSymbol> FieldsOf(INamedTypeSymbol type) => type.GetMembers().OfType<IFieldSymbol>().Where(field => !field.IsStatic && !field.IsConst);
}
