// SPDX-License-Identifier: MIT
using System.ComponentModel;
using System.Diagnostics;
using System.IO.Ports;

namespace SensorSim.Links.Lines;

/// <summary>Finds out why a serial port cannot be opened and says it in one sentence.</summary>
/// <remarks>System.IO.Ports says "access denied" for a missing port, for a file and for a port without permission alike.</remarks>
internal static class PortTrouble
{
    private static readonly TimeSpan RunLimit = TimeSpan.FromSeconds(2);

    /// <summary>The sentence for a port that is not there.</summary>
    /// <param name="port">Path or name of the port.</param>
    public static string Missing(string port)
    {
        string[] names = Names();
        return names.Length == 0
            ? $"There is no serial port {port}, nor any other: connect the board, and see that its cable carries data."
            : $"There is no serial port {port}; there are: {string.Join(", ", names)}.";
    }

    /// <summary>The sentence for a port that somebody else has open.</summary>
    /// <param name="port">Path or name of the port.</param>
    public static string Busy(string port) => $"Serial port {port} is in use by another program: end that program first.";

    /// <summary>The sentence for a port that is there but was refused.</summary>
    /// <param name="port">Path or name of the port.</param>
    /// <param name="realPath">Its path, links followed.</param>
    /// <param name="cause">What the opening threw.</param>
    public static string Refused(string port, string realPath, Exception cause)
    {
        // "Device or resource busy": another program has asked the system for the port alone.
        if (cause.Message.Contains("busy", StringComparison.OrdinalIgnoreCase) || cause.InnerException is IOException { HResult: 16 })
        {
            return Busy(port);
        }

        if (Directory.Exists(realPath))
        {
            return $"{port} is a folder, not a serial port.";
        }

        if (OperatingSystem.IsWindows())
        {
            return cause is UnauthorizedAccessException ? Busy(port) : $"Serial port {port} cannot be opened: {FirstLine(cause)}";
        }

        return Stat(realPath) is { } found ? Refused(port, realPath, found) : $"Serial port {port} cannot be opened: no permission, or it is not a serial port.";
    }

    /// <summary>The serial ports of this machine.</summary>
    internal static string[] Names()
    {
        try
        {
            string[] names = SerialPort.GetPortNames();
            Array.Sort(names, StringComparer.Ordinal);
            return names;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or Win32Exception)
        {
            return [];
        }
    }

    private static string Refused(string port, string realPath, Found found)
    {
        if (!found.Type.Contains("character", StringComparison.OrdinalIgnoreCase))
        {
            return $"{port} is a {found.Type}, not a serial port: give the port's own name, for example /dev/ttyACM0.";
        }

        if (Run("test", "-r", realPath, "-a", "-w", realPath) is not null)
        {
            return $"{port} is a device, but not a serial port: give the port's own name, for example /dev/ttyACM0.";
        }

        return found.GroupMayUse
            ? $"No permission for serial port {port}: it belongs to the group {found.Group}; join it (sudo usermod -aG {found.Group} {Environment.UserName}) and log in again."
            : $"No permission for serial port {port}: only its owner {found.Owner} may open it (mode {found.Mode}).";
    }

    private static string FirstLine(Exception e) => e.Message.Split('\n', 2)[0].TrimEnd();

    // .NET knows neither the owner of a file nor whether it is a device; the program stat does, in the GNU and in the BSD way.
    private static Found? Stat(string path)
    {
        string[] format = OperatingSystem.IsMacOS() || OperatingSystem.IsFreeBSD() ? ["-L", "-f", "%HT|%Lp|%Su|%Sg"] : ["-L", "-c", "%F|%a|%U|%G"];
        string[]? parts = Run("stat", [.. format, path])?.Trim().Split('|');
        return parts is { Length: 4 } ? new Found(parts[0].ToLowerInvariant(), parts[1], parts[2], parts[3]) : null;
    }

    // What a program prints; null when it cannot be run or says no.
    private static string? Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["LC_ALL"] = "C";
        try
        {
            using Process? process = Process.Start(start);
            return process is not null && process.WaitForExit(RunLimit) && process.ExitCode == 0 ? process.StandardOutput.ReadToEnd() : null;
        }
        catch (Exception e) when (e is Win32Exception or IOException or InvalidOperationException)
        {
            return null;
        }
    }

    private sealed record Found(string Type, string Mode, string Owner, string Group)
    {
        // The last but one octal digit: reading and writing.
        public bool GroupMayUse => Mode.PadLeft(3, '0')[^2] is '6' or '7';
    }
}
