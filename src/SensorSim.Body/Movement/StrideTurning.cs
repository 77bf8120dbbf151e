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
internal struct StrideTurning
{
    private const int MostGroups = 32;
    private readonly Vector256<double> _thirdSin;
    private readonly Vector256<double> _thirdCos;
    private Vector256<double> _sin;
    private Vector256<double> _cos;
    private Vector256<double> _firstSin;
    private Vector256<double> _firstCos;
    private Vector256<double> _secondSin;
    private Vector256<double> _secondCos;

    /// <summary>Begins a piece.</summary>
    /// <param name="block">The block, with phases in its turns.</param>
    /// <param name="phase">The phase of which they are.</param>
    /// <param name="from">First sample of the piece, a multiple of four.</param>
    /// <param name="end">Receives the sample after its last group, which may lie behind the block.</param>
    public StrideTurning(MovementBlock block, StridePhase phase, int from, out int end)
    {
        StrideSegment segment = block.Memory.Segment(phase, (long)Math.Floor(block.Seconds(from)));

        // A group in which the second ends stands alone, and so needs no turning; of the block's last one, only samples of the block count.
        long left = Math.Min(block.Count, block.Grid.FirstAtOrAfter(segment.Node + 1) - block.First) - from;
        long groups = from + left == block.Count ? (left + 3) / 4 : left / 4;
        end = from + (4 * (int)Math.Max(1, Math.Min(MostGroups, groups)));

        // Differences of the cubic over four samples.
        double h = 4 * block.Grid.StepSeconds;
        Vector256<double> u = block.FourSeconds(from) - Vector256.Create((double)segment.Node);
        Vector256<double> first = h * (Vector256.Create(segment.C1 + (h * (segment.C2 + (h * segment.C3))))
            + (u * (Vector256.Create((2 * segment.C2) + (3 * h * segment.C3)) + (u * (3 * segment.C3)))));
        Vector256<double> second = (h * h) * (Vector256.Create((2 * segment.C2) + (6 * h * segment.C3)) + (u * (6 * segment.C3)));
        var third = Vector256.Create(6 * segment.C3 * h * h * h);
        PortableMath.SinCosTurns(Vector256.LoadUnsafe(ref block.Turns[from]), out _sin, out _cos);
        PortableMath.SinCosTurns(first, out _firstSin, out _firstCos);
        PortableMath.SinCosTurns(second, out _secondSin, out _secondCos);
        PortableMath.SinCosTurns(third, out _thirdSin, out _thirdCos);
    }

    /// <summary>Sine of the phase.</summary>
    public readonly Vector256<double> Sin => _sin;

    /// <summary>Cosine of the phase.</summary>
    public readonly Vector256<double> Cos => _cos;

    /// <summary>Goes on by four samples.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Next()
    {
        Turn(ref _sin, ref _cos, _firstSin, _firstCos);
        Turn(ref _firstSin, ref _firstCos, _secondSin, _secondCos);
        Turn(ref _secondSin, ref _secondCos, _thirdSin, _thirdCos);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Turn(ref Vector256<double> sin, ref Vector256<double> cos, Vector256<double> bySin, Vector256<double> byCos)
    {
        Vector256<double> turned = (sin * byCos) + (cos * bySin);
        cos = (cos * byCos) - (sin * bySin);
        sin = turned;
    }
}
