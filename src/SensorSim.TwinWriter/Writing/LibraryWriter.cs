// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Writes the C library: a header and a C file for each C# file, and one header of names that all share.</summary>
public sealed class LibraryWriter
{
    /// <summary>Path of the header with the names of all types.</summary>
    public const string TypesHeader = "sensorsim_types";

    private readonly Twin _twin;
    private readonly Names _names;
    private readonly LibraryPlan _plan;
    private readonly SortedDictionary<string, string> _files = new(StringComparer.Ordinal);

    private LibraryWriter(Twin twin)
    {
        _twin = twin;
        _names = new Names(twin);
        _plan = new LibraryPlan(twin, _names);
    }

    /// <summary>Translates a source set.</summary>
    /// <param name="source">The C# files.</param>
    /// <returns>C files by path beneath the folder of the C library.</returns>
    /// <exception cref="RefusalException">Something has no sure translation; nothing is written then.</exception>
    public static IReadOnlyDictionary<string, string> Write(SourceSet source)
    {
        var writer = new LibraryWriter(new Twin(source));
        foreach (string file in source.Trees.Select(tree => tree.FilePath))
        {
            writer.WriteHeader(file);
            writer.WriteCode(file);
        }

        writer.WriteTypes();
        return writer._files;
    }

    private void WriteHeader(string file)
    {
        INamedTypeSymbol[] types = [.. _twin.Types.Where(type => _twin.FileOf(type) == file)];
        if (types.Length == 0)
        {
            return;
        }

        string stem = FilePaths.Stem(file);
        var text = new FileWriter(file);
        text.Add("#ifndef " + FilePaths.Guard(stem));
        text.Add("#define " + FilePaths.Guard(stem));
        text.Add("");
        text.Add("#include \"sensorsim_runtime.h\"");
        text.Add($"#include \"{TypesHeader}.h\"");
        text.AddAll(_plan.NeedsOf(stem).Select(need => $"#include \"{need}.h\""));
        text.Add("");
        foreach (INamedTypeSymbol type in types)
        {
            TypeText.Constants(text, type, _names);
        }

        foreach (INamedTypeSymbol type in InOrder(types))
        {
            TypeText.Struct(text, type, _names);
        }

        WrittenMethod[] methods = [.. _plan.Methods.Where(method => _twin.FileOf(method.Method.Symbol.ContainingType) == file && method.Linkage != Linkage.File)];
        foreach (WrittenMethod method in methods)
        {
            text.AddAll(Documentation.Of(method.Method.Documented, method.Method.Syntax));
            text.Add((method.Linkage == Linkage.Header ? "static inline " : "") + method.Head + ";");
            text.Add("");
        }

        foreach (WrittenMethod method in methods.Where(method => method.Linkage == Linkage.Header))
        {
            text.AddFunction(method, "static inline ");
        }

        text.Add("#endif");
        _files.Add(stem + ".h", text.ToString());
    }

    // Parts before what holds them.
    private static List<INamedTypeSymbol> InOrder(INamedTypeSymbol[] types)
    {
        var done = new List<INamedTypeSymbol>();
        foreach (INamedTypeSymbol type in types)
        {
            Visit(type);
        }

        return done;

        void Visit(INamedTypeSymbol type)
        {
            if (done.Contains(type, SymbolEqualityComparer.Default) || !types.Contains(type, SymbolEqualityComparer.Default))
            {
                return;
            }

            foreach (IFieldSymbol field in TypeFacts.FieldsOf(type))
            {
                if (field.Type is INamedTypeSymbol named)
                {
                    Visit(named);
                }
            }

            done.Add(type);
        }
    }

    private void WriteCode(string file)
    {
        WrittenMethod[] methods = [.. _plan.Methods.Where(method => method.Method.File == file && method.Linkage != Linkage.Header)];
        TwinTable[] tables = [.. _twin.Tables.Where(table => table.Syntax.SyntaxTree.FilePath == file)];
        if (methods.Length == 0 && tables.Length == 0)
        {
            return;
        }

        string stem = FilePaths.Stem(file);
        var text = new FileWriter(file);
        SortedSet<string> headers = new(
            methods.SelectMany(method => method.Uses.Concat(method.Calls.Select(call => call.ContainingType)))
                .Concat(methods.Select(method => method.Method.Symbol.ContainingType)).Select(_plan.HeaderOf), StringComparer.Ordinal);
        text.AddAll(headers.Select(header => $"#include \"{header}.h\""));
        text.Add("");
        foreach (TwinTable table in tables)
        {
            TypeText.Table(text, table, _names);
        }

        WrittenMethod[] own = [.. methods.Where(method => method.Linkage == Linkage.File)];
        text.AddAll(own.Select(method => Prefix(method) + method.Head + ";"));
        text.Add("");
        foreach (WrittenMethod method in methods)
        {
            if (method.Linkage == Linkage.File)
            {
                text.AddAll(Documentation.Of(method.Method.Documented, method.Method.Syntax));
            }

            text.AddFunction(method, Prefix(method));
        }

        _files.Add(stem + ".c", text.ToString().TrimEnd('\n') + "\n");
    }

    private static string Prefix(WrittenMethod method) => method.Linkage != Linkage.File ? "" : method.IsAskedInline ? "static inline " : "static ";

    private void WriteTypes()
    {
        var text = new FileWriter("all files of SensorSim.FixedPoint and SensorSim.Detection");
        text.Add("/* Names of all types, so that headers need each other only for what they hold. */");
        text.Add("#ifndef SS_SENSORSIM_TYPES_H");
        text.Add("#define SS_SENSORSIM_TYPES_H");
        text.Add("");
        text.Add("#include \"sensorsim_runtime.h\"");
        text.Add("");
        foreach (INamedTypeSymbol type in _twin.Types.Where(type => !type.IsStatic))
        {
            text.Add(type.EnumUnderlyingType is INamedTypeSymbol beneath
                ? $"typedef {_names.Type(beneath)} {_names.Type(type)};" : $"typedef struct {_names.Stem(type)} {_names.Type(type)};");
        }

        text.Add("");
        foreach ((string tag, ITypeSymbol span) in _names.Views)
        {
            TypeText.View(text, tag, span, _names);
        }

        text.Add("#endif");
        _files.Add(TypesHeader + ".h", text.ToString());
    }
}
