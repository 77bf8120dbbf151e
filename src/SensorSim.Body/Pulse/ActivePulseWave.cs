// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Pulse;

/// <summary>A pulse component x^n·e^(n(1−x)) on a regular grid: x grows by a constant, the exponential is multiplied by one.</summary>
/// <remarks>
/// <para>Eight samples at a time, in two vectors whose recurrences do not wait for each other. Groups begin at absolute samples that are
/// multiples of eight, as blocks usually do: the first group may hold samples before the wave, where it is 0, the last one some after its
/// cut, where it is below the cut's height. A block that cuts a group computes the group and takes some of its lanes; the recurrence moves
/// on at the group's end. So no cut changes a bit.</para>
/// <para>The variant is the light: an index into the beat's <see cref="PulseGains"/>.</para>
/// </remarks>
internal struct ActivePulseWave : IActiveWave<ActivePulseWave>
{
    private const int Lanes = 4;
    private const int Group = 2 * Lanes;

    // Height times exponential of the present group's first and second half, and the first half's x.
    private Vector256<double> _first;
    private Vector256<double> _second;
    private Vector256<double> _x;
    private double _ratio;
    private double _stepX;
    private int _thirds;
    private bool _isBegun;

    public static int PerBeat => PulseBeat.Count;

    public long Next { get; private set; }

    public long Last { get; private set; }

    public static bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out ActivePulseWave wave)
    {
        wave = default;
        ref readonly PulseWave source = ref beat.Pulse[index];
        double height = source.Height * beat.Gains[variant];
        if (height == 0)
        {
            return false;
        }

        wave.Next = grid.FirstAtOrAfter(source.StartSeconds) & -Group;
        double order = 3 * source.Thirds;
        double stepX = grid.StepSeconds * source.PerSecond;
        double firstX = (grid.Seconds(wave.Next) - source.StartSeconds) * source.PerSecond;
        wave.Last = (wave.Next + (long)((source.CutX - firstX) / stepX)) | (Group - 1);
        wave._thirds = source.Thirds;
        wave._stepX = stepX;
        wave._x = Vector256.Create(firstX) + (Vector256.Create(0.0, 1, 2, 3) * stepX);
        wave._first = ExpLanes.Exp((Vector256<double>.One - wave._x) * order) * height;
        double half = PortableMath.Exp(-Lanes * stepX * order);
        wave._second = wave._first * half;
        wave._ratio = half * half;
        return true;
    }

    public void SkipTo(long index)
    {
        for (long group = Next & -Group; group + Group <= index; group += Group)
        {
            MoveOn();
        }

        Next = Math.Max(Next, index);
    }

    public void Draw(Span<double> buffer)
    {
        // One loop for each order: a test inside would cost as much as the wave.
        switch (_thirds)
        {
            case 1:
                Draw<Cube>(buffer);
                break;
            case 2:
                Draw<Sixth>(buffer);
                break;
            default:
                Draw<Ninth>(buffer);
                break;
        }
    }

    private void Draw<TOrder>(Span<double> buffer)
        where TOrder : struct, IOrder
    {
        // Mostly whole groups; the wave's first one, and what is left of one that a block has cut, stand apart.
        int done = _isBegun && ((int)Next & (Group - 1)) == 0 ? 0 : DrawSome<TOrder>(buffer);
        int whole = (buffer.Length - done) & -Group;

        // Local copies: the compiler cannot know that the buffer does not hold this wave.
        Vector256<double> first = _first;
        Vector256<double> second = _second;
        Vector256<double> x = _x;
        var half = Vector256.Create(Lanes * _stepX);
        Vector256<double> step = half + half;
        var ratio = Vector256.Create(_ratio);
        ref double target = ref Unsafe.Add(ref MemoryMarshal.GetReference(buffer), done);
        ref double end = ref Unsafe.Add(ref target, whole);
        while (Unsafe.IsAddressLessThan(ref target, ref end))
        {
            Vector256<double> later = x + half;
            (Vector256.LoadUnsafe(ref target) + (first * TOrder.Power(x))).StoreUnsafe(ref target);
            (Vector256.LoadUnsafe(ref target, Lanes) + (second * TOrder.Power(later))).StoreUnsafe(ref target, Lanes);
            first *= ratio;
            second *= ratio;
            x += step;
            target = ref Unsafe.Add(ref target, Group);
        }

        _first = first;
        _second = second;
        _x = x;
        Next += whole;
        done += whole;
        if (done < buffer.Length)
        {
            DrawSome<TOrder>(buffer[done..]);
        }
    }

    // Up to the end of a group, or of the buffer; samples before the wave are 0.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private int DrawSome<TOrder>(Span<double> buffer)
        where TOrder : struct, IOrder
    {
        int lane = (int)Next & (Group - 1);
        int count = Math.Min(Group - lane, buffer.Length);
        Vector256<double> x = _x & Vector256.GreaterThan(_x, Vector256<double>.Zero);
        Vector256<double> later = _x + Vector256.Create(Lanes * _stepX);
        later &= Vector256.GreaterThan(later, Vector256<double>.Zero);
        Vector256<double> early = _first * TOrder.Power(x);
        Vector256<double> late = _second * TOrder.Power(later);
        if (count == Group)
        {
            ref double target = ref MemoryMarshal.GetReference(buffer);
            (Vector256.LoadUnsafe(ref target) + early).StoreUnsafe(ref target);
            (Vector256.LoadUnsafe(ref target, Lanes) + late).StoreUnsafe(ref target, Lanes);
        }
        else
        {
            for (int i = 0; i < count; i++)
            {
                buffer[i] += lane + i < Lanes ? early[lane + i] : late[lane + i - Lanes];
            }
        }

        _isBegun = true;
        Next += count;
        if (lane + count == Group)
        {
            MoveOn();
        }

        return count;
    }

    private void MoveOn()
    {
        var half = Vector256.Create(Lanes * _stepX);
        _first *= _ratio;
        _second *= _ratio;
        _x += half + half;
    }

    /// <summary>The order n of the component.</summary>
    private interface IOrder
    {
        static abstract Vector256<double> Power(Vector256<double> x);
    }

    private readonly struct Cube : IOrder
    {
        public static Vector256<double> Power(Vector256<double> x) => x * x * x;
    }

    private readonly struct Sixth : IOrder
    {
        public static Vector256<double> Power(Vector256<double> x)
        {
            Vector256<double> cube = x * x * x;
            return cube * cube;
        }
    }

    private readonly struct Ninth : IOrder
    {
        public static Vector256<double> Power(Vector256<double> x)
        {
            Vector256<double> cube = x * x * x;
            return cube * cube * cube;
        }
    }
}
