// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Studies.Tests.Clusters;

/// <summary>Runs a line of shell.</summary>
internal static class Shell
{
    public static (int Code, string Output) Run(string script, params (string Name, string Value)[] variables)
    {
        var start = new ProcessStartInfo("/bin/sh", ["-c", script]) { RedirectStandardOutput = true };
        foreach ((string name, string value) in variables)
        {
            start.Environment[name] = value;
        }

        using Process process = Process.Start(start)!;
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, output);
    }
}
