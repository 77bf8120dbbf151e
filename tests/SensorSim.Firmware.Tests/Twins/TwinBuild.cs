// SPDX-License-Identifier: MIT
using SensorSim.Tests.Shared;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>Compiles the twin for tests.</summary>
internal static class TwinBuild
{
    /// <summary>What every C file of the library, the adapter and the tests must bear without a warning.</summary>
    public static readonly string[] Strict = ["-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic", "-Wconversion", "-Wshadow", "-Wstrict-prototypes"];

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

    /// <summary>Builds library, adapter and entry into one file.</summary>
    /// <param name="compiler">The compiler.</param>
    /// <param name="name">Name of the file.</param>
    /// <param name="more">Further arguments.</param>
    /// <returns>Path of the file.</returns>
    public static string Make(string compiler, string name, params string[] more) => MakeFrom(Library, compiler, name, more);

    /// <summary>The same from another folder of the library.</summary>
    public static string MakeFrom(string library, string compiler, string name, params string[] more)
    {
        string output = Path.Combine(Folder, name);
        CCompiler.Run(compiler, [.. Strict, .. IncludesOf(library), .. more, "-o", output, Entry, Path.Combine(Adapter, "library_adapter.c"), .. FilesOf(library)]);
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
