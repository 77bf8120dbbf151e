// SPDX-License-Identifier: MIT
namespace SensorSim.Detectors.CLibraries;

/// <summary>What the exit code of a child means.</summary>
internal static class ExitText
{
    private const int SignalBase = 128;

    /// <summary>A sentence without its stop: how the detector ended.</summary>
    /// <param name="exitCode">Exit code of the child; of one that a signal ended 128 + its number.</param>
    public static string Of(int exitCode) => exitCode switch
    {
        // Numbers of signals that are the same on Linux and macOS (POSIX leaves them open; both keep those of 4.3BSD).
        SignalBase + 4 => Signal("SIGILL", "illegal instruction"),
        SignalBase + 5 => Signal("SIGTRAP", "breakpoint"),
        SignalBase + 6 => Signal("SIGABRT", "abort or a failed assertion"),
        SignalBase + 7 when OperatingSystem.IsLinux() => Signal("SIGBUS", "access to memory that is not there"),
        SignalBase + 10 when OperatingSystem.IsMacOS() => Signal("SIGBUS", "access to memory that is not there"),
        SignalBase + 8 => Signal("SIGFPE", "wrong arithmetic, as division of an integer by zero"),
        SignalBase + 9 => Signal("SIGKILL", "ended from outside, as when memory runs out"),
        SignalBase + 11 => Signal("SIGSEGV", "access to memory that is not its own"),
        SignalBase + 15 => Signal("SIGTERM", "ended from outside"),

        // Codes of Windows: ntstatus.h.
        unchecked((int)0xC0000005) => Signal("an access violation", "access to memory that is not its own"),
        unchecked((int)0xC0000094) => Signal("an integer division by zero", "wrong arithmetic"),
        unchecked((int)0xC00000FD) => Signal("a stack overflow", "too deep a recursion"),
        unchecked((int)0xC0000409) => Signal("abort", "abort or a failed assertion"),
        HostServer.PipeLostCode => DetectorChild.Disturbed,
        _ => $"The detector ended its process with exit code {exitCode}",
    };

    private static string Signal(string name, string meaning) => $"The detector's process was ended by {name} ({meaning})";
}
