// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace SensorSim.DetectorHost;

/// <summary>Standard input and output, taken away from everyone else: what a library prints goes to standard error.</summary>
internal static partial class StandardPipes
{
    private const int InputNumber = -10;
    private const int OutputNumber = -11;
    private const int ErrorNumber = -12;

    /// <summary>Takes both; called once, before any library is loaded.</summary>
    public static (Stream Requests, Stream Replies) Take()
    {
        IntPtr input;
        IntPtr output;
        if (OperatingSystem.IsWindows())
        {
            input = GetStdHandle(InputNumber);
            output = GetStdHandle(OutputNumber);
            SetStdHandle(OutputNumber, GetStdHandle(ErrorNumber));
        }
        else
        {
            input = 0;
            output = Duplicate(1);
            if (output < 0 || DuplicateTo(2, 1) < 0)
            {
                throw new IOException("Standard output cannot be moved.");
            }
        }

        return (
            new FileStream(new SafeFileHandle(input, ownsHandle: false), FileAccess.Read, bufferSize: 0),
            new FileStream(new SafeFileHandle(output, ownsHandle: false), FileAccess.Write, bufferSize: 0));
    }

    [LibraryImport("libc", EntryPoint = "dup", SetLastError = true)]
    private static partial int Duplicate(int from);

    [LibraryImport("libc", EntryPoint = "dup2", SetLastError = true)]
    private static partial int DuplicateTo(int from, int to);

    [LibraryImport("kernel32.dll")]
    private static partial IntPtr GetStdHandle(int number);

    [LibraryImport("kernel32.dll")]
    [return: MarshalAs(UnmanagedType.Bool)]
    private static partial bool SetStdHandle(int number, IntPtr handle);
}
