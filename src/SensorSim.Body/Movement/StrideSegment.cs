// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Movement;

/// <summary>One second of a stride's phase: a cubic between two whole seconds.</summary>
/// <param name="Node">Its first whole second.</param>
/// <param name="C0">Phase at its beginning [turns].</param>
/// <param name="C1">Frequency there [Hz].</param>
/// <param name="C2">Factor of the square of the time since.</param>
/// <param name="C3">Factor of its cube.</param>
/// <param name="EndTurns">Phase at its end [turns].</param>
/// <param name="EndHz">Frequency there [Hz].</param>
internal readonly record struct StrideSegment(long Node, double C0, double C1, double C2, double C3, double EndTurns, double EndHz)
{
    private const int MostSteps = 40;

    /// <summary>No second at all.</summary>
    public static StrideSegment None => new(long.MinValue, 0, 0, 0, 0, 0, 0);

    /// <summary>Number of the first step, half a turn each, at or after the beginning.</summary>
    public long FirstStep => (long)Math.Ceiling(2 * C0);

    /// <summary>Number of the first step at or after the end.</summary>
    public long EndStep => (long)Math.Ceiling(2 * EndTurns);

    /// <summary>Phase at a time of this second [turns].</summary>
    /// <param name="seconds">Time since the beginning, 0 to 1 [s].</param>
    public double Turns(double seconds) => C0 + (seconds * (C1 + (seconds * (C2 + (seconds * C3)))));

    /// <summary>Phases at four times of this second: the same operations, so the same bits.</summary>
    public Vector256<double> Turns(Vector256<double> seconds) =>
        Vector256.Create(C0) + (seconds * (Vector256.Create(C1) + (seconds * (Vector256.Create(C2) + (seconds * C3)))));

    /// <summary>When a step of this second falls [s], to rounding; one of the times, should the phase run backwards.</summary>
    public double StepSeconds(long step)
    {
        double target = step * 0.5;
        double low = 0;
        double high = 1;
        double u = (target - C0) / (EndTurns - C0);
        for (int i = 0; i < MostSteps; i++)
        {
            double off = Turns(u) - target;
            low = off < 0 ? u : low;
            high = off < 0 ? high : u;
            double next = u - (off / (C1 + (u * ((2 * C2) + (3 * u * C3)))));
            next = next >= low && next <= high ? next : 0.5 * (low + high);
            if (Math.Abs(next - u) < 1e-12)
            {
                break;
            }

            u = next;
        }

        return Node + u;
    }
}
