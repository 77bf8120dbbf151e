// SPDX-License-Identifier: MIT
using System.Collections.Immutable;
using System.Text;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace SensorSim.TwinWriter.Reading;

/// <summary>One C# file that is to be translated.</summary>
/// <param name="Path">Its path as it is told to the reader of the C file, for example SensorSim.Detection/Beats/BeatJudge.cs.</param>
/// <param name="Text">Its text.</param>
public readonly record struct SourceFile(string Path, string Text);

/// <summary>The C# files with their meaning: every expression has its type, every name the thing that it stands for.</summary>
/// <remarks>Compiled with overflow checking on: what still is unchecked then stands in an <c>unchecked</c> of the source and wraps on purpose.</remarks>
public sealed class SourceSet
{
    // What the projects import without saying so in each file, as far as the library may use it.
    private const string Imports = "global using System;\n";

    private SourceSet(CSharpCompilation compilation, ImmutableArray<SyntaxTree> trees)
    {
        Compilation = compilation;
        Trees = trees;
    }

    /// <summary>The files as one assembly.</summary>
    public CSharpCompilation Compilation { get; }

    /// <summary>The files, ordered by path.</summary>
    public ImmutableArray<SyntaxTree> Trees { get; }

    /// <summary>Reads the files of the detection library.</summary>
    /// <param name="root">The folder src of the repository.</param>
    /// <returns>The files, ordered by path.</returns>
    /// <exception cref="RefusalException">A folder is missing.</exception>
    public static IReadOnlyList<SourceFile> FilesOf(string root)
    {
        var files = new List<SourceFile>();
        foreach (string room in (string[])["SensorSim.FixedPoint", "SensorSim.Detection"])
        {
            string folder = Path.Combine(root, room);
            if (!Directory.Exists(folder))
            {
                throw new RefusalException($"{folder}: no such folder; give the folder src of the repository");
            }

            files.AddRange(Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
                .Select(path => new SourceFile(Path.GetRelativePath(root, path).Replace('\\', '/'), File.ReadAllText(path)))
                .Where(file => !file.Path.Contains("/obj/", StringComparison.Ordinal) && !file.Path.Contains("/bin/", StringComparison.Ordinal)));
        }

        return [.. files.OrderBy(file => file.Path, StringComparer.Ordinal)];
    }

    /// <summary>Compiles the files.</summary>
    /// <param name="files">The files.</param>
    /// <returns>The files with their meaning.</returns>
    /// <exception cref="RefusalException">They are no valid C#.</exception>
    public static SourceSet Read(IEnumerable<SourceFile> files)
    {
        CSharpParseOptions parsing = CSharpParseOptions.Default.WithLanguageVersion(LanguageVersion.Latest);
        ImmutableArray<SyntaxTree> trees = [.. files.OrderBy(file => file.Path, StringComparer.Ordinal)
            .Select(file => CSharpSyntaxTree.ParseText(file.Text, parsing, file.Path, Encoding.UTF8))];
        string trusted = (string?)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES") ?? throw new RefusalException("the runtime does not say where its assemblies are");
        IEnumerable<MetadataReference> references = trusted.Split(Path.PathSeparator)
            .Where(path => Path.GetFileName(path).StartsWith("System.", StringComparison.Ordinal))
            .Select(path => MetadataReference.CreateFromFile(path));
        var options = new CSharpCompilationOptions(
            OutputKind.DynamicallyLinkedLibrary, checkOverflow: true, allowUnsafe: true, nullableContextOptions: NullableContextOptions.Enable);
        var compilation = CSharpCompilation.Create(
            "Source", [CSharpSyntaxTree.ParseText(Imports, parsing, "imports"), .. trees], references, options);
        Diagnostic? error = compilation.GetDiagnostics().FirstOrDefault(diagnostic => diagnostic.Severity == DiagnosticSeverity.Error);
        return error is null ? new SourceSet(compilation, trees) : throw new RefusalException($"{error.Location.GetLineSpan().Path}: {error}");
    }

    /// <summary>The meaning of one file.</summary>
    /// <param name="tree">The file.</param>
    /// <returns>Its meaning.</returns>
    public SemanticModel ModelOf(SyntaxTree tree) => Compilation.GetSemanticModel(tree);

    /// <summary>Every type that a file declares, outer before inner, in the order of the text.</summary>
    /// <param name="tree">The file.</param>
    /// <returns>Declaration and type.</returns>
    public IEnumerable<(BaseTypeDeclarationSyntax Syntax, INamedTypeSymbol Type)> TypesOf(SyntaxTree tree)
    {
        SemanticModel model = ModelOf(tree);
        foreach (BaseTypeDeclarationSyntax syntax in tree.GetRoot().DescendantNodes().OfType<BaseTypeDeclarationSyntax>())
        {
            yield return (syntax, model.GetDeclaredSymbol(syntax)!);
        }
    }
}
