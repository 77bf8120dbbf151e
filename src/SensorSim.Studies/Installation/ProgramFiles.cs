// SPDX-License-Identifier: MIT
using System.Reflection;
using SensorSim.Signals.Identity;

namespace SensorSim.Studies.Installation;

/// <summary>The files that the command consists of: are they of one version, and what are their sums.</summary>
internal static class ProgramFiles
{
    private const string Pattern = "SensorSim.*.dll";

    /// <summary>Version of a program, as <c>--version</c> prints it.</summary>
    /// <param name="program">The program.</param>
    public static string VersionOf(Assembly program) => program.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;

    /// <summary>Whether every part beside the command has its version.</summary>
    /// <param name="folder">Folder of the command.</param>
    /// <param name="command">The command.</param>
    public static CheckFinding OneVersion(string folder, Assembly command)
    {
        Version own = command.GetName().Version!;
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

        return CheckFinding.Passed(count == 0 ? $"version {VersionOf(command)}, all in one file" : $"version {VersionOf(command)}, {count} parts");
    }

    /// <summary>Names and sums of the parts, in order of names: what a release is compared by.</summary>
    /// <param name="folder">Folder of the command.</param>
    public static IReadOnlyList<(string Name, string Sha256)> Sums(string folder) =>
    [
        .. Parts(folder).Concat(Directory.EnumerateFiles(folder, "sensorsim.dll")).Order(StringComparer.Ordinal).Select(f => (Path.GetFileName(f), Sha256Sum.OfFile(f))),
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
}
