// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Links.Tests.Support;

/// <summary>Runs the test that calls it once more, in a process of its own that is told something; that one plays the other user of a port.</summary>
internal sealed class OtherProcess : IDisposable
{
    private const string Variable = "SENSORSIM_LINKS_TEST_TOLD";

    private readonly Process _process;
    private readonly Task<string> _output;

    private OtherProcess(Process process)
    {
        _process = process;
        _output = process.StandardOutput.ReadToEndAsync();
    }

    /// <summary>What this process was told; null in the first one.</summary>
    public static string? Told => Environment.GetEnvironmentVariable(Variable);

    /// <summary>Starts it.</summary>
    /// <param name="told">What it is told.</param>
    /// <param name="before">Program and arguments that start it in turn.</param>
    public static OtherProcess Start(string told, params string[] before)
    {
        string[] command =
        [
            .. before, Environment.ProcessPath!, "--no-ansi", "--progress", "off", "--filter",
            $"FullyQualifiedName={TestContext.CurrentContext.Test.ClassName}.{TestContext.CurrentContext.Test.MethodName}",
        ];
        var start = new ProcessStartInfo(command[0]) { RedirectStandardOutput = true };
        foreach (string argument in command[1..])
        {
            start.ArgumentList.Add(argument);
        }

        start.Environment[Variable] = told;
        return new OtherProcess(Process.Start(start)!);
    }

    /// <summary>Waits for its end; its test must have passed.</summary>
    public void ExpectPasses()
    {
        Assert.That(_process.WaitForExit(TimeSpan.FromSeconds(60)), Is.True, "the other process does not end");
        Assert.That(_process.ExitCode, Is.Zero, () => _output.Result);
        Assert.That(_output.Result, Does.Contain("succeeded: 1"));
    }

    /// <summary>Ends it without a chance to tidy up.</summary>
    public void Kill()
    {
        _process.Kill();
        _process.WaitForExit();
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            Kill();
        }

        _process.Dispose();
    }
}
