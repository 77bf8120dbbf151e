// SPDX-License-Identifier: MIT
using System.Diagnostics;
using System.Globalization;
using System.Numerics;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Architecture.Tests.Fixtures;

/// <summary>One broken rule in each member: what the checks must find. Read as compiled code, never run.</summary>
internal static class Offenders
{
    public static double Sine(double x) => Math.Sin(x);

    public static Func<double, double> SineAsDelegate() => Math.Sin;

    public static Func<double, double> ExponentialInLambda() => x => 1 + Math.Exp(x);

    public static double PowerOfDouble(double x) => double.Pow(x, 3);

    public static T LogarithmByGenericMath<T>(T x)
        where T : ILogarithmicFunctions<T>
        => T.Log(x);

    public static double RoundToDigits(double x) => Math.Round(x, 2);

    public static double RoundByMode(double x) => Math.Round(x, MidpointRounding.AwayFromZero);

    public static double FusedMultiply(double x) => Math.FusedMultiplyAdd(x, x, x);

    public static Vector256<double> FusedInstruction(Vector256<double> x) => Fma.MultiplyAdd(x, x, x);

    public static double LaneSum(Vector256<double> x) => Vector256.Sum(x);

    public static Vector256<double> LaneSine(Vector256<double> x) => Vector256.Sin(x);

    public static Vector128<double> LaneMinimum(Vector128<double> x) => Sse2.Min(x, x);

    public static int WideLanes(ReadOnlySpan<int> x) => Vector512.Create(x).GetElement(1);

    public static double WideSum(ReadOnlySpan<double> x) => Vector.Sum(new Vector<double>(x));

    public static double SumInAnyOrder(double[] x) => x.AsParallel().Sum();

    public static double SingleInside(double x) => (float)x;

    public static int SingleParameter(float x) => x > 0 ? 1 : 0;

    public static float[] SingleArray() => new float[2];

    public static decimal DecimalNumber(int x) => x;

    public static int StringHash(string x) => x.GetHashCode(StringComparison.Ordinal);

    public static int ObjectHash(object x) => x.GetHashCode();

    public static int CombinedHash(int x) => HashCode.Combine(x, x);

    public static int UnseededRandom() => Random.Shared.Next();

    public static DateTime WallClock() => DateTime.UtcNow;

    public static long Ticks() => Stopwatch.GetTimestamp();

    public static string LineEnd() => Environment.NewLine;

    public static CultureInfo UsersCulture() => CultureInfo.CurrentCulture;

    public static string TextOutsideTextRooms(double x) => x.ToString(CultureInfo.InvariantCulture);

    public static byte[] BytesOfTheMachine(double x) => BitConverter.GetBytes(x);
}

/// <summary>Faults that need a place that may handle text to show at all.</summary>
internal static class TextOffenders
{
    public static string CultureNotSaid(double x) => x.ToString("R", null);

    public static string InterpolatedByUsersCulture(double x) => $"{x} mV";
}

/// <summary>A field of the wrong kind.</summary>
internal sealed record SingleHolder(float Value);

/// <summary>A method that leaves the compiled code for a native library.</summary>
internal static class NativeOffender
{
    [System.Runtime.InteropServices.DllImport("m", EntryPoint = "sin")]
    [System.Runtime.InteropServices.DefaultDllImportSearchPaths(System.Runtime.InteropServices.DllImportSearchPath.System32)]
    public static extern double NativeSine(double x);
}
