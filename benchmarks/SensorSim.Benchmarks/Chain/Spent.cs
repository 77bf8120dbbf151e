// SPDX-License-Identifier: MIT
using System.Diagnostics;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Time spent: by the clock on the wall, and by the processor for this process.</summary>
/// <remarks>On a machine with other work the wall clock also counts waiting for a core; processor time does not.</remarks>
/// <param name="Wall">Wall time [s].</param>
/// <param name="Cpu">Processor time of all threads [s].</param>
internal readonly record struct Spent(double Wall, double Cpu)
{
    /// <summary>Nothing measured yet.</summary>
    public static Spent Never { get; } = new(double.PositiveInfinity, double.PositiveInfinity);

    /// <summary>The clocks now; the difference of two is time spent.</summary>
    public static Spent Now() =>
        new(Stopwatch.GetTimestamp() / (double)Stopwatch.Frequency, Environment.CpuUsage.TotalTime.TotalSeconds);

    /// <summary>Time from one reading of the clocks to another.</summary>
    public static Spent operator -(Spent to, Spent from) => new(to.Wall - from.Wall, to.Cpu - from.Cpu);

    /// <summary>Times together.</summary>
    public static Spent operator +(Spent a, Spent b) => new(a.Wall + b.Wall, a.Cpu + b.Cpu);

    /// <summary>The quicker by each clock.</summary>
    public static Spent Best(Spent a, Spent b) => new(Math.Min(a.Wall, b.Wall), Math.Min(a.Cpu, b.Cpu));
}
