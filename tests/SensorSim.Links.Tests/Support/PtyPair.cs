// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Links.Tests.Support;

/// <summary>Two pseudo terminals joined by socat: what is written to one comes out of the other.</summary>
internal sealed class PtyPair : IDisposable
{
    private readonly Process _socat;

    public PtyPair()
    {
        var start = new ProcessStartInfo("socat") { RedirectStandardError = true };
        foreach (string argument in new[] { "-d", "-d", "pty,raw,echo=0", "pty,raw,echo=0" })
        {
            start.ArgumentList.Add(argument);
        }

        try
        {
            _socat = Process.Start(start)!;
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new InvalidOperationException("These tests need socat (Debian: apt-get install socat).", e);
        }

        Host = NextName();
        Board = NextName();
    }

    /// <summary>Path of the one end.</summary>
    public string Host { get; }

    /// <summary>Path of the other end.</summary>
    public string Board { get; }

    /// <summary>Takes both ports away, as pulling out a cable does.</summary>
    public void Unplug()
    {
        _socat.Kill();
        _socat.WaitForExit();
    }

    public void Dispose()
    {
        if (!_socat.HasExited)
        {
            Unplug();
        }

        _socat.Dispose();
    }

    private string NextName()
    {
        const string Before = "PTY is ";
        while (_socat.StandardError.ReadLine() is { } line)
        {
            int at = line.IndexOf(Before, StringComparison.Ordinal);
            if (at >= 0)
            {
                return line[(at + Before.Length)..].Trim();
            }
        }

        throw new InvalidOperationException("socat ended without naming its terminals.");
    }
}
