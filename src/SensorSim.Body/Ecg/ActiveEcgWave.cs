// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>A Gaussian on a regular grid, four samples at a time: g ← g·r, r ← r·q.</summary>
/// <remarks>
/// Lane j of group k is the wave's own first sample + 4k + j, whatever the cut: where a cut falls into a group, the group is kept and the
/// rest of its lanes is drawn by the next call. So every cut gives the same bits, with and without vector instructions.
/// </remarks>
internal struct ActiveEcgWave : IActiveWave<ActiveEcgWave>
{
    private const int Lanes = 4;

    // Only a wave that is over within a sample could have more, and then nothing follows that sample.
    private const double MostExponent = 700;

    private Vector256<double> _value;
    private Vector256<double> _ratio;
    private double _ratioStep;

    // Lanes of the present group that are drawn already.
    private int _drawn;

    public static int PerBeat => EcgBeat.Count;

    public long Next { get; private set; }

    public long Last { get; private set; }

    public static bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out ActiveEcgWave wave)
    {
        wave = default;
        EcgWave source = beat.Ecg[index];
        if (source.Millivolts == 0)
        {
            return false;
        }

        double reach = EcgWave.CutSigmas * source.SigmaSeconds;
        wave.Next = grid.FirstAtOrAfter(source.CentreSeconds - reach);
        wave.Last = grid.FirstAtOrAfter(source.CentreSeconds + reach) - 1;
        if (wave.Last < wave.Next)
        {
            return false;
        }

        // From one sample to the next g is multiplied by r, r by q.
        double inverse = 1 / source.SigmaSeconds;
        double step = grid.StepSeconds * inverse;
        double x = (grid.Seconds(wave.Next) - source.CentreSeconds) * inverse;
        var exponents = Vector256.Create(-0.5 * x * x, -step * (x + (0.5 * step)), -step * step, 0);
        Vector256<double> exponentials = ExpLanes.Exp(Vector256.Min(Vector256.Max(exponents, Vector256.Create(-MostExponent)), Vector256.Create(MostExponent)));
        double g = source.Millivolts * exponentials.GetElement(0);
        double r = exponentials.GetElement(1);
        double q = exponentials.GetElement(2);
        double g1 = g * r;
        double r1 = r * q;
        double g2 = g1 * r1;
        double r2 = r1 * q;
        wave._value = Vector256.Create(g, g1, g2, g2 * r2);

        // From lane j of a group to that of the next: r_j · r_j+1 · r_j+2 · r_j+3 = r⁴ · q^(4j + 6), which grows by q¹⁶ a group.
        double square = q * q;
        double fourth = square * square;
        double first = (r * r1) * (r2 * (r2 * q));
        double second = first * fourth;
        double third = second * fourth;
        wave._ratio = Vector256.Create(first, second, third, third * fourth);
        wave._ratioStep = (fourth * fourth) * (fourth * fourth);
        return true;
    }

    public void SkipTo(long index)
    {
        long skipped = Math.Max(0, index - Next) + _drawn;
        for (; skipped >= Lanes; skipped -= Lanes)
        {
            Turn();
        }

        _drawn = (int)skipped;
        Next = Math.Max(Next, index);
    }

    public void Draw(Span<double> buffer)
    {
        int done = 0;
        if (_drawn != 0)
        {
            done = DrawLanes(buffer);
        }

        Vector256<double> value = _value;
        Vector256<double> ratio = _ratio;
        Vector256<double> ratioStep = Vector256.Create(_ratioStep);
        Span<Vector256<double>> groups = MemoryMarshal.Cast<double, Vector256<double>>(buffer[done..]);
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += value;
            value *= ratio;
            ratio *= ratioStep;
        }

        _value = value;
        _ratio = ratio;
        done += groups.Length * Lanes;
        if (done < buffer.Length)
        {
            DrawLanes(buffer[done..]);
        }

        Next += buffer.Length;
    }

    // The lanes that are left of the present group, as far as the buffer goes.
    private int DrawLanes(Span<double> buffer)
    {
        int count = Math.Min(Lanes - _drawn, buffer.Length);
        for (int i = 0; i < count; i++)
        {
            buffer[i] += _value.GetElement(_drawn + i);
        }

        _drawn += count;
        if (_drawn == Lanes)
        {
            _drawn = 0;
            Turn();
        }

        return count;
    }

    private void Turn()
    {
        _value *= _ratio;
        _ratio *= Vector256.Create(_ratioStep);
    }
}
