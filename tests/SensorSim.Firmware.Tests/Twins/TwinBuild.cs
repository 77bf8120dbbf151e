// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>Compiles the twin for tests.</summary>
internal static class TwinBuild
{
    /// <summary>What every C file of the library, the adapter and the tests must bear without a warning.</summary>
    public static readonly string[] Strict = ["-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic", "-Wconversion", "-Wshadow", "-Wstrict-prototypes"];

    private static readonly ConcurrentDictionary<string, Lazy<string[]>> s_objects = new(StringComparer.Ordinal);
    private static int s_count;
    private static readonly Lazy<string> s_folder = new(() => Directory.CreateTempSubdirectory("sensorsim-twin-").FullName);

    /// <summary>Where the C of the project lies.</summary>
    public static string Firmware => Path.Combine(CCompiler.Root, "src", "firmware");

    /// <summary>A folder of its own for what is built; it goes away at the end.</summary>
    public static string Folder => s_folder.Value;

    /// <summary>The C files of the library.</summary>
    public static IEnumerable<string> LibraryFiles => FilesOf(Library);

    /// <summary>Folders in which headers are looked for.</summary>
    public static string[] Includes => IncludesOf(Library);

    private static string Library => Path.Combine(Firmware, "library");

    private static string Adapter => Path.Combine(Firmware, "adapter");

    private static string Entry => Path.Combine(CCompiler.Root, "tests", "SensorSim.Firmware.Tests", "Native", "twin_entry.c");

    /// <summary>Builds library, adapter and entry into one file; what was compiled with the same flags before is taken again.</summary>
    /// <param name="compiler">The compiler.</param>
    /// <param name="name">Name of the file.</param>
    /// <param name="more">Further arguments.</param>
    /// <returns>Path of the file.</returns>
    public static string Make(string compiler, string name, params string[] more) => Link(Library, compiler, name, more, Objects(compiler, more));

    /// <summary>The same with one file of the library in another wording.</summary>
    /// <param name="library">A copy of the library's folder in which it is changed.</param>
    /// <param name="file">The changed file, relative to the folder: a C file, or a header, after which every file is compiled anew.</param>
    /// <param name="compiler">The compiler.</param>
    /// <param name="name">Name of the file that is made.</param>
    /// <param name="more">Further arguments.</param>
    public static string MakeChanged(string library, string file, string compiler, string name, params string[] more)
    {
        string[] sources = file.EndsWith(".h", StringComparison.Ordinal) ? [.. FilesOf(library)] : [Path.Combine(library, file)];
        string[] changed = Compile(library, Path.Combine(Folder, name + "-objects"), compiler, OfObjects(more), sources);
        string[] names = [.. changed.Select(path => Path.GetFileName(path)!)];
        return Link(library, compiler, name, more, [.. changed, .. Objects(compiler, more).Where(path => !names.Contains(Path.GetFileName(path)))]);
    }

    /// <summary>The library and the adapter as object files, compiled once for each choice of compiler and flags.</summary>
    public static string[] Objects(string compiler, params string[] more)
    {
        string[] flags = OfObjects(more);
        return s_objects.GetOrAdd(
            compiler + " " + string.Join(' ', flags),
            _ => new Lazy<string[]>(() => Compile(
                Library, Path.Combine(Folder, FormattableString.Invariant($"objects-{Interlocked.Increment(ref s_count)}")), compiler, flags,
                [.. FilesOf(Library), Path.Combine(Adapter, "library_adapter.c")]))).Value;
    }

    // Flags that say something of the file that is made, or of the entry alone.
    private static string[] OfObjects(string[] flags) => [.. flags.Where(flag => flag is not ("-shared" or "-DTWIN_PROGRAM"))];

    // As many compilers at a time as there are processors, each with its share of the files.
    private static string[] Compile(string library, string folder, string compiler, string[] flags, string[] sources)
    {
        Directory.CreateDirectory(folder);
        int shares = Math.Min(sources.Length, Environment.ProcessorCount);
        Parallel.For(0, shares, share => CCompiler.RunIn(
            folder, compiler, [.. Strict, .. IncludesOf(library), .. flags, "-c", .. sources.Where((_, i) => i % shares == share)]));
        return [.. sources.Select(source => Path.Combine(folder, Path.ChangeExtension(Path.GetFileName(source), ".o")))];
    }

    private static string Link(string library, string compiler, string name, string[] more, string[] objects)
    {
        string output = Path.Combine(Folder, name);
        CCompiler.Run(compiler, [.. Strict, .. IncludesOf(library), .. more, "-o", output, Entry, .. objects]);
        return output;
    }

    private static string[] IncludesOf(string library) => ["-I", library, "-I", Adapter];

    private static IEnumerable<string> FilesOf(string library) =>
        Directory.EnumerateFiles(library, "*.c", SearchOption.AllDirectories).Order(StringComparer.Ordinal);

    /// <summary>Removes what was built.</summary>
    public static void Remove()
    {
        if (s_folder.IsValueCreated)
        {
            Directory.Delete(s_folder.Value, recursive: true);
        }
    }
}
