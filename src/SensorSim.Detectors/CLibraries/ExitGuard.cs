// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Text;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Turns an end of the process that a detector brought about into a failure with a sentence.</summary>
/// <remarks>
/// <c>exit</c> of C runs what <c>__cxa_atexit</c> has registered, the latest first (System V ABI of C++, from memory), so this guard comes before the
/// end of the runtime; <c>Environment.Exit</c> raises <c>ProcessExit</c>. Nothing can be done about <c>_exit</c> and signals.
/// </remarks>
internal static unsafe partial class ExitGuard
{
    private const int StandardError = 2;
    private const int ErrorNumber = -12;
    private const int Failed = 1;

    // Kept outside the garbage collector's reach: read while the process ends.
    private static byte* s_sentence;
    private static int s_length;
    private static int s_isArmed;
    private static bool s_isRegistered;

    /// <summary>From now on an end of the process is the detector's doing.</summary>
    /// <param name="sentence">What is then said, with its line end.</param>
    public static void Arm(string sentence)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(sentence);
        byte* room = (byte*)NativeMemory.Alloc((nuint)bytes.Length);
        bytes.CopyTo(new Span<byte>(room, bytes.Length));

        // An earlier sentence is left where it is: somebody may be reading it.
        s_length = 0;
        s_sentence = room;
        s_length = bytes.Length;
        Volatile.Write(ref s_isArmed, 1);
        if (s_isRegistered)
        {
            return;
        }

        s_isRegistered = true;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => EndIfArmed();
        try
        {
            if (OperatingSystem.IsLinux() || OperatingSystem.IsMacOS())
            {
                _ = AtExit(&OnExit, null, null);
            }
        }
        catch (EntryPointNotFoundException)
        {
            // Then only the runtime's own end is noticed.
        }
    }

    /// <summary>The process may end.</summary>
    public static void Disarm() => Volatile.Write(ref s_isArmed, 0);

    /// <summary>Says a sentence and ends the process at once with exit code 1.</summary>
    public static void EndWith(string sentence)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(sentence);
        fixed (byte* at = bytes)
        {
            End(at, bytes.Length);
        }
    }

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void OnExit(void* nothing) => EndIfArmed();

    private static void EndIfArmed()
    {
        if (Interlocked.Exchange(ref s_isArmed, 0) == 1)
        {
            End(s_sentence, s_length);
        }
    }

    private static void End(byte* sentence, int length)
    {
        if (OperatingSystem.IsWindows())
        {
            WriteFile(GetStdHandle(ErrorNumber), sentence, length, out _, IntPtr.Zero);
            using var own = System.Diagnostics.Process.GetCurrentProcess();
            TerminateProcess(own.Handle, Failed);
            return;
        }

        _ = Write(StandardError, sentence, length);
        EndNow(Failed);
    }

    [LibraryImport("libc", EntryPoint = "__cxa_atexit")]
    private static partial int AtExit(delegate* unmanaged[Cdecl]<void*, void> function, void* argument, void* library);

    [LibraryImport("libc", EntryPoint = "write")]
    private static partial nint Write(int file, byte* bytes, nint count);

    [LibraryImport("libc", EntryPoint = "_exit")]
    private static partial void EndNow(int code);

    [LibraryImport("kernel32.dll")]
    private static partial IntPtr GetStdHandle(int number);

    [LibraryImport("kernel32.dll")]
    [return: MarshalAs(UnmanagedType.Bool)]
    private static partial bool WriteFile(IntPtr file, byte* bytes, int count, out int written, IntPtr overlapped);

    [LibraryImport("kernel32.dll")]
    [return: MarshalAs(UnmanagedType.Bool)]
    private static partial bool TerminateProcess(IntPtr process, uint code);
}
