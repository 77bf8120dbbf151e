// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>A recursive filter whose output follows its outputs four and eight samples before, so that four neighbours are made at once.</summary>
/// <remarks>
/// <para>y(n) = Σ taps(k)·x(n − k) + four·y(n − 4) + eight·y(n − 8). Any filter of one or two poles takes this form when numerator and denominator
/// are multiplied by what turns each pole p into p⁴ (scattered look-ahead; Parhi and Messerschmitt, IEEE Trans ASSP 37:1099, 1989). The
/// response is the same, but no sample waits for the one before it.</para>
/// <para>Each output is one formula of its own neighbours, whatever lane it stands in, so no cut changes a bit.</para>
/// </remarks>
internal sealed class LookAheadFilter
{
    /// <summary>Most samples in a run.</summary>
    public const int Piece = 256;

    private const int Lanes = 4;
    private const int Outputs = 2 * Lanes;
    private const int Reach = 8;
    private const int ShortTaps = 4;
    private const double Tiny = 1e-42;
    private const double Nothing = 1e-30;

    private readonly double[] _taps = new double[Reach + 1];
    private readonly bool _isShort;
    private readonly double _four;
    private readonly double _eight;

    // What the taps reach back to, then the samples of a run, then lanes that nobody asks for.
    private readonly double[] _inputs = new double[Reach + Piece + Lanes - 1];
    private readonly double[] _outputs = new double[Outputs + Lanes];

    /// <summary>Creates a filter at rest.</summary>
    /// <param name="taps">Factors of the inputs, the latest first; at most nine.</param>
    /// <param name="four">Factor of the output four samples before.</param>
    /// <param name="eight">Factor of the output eight samples before.</param>
    public LookAheadFilter(ReadOnlySpan<double> taps, double four, double eight)
    {
        taps.CopyTo(_taps);
        _isShort = taps.Length <= ShortTaps;
        _four = four;
        _eight = eight;
    }

    private LookAheadFilter(LookAheadFilter other)
    {
        _taps = other._taps;
        _isShort = other._isShort;
        _four = other._four;
        _eight = other._eight;
        _inputs = (double[])other._inputs.Clone();
        _outputs = (double[])other._outputs.Clone();
    }

    /// <summary>Where the inputs of the next run go.</summary>
    /// <param name="count">How many, at most <see cref="Piece"/>.</param>
    public Span<double> Inputs(int count) => _inputs.AsSpan(Reach, count);

    /// <summary>Begins as if there had been these inputs and outputs.</summary>
    /// <param name="input">Every input before.</param>
    /// <param name="output">The output before.</param>
    /// <param name="ratio">What each output was of the one before it.</param>
    public void Settle(double input, double output, double ratio)
    {
        _inputs.AsSpan(0, Reach).Fill(input);
        for (int i = Outputs - 1; i >= 0; i--)
        {
            _outputs[i] = output;
            output /= ratio;
        }
    }

    /// <summary>Filters what stands in <see cref="Inputs"/>.</summary>
    /// <param name="target">Receives the outputs; as many as there are inputs.</param>
    public void Run(Span<double> target)
    {
        ref double outputs = ref MemoryMarshal.GetArrayDataReference(_outputs);
        Vector256<double> eight = Vector256.LoadUnsafe(ref outputs);
        Vector256<double> four = Vector256.LoadUnsafe(ref outputs, Lanes);
        Span<Vector256<double>> groups = MemoryMarshal.Cast<double, Vector256<double>>(target);
        RunGroups(groups, 0, ref four, ref eight);
        eight.StoreUnsafe(ref outputs);
        four.StoreUnsafe(ref outputs, Lanes);
        int done = groups.Length * Lanes;
        int rest = target.Length - done;
        if (rest > 0)
        {
            RunGroups(MemoryMarshal.Cast<double, Vector256<double>>(_outputs.AsSpan(Outputs)), done, ref four, ref eight);
            _outputs.AsSpan(Outputs, rest).CopyTo(target[done..]);
            four.StoreUnsafe(ref outputs, Outputs);
            _outputs.AsSpan(rest, Outputs).CopyTo(_outputs);
        }

        _inputs.AsSpan(target.Length, Reach).CopyTo(_inputs);
    }

