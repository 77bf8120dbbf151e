// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Pulse;

/// <summary>A pulse component (x·e^(1−x))^n on a regular grid: x grows by a constant, e^(1−x) is multiplied by one.</summary>
/// <remarks>
/// <para>Four samples at a time. Groups begin at absolute samples that are multiples of four, as blocks usually do: the first group may
/// hold samples before the wave, where it is 0, the last one some after its cut, where it is below the cut's height. A block that cuts a
/// group computes the group and takes some of its lanes; the recurrence moves on at the group's end. So no cut changes a bit.</para>
/// <para>The variant is the light: an index into the beat's <see cref="PulseGains"/>.</para>
/// </remarks>
internal struct ActivePulseWave : IActiveWave<ActivePulseWave>
{
    private const int Lanes = 4;

    private Vector256<double> _exponential;
    private double _ratio;
    private double _firstX;
    private double _stepX;
    private double _height;
    private int _thirds;
    private long _first;

    public static int PerBeat => PulseBeat.Count;

    public long Next { get; private set; }

    public long Last { get; private set; }

    public static bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out ActivePulseWave wave)
    {
        wave = default;
        PulseWave source = beat.Pulse[index];
        wave._height = source.Height * beat.Gains[variant];
        if (wave._height == 0)
        {
            return false;
        }

        wave._first = grid.FirstAtOrAfter(source.StartSeconds) & -Lanes;
        wave.Next = wave._first;
        wave._thirds = source.Thirds;
        wave._stepX = grid.StepSeconds * source.PerSecond;
        wave._firstX = (grid.Seconds(wave._first) - source.StartSeconds) * source.PerSecond;
        wave.Last = (wave._first + (long)((source.CutX - wave._firstX) / wave._stepX)) | (Lanes - 1);
        wave._exponential = ExpLanes.Exp(Vector256.Create(1 - wave._firstX) - (Vector256.Create(0.0, 1, 2, 3) * Vector256.Create(wave._stepX)));
        wave._ratio = PortableMath.Exp(-Lanes * wave._stepX);
        return true;
    }

    public void SkipTo(long index)
    {
        for (long group = (Next - _first) / Lanes; group < (index - _first) / Lanes; group++)
        {
            _exponential *= _ratio;
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
        int done = Next == _first || ((int)Next & (Lanes - 1)) != 0 ? DrawFirst<TOrder>(buffer) : 0;
        int whole = (buffer.Length - done) & -Lanes;

        // Local copies: the compiler cannot know that the buffer does not hold this wave.
        Vector256<double> k = Vector256.Create((double)(Next - _first)) + Vector256.Create(0.0, 1, 2, 3);
        Vector256<double> e = _exponential;
        var ratio = Vector256.Create(_ratio);
        var firstX = Vector256.Create(_firstX);
        var stepX = Vector256.Create(_stepX);
        var height = Vector256.Create(_height);
        var four = Vector256.Create((double)Lanes);
        ref double target = ref Unsafe.Add(ref MemoryMarshal.GetReference(buffer), done);
        ref double end = ref Unsafe.Add(ref target, whole);
        while (Unsafe.IsAddressLessThan(ref target, ref end))
        {
            Vector256<double> x = firstX + (k * stepX);
            (Vector256.LoadUnsafe(ref target) + (height * TOrder.Power(x * e))).StoreUnsafe(ref target);
            e *= ratio;
            k += four;
            target = ref Unsafe.Add(ref target, Lanes);
        }

        _exponential = e;
        Next += whole;
        if (done + whole < buffer.Length)
        {
            DrawSome<TOrder>(buffer[(done + whole)..]);
        }
    }

    // Up to the end of a group, or of the buffer.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private int DrawFirst<TOrder>(Span<double> buffer)
        where TOrder : struct, IOrder
    {
        int count = Math.Min(Lanes - ((int)Next & (Lanes - 1)), buffer.Length);
        DrawSome<TOrder>(buffer[..count]);
        if (((int)Next & (Lanes - 1)) == 0)
        {
            _exponential *= _ratio;
        }

        return count;
    }

    // Lanes of a single group; samples before the wave are 0.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void DrawSome<TOrder>(Span<double> buffer)
        where TOrder : struct, IOrder
    {
        int lane = (int)Next & (Lanes - 1);
        Vector256<double> k = Vector256.Create((double)(Next - _first - lane)) + Vector256.Create(0.0, 1, 2, 3);
        Vector256<double> x = Vector256.Create(_firstX) + (k * Vector256.Create(_stepX));
        x &= Vector256.GreaterThan(x, Vector256<double>.Zero);
        Vector256<double> values = Vector256.Create(_height) * TOrder.Power(x * _exponential);
        Next += buffer.Length;
        if (buffer.Length == Lanes)
        {
            ref double target = ref MemoryMarshal.GetReference(buffer);
            (Vector256.LoadUnsafe(ref target) + values).StoreUnsafe(ref target);
            return;
        }

        for (int i = 0; i < buffer.Length; i++)
        {
            buffer[i] += values.GetElement(lane + i);
        }
    }

    /// <summary>The order n of the component.</summary>
    private interface IOrder
    {
        static abstract Vector256<double> Power(Vector256<double> h);
    }

    private readonly struct Cube : IOrder
    {
        public static Vector256<double> Power(Vector256<double> h) => h * h * h;
    }

    private readonly struct Sixth : IOrder
    {
        public static Vector256<double> Power(Vector256<double> h)
        {
            Vector256<double> cube = h * h * h;
            return cube * cube;
        }
    }

    private readonly struct Ninth : IOrder
    {
        public static Vector256<double> Power(Vector256<double> h)
        {
            Vector256<double> cube = h * h * h;
            return cube * cube * cube;
        }
    }
}
