// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>A lamp dimmed by switching: a slot sees the share of its integration time during which the lamp is on.</summary>
internal sealed class PulseWidthLamp
{
    private readonly double _hz;
    private readonly double _startTurns;

    /// <summary>Creates a lamp.</summary>
    /// <param name="hz">Switching frequency [Hz].</param>
    /// <param name="startTurns">Phase at time 0 [turns].</param>
    public PulseWidthLamp(double hz, double startTurns)
    {
        _hz = hz;
        _startTurns = startTurns;
    }

    /// <summary>Adds the lamp's photocurrent [nA].</summary>
    /// <param name="buffer">Element i gets the current at sample <paramref name="firstIndex"/> + i.</param>
    /// <param name="grid">Sampling instants.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="na">Photocurrent while on [nA].</param>
    /// <param name="duty">Share of time on, 0 to 1.</param>
    /// <param name="windowSeconds">Integration time, centred on the sampling instant [s].</param>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex, double na, double duty, double windowSeconds)
    {
        if (na == 0)
        {
            return;
        }

        double windowTurns = _hz * windowSeconds;
        double perTurn = na / windowTurns;
        double stepTurns = _hz * grid.StepSeconds;
        double firstTurns = (_hz * grid.StartSeconds) + _startTurns - (0.5 * windowTurns);
        int i = 0;
        ref double to = ref MemoryMarshal.GetReference(buffer);
        Vector256<double> index = Vector256.Create((double)firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var first = Vector256.Create(firstTurns);
        var step = Vector256.Create(stepTurns);
        var window = Vector256.Create(windowTurns);
        var most = Vector256.Create(duty);
        var height = Vector256.Create(perTurn);
        for (; i + 4 <= buffer.Length; i += 4)
        {
            // The same operations as below.
            Vector256<double> begin = (index * step) + first;
            begin -= Vector256.Floor(begin);
            Vector256<double> end = begin + window;
            Vector256<double> whole = Vector256.Floor(end);
            Vector256<double> on = ((whole * most) + Lower(end - whole, most)) - Lower(begin, most);
            (Vector256.LoadUnsafe(ref to) + (on * height)).StoreUnsafe(ref to);
            to = ref Unsafe.Add(ref to, 4);
            index += Vector256.Create(4.0);
        }

        for (; i < buffer.Length; i++)
        {
            double begin = ((firstIndex + i) * stepTurns) + firstTurns;

            // Only the place within a turn matters; small numbers keep their digits over weeks.
            begin -= Math.Floor(begin);
            double end = begin + windowTurns;
            double whole = Math.Floor(end);
            buffer[i] += perTurn * (((whole * duty) + Math.Min(end - whole, duty)) - Math.Min(begin, duty));
        }
    }

    // As Math.Min of what is neither NaN nor a zero below 0.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Lower(Vector256<double> a, Vector256<double> b) => Vector256.ConditionalSelect(Vector256.LessThan(a, b), a, b);
}
