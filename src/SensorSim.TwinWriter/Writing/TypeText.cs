// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Types, constants and tables as C.</summary>
internal static class TypeText
{
    /// <summary>Constants, and the members of an enumeration.</summary>
    public static void Constants(FileWriter text, INamedTypeSymbol type, Names names)
    {
        IFieldSymbol[] constants = [.. type.GetMembers().OfType<IFieldSymbol>().Where(field => field.IsConst)];
        if (constants.Length == 0)
        {
            return;
        }

        if (type.TypeKind == TypeKind.Enum)
        {
            text.AddAll(Documentation.Of(type));
            text.Add("enum {");
            foreach (IFieldSymbol member in constants)
            {
                string comma = SymbolEqualityComparer.Default.Equals(member, constants[^1]) ? "" : ",";
                Commented(text, $"{names.Constant(member)} = {Number(member)}{comma}", Documentation.InOneLine(member));
            }

            text.Add("};");
            text.Add("");
            return;
        }

        foreach (IFieldSymbol constant in constants)
        {
            text.AddAll(Documentation.Of(constant));
            text.Add($"#define {names.Constant(constant)} {Number(constant)}");
        }

        text.Add("");
    }

    /// <summary>A struct, or an array that lives inside its owner.</summary>
    public static void Struct(FileWriter text, INamedTypeSymbol type, Names names)
    {
        if (type.TypeKind == TypeKind.Enum || type.IsStatic)
        {
            return;
        }

        text.AddAll(Documentation.Of(type));
        text.Add($"struct {names.Stem(type)} {{");
        int length = TypeFacts.InlineLength(type);
        if (length > 0)
        {
            text.Add(new Statements.Line(1, FormattableString.Invariant($"{names.Type(TypeFacts.InlineElement(type))} at[{length}];")));
        }
        else
        {
            foreach (IFieldSymbol field in TypeFacts.FieldsOf(type))
            {
                Commented(text, $"{names.Type(field.Type)} {Names.Field(field)};", Documentation.InOneLine(field.AssociatedSymbol ?? field));
            }
        }

        text.Add("};");
        text.Add("");
    }

    // Behind the line where there is room, else above it.
    private static void Commented(FileWriter text, string line, string comment)
    {
        if (line.Length + comment.Length <= 132)
        {
            text.Add(new Statements.Line(1, line + comment));
            return;
        }

        text.AddAll(Documentation.Comment([comment[4..^3]]).Select(each => "    " + each));
        text.Add(new Statements.Line(1, line));
    }

    /// <summary>A table of constants.</summary>
    public static void Table(FileWriter text, TwinTable table, Names names)
    {
        text.AddAll(Documentation.Of(table.Symbol, table.Syntax));
        text.Add(FormattableString.Invariant($"static const {names.Type(table.Element)} {names.Table(table.Symbol)}[{table.Values.Count}] = {{"));
        foreach (string[] row in table.Values.Chunk(12))
        {
            text.Add(new Statements.Line(1, string.Join(", ", row) + ","));
        }

        text.Add("};");
        text.Add("");
    }

    /// <summary>A view of consecutive values, with what is done to it.</summary>
    public static void View(FileWriter text, string tag, ITypeSymbol span, Names names)
    {
        ITypeSymbol element = TypeFacts.SpanElement(span);
        string constant = TypeFacts.IsWritableSpan(span) ? "" : "const ";
        string pointer = $"{constant}{names.Type(element)} *";
        text.Add(TypeFacts.IsWritableSpan(span) ? "/* Room for consecutive values of the caller. */" : "/* Consecutive values of the caller, only read. */");
        text.Add($"typedef struct {tag} {{");
        text.Add(new Statements.Line(1, $"{pointer}at;"));
        text.Add(new Statements.Line(1, "int32_t length;"));
        text.Add($"}} {tag}_t;");
        text.Add("");
        Helper(text, $"{tag}_t {tag}_of({pointer}at, int32_t length)", "at", "length", tag);
        if (TypeFacts.IsInteger(element))
        {
            Helper(text, $"{tag}_t {tag}_slice({tag}_t whole, int32_t start, int32_t length)", "&whole.at[start]", "length", tag);
            Helper(text, $"{tag}_t {tag}_from({tag}_t whole, int32_t start)", "&whole.at[start]", "whole.length - start", tag);
        }
    }

    private static void Helper(FileWriter text, string head, string at, string length, string tag)
    {
        text.Add("static inline " + head);
        text.Add("{");
        text.Add(new Statements.Line(1, $"{tag}_t view;"));
        text.Add(new Statements.Line(1, $"view.at = {at};"));
        text.Add(new Statements.Line(1, $"view.length = {length};"));
        text.Add(new Statements.Line(1, "return view;"));
        text.Add("}");
        text.Add("");
    }

    private static string Number(IFieldSymbol constant)
    {
        CExpr number = Literals.Of(constant.ConstantValue, constant.ContainingType.EnumUnderlyingType ?? constant.Type)
            ?? throw new RefusalException($"{constant.ToDisplayString()}: a constant of this type has no translation into C");
        return number.Within(Binding.Primary);
    }
}
