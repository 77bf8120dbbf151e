// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Where the program of the child is and how it is started.</summary>
internal static class ChildProgram
{
    private const string Name = "SensorSim.DetectorHost";

    /// <summary>Starts a child.</summary>
    /// <exception cref="IOException">It cannot be started.</exception>
    public static Process Start()
    {
        string library = Path.Combine(AppContext.BaseDirectory, Name + ".dll");
        if (!File.Exists(library))
        {
            throw new IOException($"{Name}.dll is missing beside the program; C libraries need it, unless they run in process");
        }

        // The runtime that runs this process is there; one that a launcher would look for may not be.
        string dotnet = Path.GetFullPath(Path.Combine(
            RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));
        var start = new ProcessStartInfo
        {
            FileName = File.Exists(dotnet) ? dotnet : Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? Name + ".exe" : Name),
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
            CreateNoWindow = true,
        };
        if (File.Exists(dotnet))
        {
            start.ArgumentList.Add("exec");
            start.ArgumentList.Add(library);
        }

        start.ArgumentList.Add(Environment.ProcessId.ToString(CultureInfo.InvariantCulture));
        try
        {
            return Process.Start(start) ?? throw new IOException($"{Name} cannot be started");
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new IOException($"{Name} cannot be started: {e.Message}", e);
        }
    }
}