    /// <summary>An independent copy with the same state.</summary>
    public LookAheadFilter Copy() => new(this);

    // Whole groups, from an input on.
    private void RunGroups(Span<Vector256<double>> groups, int input, ref Vector256<double> latest, ref Vector256<double> before)
    {
        if (_isShort)
        {
            RunShort(groups, input, ref latest, ref before);
        }
        else
        {
            RunLong(groups, input, ref latest, ref before);
        }
    }

    // Taps and outputs stay in registers, as many as there are: so each length has a loop of its own.
    private void RunShort(Span<Vector256<double>> groups, int input, ref Vector256<double> latest, ref Vector256<double> before)
    {
        Vector256<double> four = latest;
        Vector256<double> eight = before;
        ReadOnlySpan<double> taps = _taps.AsSpan(0, ShortTaps);
        var t0 = Vector256.Create(taps[0]);
        var t1 = Vector256.Create(taps[1]);
        var t2 = Vector256.Create(taps[2]);
        var t3 = Vector256.Create(taps[3]);
        var ofFour = Vector256.Create(_four);
        var tiny = Vector256.Create(Tiny);
        var nothing = Vector256.Create(Nothing);
        ref double x = ref _inputs[input];
        for (int i = 0; i < groups.Length; i++)
        {
            Vector256<double> sum = ((t0 * Vector256.LoadUnsafe(ref x, 8)) + (t1 * Vector256.LoadUnsafe(ref x, 7)))
                + ((t2 * Vector256.LoadUnsafe(ref x, 6)) + (t3 * Vector256.LoadUnsafe(ref x, 5)));
            Vector256<double> y = sum + tiny + (ofFour * four);
            groups[i] = Vector256.AndNot(y, Vector256.LessThan(Vector256.Abs(y), nothing));
            eight = four;
            four = y;
            x = ref Unsafe.Add(ref x, Lanes);
        }

        latest = four;
        before = eight;
    }

    private void RunLong(Span<Vector256<double>> groups, int input, ref Vector256<double> latest, ref Vector256<double> before)
    {
        Vector256<double> four = latest;
        Vector256<double> eight = before;
        ReadOnlySpan<double> taps = _taps.AsSpan(0, Reach + 1);
        var t0 = Vector256.Create(taps[0]);
        var t1 = Vector256.Create(taps[1]);
        var t2 = Vector256.Create(taps[2]);
        var t3 = Vector256.Create(taps[3]);
        var t4 = Vector256.Create(taps[4]);
        var t5 = Vector256.Create(taps[5]);
        var t6 = Vector256.Create(taps[6]);
        var t7 = Vector256.Create(taps[7]);
        var t8 = Vector256.Create(taps[8]);
        var ofFour = Vector256.Create(_four);
        var ofEight = Vector256.Create(_eight);

        // What dies away ends at some 1e-40 and never gets denormal; it is told as 0.
        var tiny = Vector256.Create(Tiny);
        var nothing = Vector256.Create(Nothing);
        ref double x = ref _inputs[input];
        for (int i = 0; i < groups.Length; i++)
        {
            Vector256<double> sum = ((t0 * Vector256.LoadUnsafe(ref x, 8)) + (t1 * Vector256.LoadUnsafe(ref x, 7)))
                + ((t2 * Vector256.LoadUnsafe(ref x, 6)) + (t3 * Vector256.LoadUnsafe(ref x, 5)));
            sum += ((t4 * Vector256.LoadUnsafe(ref x, 4)) + (t5 * Vector256.LoadUnsafe(ref x, 3)))
                + ((t6 * Vector256.LoadUnsafe(ref x, 2)) + (t7 * Vector256.LoadUnsafe(ref x, 1)));
            sum += (t8 * Vector256.LoadUnsafe(ref x)) + (ofEight * eight);
            Vector256<double> y = sum + tiny + (ofFour * four);
            groups[i] = Vector256.AndNot(y, Vector256.LessThan(Vector256.Abs(y), nothing));
            eight = four;
            four = y;
            x = ref Unsafe.Add(ref x, Lanes);
        }

        latest = four;
        before = eight;
    }
}
