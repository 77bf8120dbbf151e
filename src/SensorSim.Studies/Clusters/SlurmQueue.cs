// SPDX-License-Identifier: MIT
using System.ComponentModel;
using System.Diagnostics;

namespace SensorSim.Studies.Clusters;

/// <summary>Hands scripts to the scheduler.</summary>
public static class SlurmQueue
{
    /// <summary>Submits the parts, and the joining that waits until all of them succeeded.</summary>
    /// <param name="partsScript">Path of the script of the parts.</param>
    /// <param name="joinScript">Path of the script that joins them.</param>
    /// <returns>Numbers of the two jobs.</returns>
    /// <exception cref="IOException">The scheduler is not there or refused; the message is its own first line.</exception>
    public static (string Parts, string Join) Submit(string partsScript, string joinScript)
    {
        string parts = Ask(["--parsable", partsScript]);
        string join = Ask(["--parsable", $"--dependency=afterok:{parts}", "--kill-on-invalid-dep=yes", joinScript]);
        return (parts, join);
    }

    private static string Ask(string[] arguments)
    {
        var start = new ProcessStartInfo("sbatch", arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        try
        {
            using Process process = Process.Start(start) ?? throw new IOException("sbatch did not start.");
            Task<string> error = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd().Trim();
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                throw new IOException($"the scheduler refused {arguments[^1]}: {FirstLine(error.GetAwaiter().GetResult())}");
            }

            // With several clusters the answer is number;cluster.
            return output.Split(';')[0];
        }
        catch (Win32Exception)
        {
            throw new IOException($"there is no sbatch on this machine (Debian package slurm-client); submit {arguments[^1]} where there is one.");
        }
    }

    private static string FirstLine(string text) => text.Trim().Split('\n')[0].Trim();
}
