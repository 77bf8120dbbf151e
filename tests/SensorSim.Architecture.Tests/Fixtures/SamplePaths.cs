// SPDX-License-Identifier: MIT
namespace SensorSim.Architecture.Tests.Fixtures;

/// <summary>Integer code that breaks the rules of the sample path, each in its own way, some through a helper.</summary>
internal sealed class BadSamplePath(IComparer<int> comparer, Func<int, int> rule)
{
    private int[] _kept = [];
    private object _boxed = 0;

    public static int PushDividing(int x) => x / 3;

    public static int PushThroughHelper(int x) => Helper(x);

    public static int PushRemainder(uint x) => (int)(x % 10);

    public void PushAllocating(int x) => _kept = new int[x];

    public void PushBoxing(int x) => _boxed = x;

    public static string PushNewObject(int x) => new('x', x);

    public int PushThrowing(int x) => x > 0 ? x : throw new InvalidOperationException(_boxed.ToString() + _kept.Length);

    public static void PushGuarding(int x) => ArgumentOutOfRangeException.ThrowIfNegative(x);

    public int PushVirtual(int x) => comparer.Compare(x, 0);

    public int PushDelegate(int x) => rule(x);

    public static int[,] PushTable(int x) => new int[x, x];

    /// <summary>Divides once a beat, which is allowed there.</summary>
    public static int PushWithBeat(int x) => OnBeat(x);

    private static int OnBeat(int x) => 60000 / x;

    private static int Helper(int x) => x / 3;
}

/// <summary>Integer code as it should be.</summary>
internal sealed class GoodSamplePath
{
    private readonly int[] _ring = new int[8];
    private int _next;

    public int Push(int x)
    {
        _ring[_next] = Math.Clamp(x, -100, 100);
        _next = (_next + 1) & 7;
        return Half(_ring[_next]);
    }

    private static int Half(int x) => x >> 1;
}

/// <summary>Floating point in every place where it can hide.</summary>
internal static class Floating
{
    public const double Constant = 0.5;

    public static readonly double Field = Constant;

    public static int Literal(int x) => (int)(x * 0.25);

    public static int Parameter(double x) => x > 1 ? 1 : 0;

    public static int Root(int x) => (int)Math.Sqrt(x);

    public static int Lanes(int x) => System.Runtime.Intrinsics.Vector256<double>.Count + x;

    public static int Local(int x)
    {
        var list = new List<double> { x };
        return list.Count;
    }
}
