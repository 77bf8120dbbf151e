// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Movement;

/// <summary>Sine and cosine of a stride's phase, four samples after the other of a piece of a block.</summary>
/// <remarks>
/// The phase of a second is a cubic, so its third differences are constant: the phasor turns by one that turns by one that turns by a
/// constant angle. It is begun anew with each second and after <see cref="MostGroups"/> groups, counted from the block's begin, an absolute
/// place; until then errors grow to some 1e-12.
/// </remarks>
internal readonly struct StrideTurning
{
    private const int MostGroups = 32;

    /// <summary>Begins a piece.</summary>
    /// <param name="block">The block, with phases in its turns.</param>
    /// <param name="phase">The phase of which they are.</param>
    /// <param name="from">First sample of the piece, a multiple of four.</param>
    /// <param name="end">Receives the sample after its last group, which may lie behind the block.</param>
    public StrideTurning(MovementBlock block, StridePhase phase, int from, out int end)
    {
        ref readonly StrideSegment segment = ref block.Memory.Segment(phase, (long)Math.Floor(block.Seconds(from)));

        // A group in which the second ends stands alone, and so needs no turning; of the block's last one, only samples of the block count.
        int left = block.FirstOf(segment.Node + 1) - from;
        int groups = from + left == block.Count ? (left + 3) / 4 : left / 4;
        PortableMath.SinCosTurns(Vector256.LoadUnsafe(ref block.Turns[from]), out Vector256<double> sin, out Vector256<double> cos);
        Sin = sin;
        Cos = cos;
        if (groups < 2)
        {
            end = from + 4;
            return;
        }

        end = from + (4 * Math.Min(MostGroups, groups));

        // Differences of the cubic over four samples.
        double h = 4 * block.Grid.StepSeconds;
        Vector256<double> u = block.FourSeconds(from) - Vector256.Create((double)segment.Node);
        Vector256<double> first = h * (Vector256.Create(segment.C1 + (h * (segment.C2 + (h * segment.C3))))
            + (u * (Vector256.Create((2 * segment.C2) + (3 * h * segment.C3)) + (u * (3 * segment.C3)))));
        Vector256<double> second = (h * h) * (Vector256.Create((2 * segment.C2) + (6 * h * segment.C3)) + (u * (6 * segment.C3)));
        PortableMath.SinCosTurns(first, out sin, out cos);
        FirstSin = sin;
        FirstCos = cos;
        PortableMath.SinCosTurns(second, out sin, out cos);
        SecondSin = sin;
        SecondCos = cos;
        PortableMath.SinCosTurns(Vector256.Create(6 * segment.C3 * h * h * h), out sin, out cos);
        ThirdSin = sin;
        ThirdCos = cos;
    }

    /// <summary>Sine of the phase at the first group.</summary>
    public Vector256<double> Sin { get; }

    /// <summary>Cosine of the phase there.</summary>
    public Vector256<double> Cos { get; }

    /// <summary>Sine of the angle that turns the phase from group to group: its first difference.</summary>
    public Vector256<double> FirstSin { get; }

    /// <summary>Cosine of the first difference.</summary>
    public Vector256<double> FirstCos { get; }

    /// <summary>Sine of the angle that turns the first difference: the second one.</summary>
    public Vector256<double> SecondSin { get; }

    /// <summary>Cosine of the second difference.</summary>
    public Vector256<double> SecondCos { get; }

    /// <summary>Sine of the third difference, which stays as it is.</summary>
    public Vector256<double> ThirdSin { get; }

    /// <summary>Cosine of the third difference.</summary>
    public Vector256<double> ThirdCos { get; }

    /// <summary>Turns a phasor by another.</summary>
    /// <param name="sin">Its sine.</param>
    /// <param name="cos">Its cosine.</param>
    /// <param name="bySin">Sine of the angle.</param>
    /// <param name="byCos">Cosine of the angle.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Turn(ref Vector256<double> sin, ref Vector256<double> cos, Vector256<double> bySin, Vector256<double> byCos)
    {
        Vector256<double> turned = (sin * byCos) + (cos * bySin);
        cos = (cos * byCos) - (sin * bySin);
        sin = turned;
    }
}
