// SPDX-License-Identifier: MIT
using System.ComponentModel;
using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using SensorSim.Benchmarks.Inputs;

namespace SensorSim.Benchmarks.Chain;

/// <summary>What the numpy/scipy script took for the same length of signal.</summary>
/// <param name="Stages">Times of the stages.</param>
/// <param name="Total">All three.</param>
internal sealed record ScriptRun(StageTimes Stages, Spent Total)
{
    private const string Python = "/usr/bin/python3";

    // The first repeat inside a process finds cold memory; the script reports the quicker one.
    private const int RepeatsInside = 2;

    /// <summary>The quicker of two by each clock; the stages are those of the run with less processor time.</summary>
    public static ScriptRun Best(ScriptRun? a, ScriptRun b) =>
        a is null ? b : new ScriptRun(b.Total.Cpu < a.Total.Cpu ? b.Stages : a.Stages, Spent.Best(a.Total, b.Total));

    /// <summary>Runs the script once.</summary>
    /// <param name="seconds">Length [s of signal].</param>
    /// <exception cref="InvalidOperationException">It cannot run; the message says what to install.</exception>
    public static ScriptRun Run(int seconds)
    {
        var start = new ProcessStartInfo(Python)
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            ArgumentList =
            {
                Repository.PathOf("benchmarks", "baseline", "baseline.py"),
                "--seconds", seconds.ToString(CultureInfo.InvariantCulture),
                "--repeats", RepeatsInside.ToString(CultureInfo.InvariantCulture),
            },
        };

        try
        {
            using Process process = Process.Start(start)!;
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return process.ExitCode == 0 ? Parse(output) : throw Missing(errors.Result.Trim());
        }
        catch (Win32Exception e)
        {
            throw Missing(e.Message);
        }
    }

    private static ScriptRun Parse(string json)
    {
        using var document = JsonDocument.Parse(json);
        JsonElement root = document.RootElement;
        return new ScriptRun(new StageTimes(Time(root, "make"), Time(root, "detect"), Time(root, "score")), Time(root, "total"));
    }

    private static Spent Time(JsonElement root, string stage) =>
        new(root.GetProperty(stage + "_s").GetDouble(), root.GetProperty(stage + "_cpu_s").GetDouble());

    private static InvalidOperationException Missing(string why) => new(
        $"{Python} could not run benchmarks/baseline/baseline.py ({why.Split('\n')[^1]}). "
        + "On Debian: apt-get install python3 python3-numpy python3-scipy; or leave it out with --no-script.");
}
