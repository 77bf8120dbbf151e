// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace SensorSim.Detectors.CLibraries;

/// <summary>Whether this thread's processor still computes by IEEE 754 with rounding to nearest, which foreign code in a process can switch off.</summary>
/// <remarks>
/// A library linked with fast-math options sets "flush denormals to zero" while it is loaded; other codes change the rounding. All
/// signals made on that thread would then differ in their last bits.
/// </remarks>
internal static partial class Arithmetic
{
    /// <summary>What is said of a library that does it; follows "The detector" or the file.</summary>
    public const string Complaint =
        "switches the processor to inexact arithmetic (denormal numbers or rounding); build it without -Ofast and -ffast-math, or run it in a process of its own";

    /// <summary>Computes with the smallest numbers and with halves of the last bit.</summary>
    [MethodImpl(MethodImplOptions.NoInlining | MethodImplOptions.NoOptimization)]
    public static bool IsIntact()
    {
        double smallest = double.Epsilon;
        double smallestNormal = BitConverter.UInt64BitsToDouble(0x0010_0000_0000_0000);
        double sum = smallest + smallest;
        double half = smallestNormal * 0.5;
        double one = 1.0;
        double halfStep = BitConverter.UInt64BitsToDouble(0x3CA0_0000_0000_0000); // 2^-53
        double next = BitConverter.UInt64BitsToDouble(0x3FF0_0000_0000_0001);
        return BitConverter.DoubleToUInt64Bits(sum) == 2
            && BitConverter.DoubleToUInt64Bits(half) == 0x0008_0000_0000_0000
            && one + halfStep == one // Not upwards.
            && -one - halfStep == -one // Not downwards.
            && BitConverter.DoubleToUInt64Bits(next + halfStep) == 0x3FF0_0000_0000_0002; // Not towards zero.
    }

    /// <summary>Back to the default; where the system has no call for it, nothing happens.</summary>
    public static void Restore()
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        try
        {
            // FE_DFL_ENV of glibc is the pointer −1.
            _ = SetEnvironment(-1);
        }
        catch (DllNotFoundException)
        {
            // Another C library; the verdict stands, the thread stays as it is.
        }
    }

    [LibraryImport("libm.so.6", EntryPoint = "fesetenv")]
    private static partial int SetEnvironment(nint environment);
}
