// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Runtime.InteropServices;
using SensorSim.Benchmarks.Inputs;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Where a measurement was made.</summary>
internal static class Machine
{
    /// <summary>Lines of a list: processor, system, runtime, load, commit.</summary>
    public static string Describe() => $"""
        - processor: {Processor()}, {Environment.ProcessorCount} cores, {RuntimeInformation.ProcessArchitecture}
        - system: {RuntimeInformation.OSDescription}
        - runtime: {RuntimeInformation.FrameworkDescription}, SDK {Answer("dotnet", "--version")}
        - commit: {Answer("git", "-C", Repository.Root, "describe", "--always", "--dirty")}
        """;

    /// <summary>Processes that want to run, averaged over a minute, the measurement's own among them; "unknown" where there is none.</summary>
    public static string Load() => File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "unknown";

    private static string Processor()
    {
        const string Path = "/proc/cpuinfo";
        string? line = File.Exists(Path)
            ? File.ReadLines(Path).FirstOrDefault(l => l.StartsWith("model name", StringComparison.Ordinal))
            : null;
        return line is null ? "unknown" : line[(line.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim();
    }

    private static string Answer(string program, params string[] arguments)
    {
        try
        {
            using Process process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
            string text = process.StandardOutput.ReadToEnd().Trim();
            process.WaitForExit();
            return text.Length > 0 ? text : "unknown";
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return "unknown";
        }
    }
}
