// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>An analog one-pole high-pass s/(s + a), a = 2π × corner: its exact response to a line between each two samples.</summary>
/// <remarks>
/// y(n) = e^(−aT)·y(n − 1) + (x(n) − x(n − 1))·(1 − e^(−aT))/(aT). Sines up to 0.4 of the rate come out with the gain of s/(s + a) within
/// 3e-4 as long as the corner is at most 0.02 of the rate. Four neighbours are made at once: see <see cref="LookAheadFilter"/>.
/// </remarks>
internal sealed class HighPass
{
    private readonly double _keep;
    private readonly LookAheadFilter _filter;
    private double _in;

    /// <summary>Creates the filter.</summary>
    /// <param name="cornerHz">Corner (−3 dB), above 0 [Hz].</param>
    /// <param name="stepSeconds">Time between samples [s].</param>
    public HighPass(double cornerHz, double stepSeconds)
    {
        double turn = 2 * Math.PI * cornerHz * stepSeconds;
        double keep = PortableMath.Exp(-turn);
        double gain = (1 - keep) / turn;
        double square = keep * keep;
        _keep = keep;

        // 1/(1 − keep z⁻¹) = (1 + keep z⁻¹ + keep² z⁻² + keep³ z⁻³) / (1 − keep⁴ z⁻⁴), on steps of the input.
        _filter = new LookAheadFilter([gain, gain * keep, gain * square, gain * square * keep], square * square, 0);
    }

    private HighPass(HighPass other)
    {
        _keep = other._keep;
        _filter = other._filter.Copy();
        _in = other._in;
    }

    /// <summary>Begins as if the input had been steady for long.</summary>
    /// <param name="first">First sample.</param>
    /// <param name="steady">What the input was before.</param>
    public void Settle(double first, double steady)
    {
        _in = first;
        _filter.Settle(0, (first - steady) / _keep, _keep);
    }

    /// <summary>Filters samples in place.</summary>
    public void Run(Span<double> buffer)
    {
        for (int done = 0; done < buffer.Length; done += LookAheadFilter.Piece)
        {
            Span<double> part = buffer[done..Math.Min(buffer.Length, done + LookAheadFilter.Piece)];
            Run(part, part);
        }
    }

    /// <summary>Filters some samples.</summary>
    /// <param name="input">At least one, at most <see cref="LookAheadFilter.Piece"/>.</param>
    /// <param name="target">Receives as many; may be the same.</param>
    public void Run(ReadOnlySpan<double> input, Span<double> target)
    {
        Span<double> steps = _filter.Inputs(input.Length);
        Differences(input, steps);
        steps[0] = input[0] - _in;
        _in = input[^1];
        _filter.Run(target);
    }

    // All but the first.
    private static void Differences(ReadOnlySpan<double> values, Span<double> steps)
    {
        steps = steps[..values.Length];
        ref double v = ref MemoryMarshal.GetReference(values);
        ref double s = ref MemoryMarshal.GetReference(steps);
        int whole = 1 + ((values.Length - 1) & -Vector256<double>.Count);
        for (nuint i = 1; i < (nuint)(uint)whole; i += (nuint)Vector256<double>.Count)
        {
            (Vector256.LoadUnsafe(ref v, i) - Vector256.LoadUnsafe(ref v, i - 1)).StoreUnsafe(ref s, i);
        }

        for (int i = whole; i < values.Length; i++)
        {
            steps[i] = values[i] - values[i - 1];
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public HighPass Copy() => new(this);
}
