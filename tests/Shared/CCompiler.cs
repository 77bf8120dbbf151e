// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Tests.Shared;

/// <summary>Builds small C libraries for tests with gcc, which CI installs.</summary>
internal static class CCompiler
{
    /// <summary>Root of the source tree.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>The worked example.</summary>
    public static string Example => Path.Combine(Root, "docs", "examples", "c-detector", "threshold.c");

    /// <summary>Detectors that behave badly.</summary>
    public static string Bad => Path.Combine(Root, "tests", "SensorSim.Detectors.Tests", "CLibraries", "bad.c");

    /// <summary>Builds a shared library.</summary>
    /// <param name="source">The C file.</param>
    /// <param name="output">Where it goes.</param>
    /// <param name="more">Further arguments.</param>
    public static string Library(string source, string output, params string[] more) => Build(source, output, ["-shared", "-fPIC", .. more]);

    /// <summary>Builds a library that behaves badly.</summary>
    public static string BadLibrary(string folder, string behaviour, params string[] more) =>
        Library(Bad, Path.Combine(folder, behaviour.ToLowerInvariant() + ".so"), ["-DBEHAVIOUR=" + Number(behaviour), .. more]);

    /// <summary>Runs gcc.</summary>
    public static string Build(string source, string output, params string[] more)
    {
        Run("gcc", ["-std=c99", "-O1", "-Wall", "-Wextra", "-Werror", "-I", Path.GetDirectoryName(Example)!, .. more, "-o", output, source]);
        return output;
    }

    /// <summary>Runs a program to its end and returns what it printed.</summary>
    public static string Run(string program, params string[] arguments) => RunIn("", program, arguments);

    /// <summary>The same in another folder.</summary>
    /// <param name="folder">The folder; empty: this one.</param>
    /// <param name="program">The program.</param>
    /// <param name="arguments">Its arguments.</param>
    public static string RunIn(string folder, string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder };
        foreach (string argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        using Process process = Process.Start(start)!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? text : throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}: {errors.Result}{text}");
    }

    // The place of the word in the list of bad.c, so that the preprocessor can compare it too.
    private static string Number(string behaviour)
    {
        string text = File.ReadAllText(Bad);
        int begin = text.IndexOf("enum {", StringComparison.Ordinal) + 6;
        string[] all = text[begin..text.IndexOf('}', begin)].Split(',', StringSplitOptions.TrimEntries);
        int number = Array.IndexOf(all, behaviour);
        return number < 0 ? throw new ArgumentException($"bad.c has no {behaviour}.", nameof(behaviour)) : number.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }

    private static string FindRoot()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
