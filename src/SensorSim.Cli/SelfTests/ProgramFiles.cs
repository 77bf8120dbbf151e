// SPDX-License-Identifier: MIT
using System.Reflection;
using System.Security.Cryptography;

namespace SensorSim.Cli.SelfTests;

/// <summary>The files that the command consists of: are they of one version, and what are their sums.</summary>
internal static class ProgramFiles
{
    private const string Pattern = "SensorSim.*.dll";

    /// <summary>Version of the command, as <c>--version</c> prints it.</summary>
    public static string Version => typeof(App).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;

    /// <summary>Whether every part beside the command has its version.</summary>
    /// <param name="folder">Folder of the command.</param>
    public static CheckFinding OneVersion(string folder)
    {
        Version own = typeof(App).Assembly.GetName().Version!;
        int count = 0;
        foreach (string file in Parts(folder))
        {
            if (NameOf(file) is not AssemblyName name)
            {
                return CheckFinding.Failed($"{Path.GetFileName(file)} is no part of a program; install the command anew");
            }

            if (name.Version != own)
            {
                return CheckFinding.Failed($"{Path.GetFileName(file)} is of version {name.Version}, the command of {own}; install the command anew");
            }

            count++;
        }

        return CheckFinding.Passed(count == 0 ? $"version {Version}, all in one file" : $"version {Version}, {count} parts");
    }

    /// <summary>Names and sums of the parts, in order of names: what a release is compared by.</summary>
    /// <param name="folder">Folder of the command.</param>
    public static IReadOnlyList<(string Name, string Sha256)> Sums(string folder) =>
    [
        .. Parts(folder).Concat(Directory.EnumerateFiles(folder, "sensorsim.dll")).Order(StringComparer.Ordinal).Select(f => (Path.GetFileName(f), SumOf(f))),
    ];

    private static IEnumerable<string> Parts(string folder) => Directory.EnumerateFiles(folder, Pattern).Order(StringComparer.Ordinal);

    private static AssemblyName? NameOf(string file)
    {
        try
        {
            return AssemblyName.GetAssemblyName(file);
        }
        catch (BadImageFormatException)
        {
            return null;
        }
    }

    private static string SumOf(string file)
    {
        using FileStream stream = File.OpenRead(file);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }
}
