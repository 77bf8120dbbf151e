// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Ecg;

/// <summary>A Gaussian on a regular grid: g ← g·r, r ← r·q.</summary>
internal struct ActiveEcgWave : IActiveWave<ActiveEcgWave>
{
    private double _value;
    private double _ratio;
    private double _ratioStep;

    public static int PerBeat => EcgBeat.Count;

    public long Next { get; private set; }

    public long Last { get; private set; }

    public static bool TryStart(in BeatView beat, int index, int variant, in SampleGrid grid, out ActiveEcgWave wave)
    {
        wave = default;
        EcgWave source = beat.Ecg[index];
        double reach = EcgWave.CutSigmas * source.SigmaSeconds;
        wave.Next = grid.FirstAtOrAfter(source.CentreSeconds - reach);
        wave.Last = grid.FirstAtOrAfter(source.CentreSeconds + reach) - 1;
        if (source.Millivolts == 0 || wave.Last < wave.Next)
        {
            return false;
        }

        double step = grid.StepSeconds / source.SigmaSeconds;
        double x = (grid.Seconds(wave.Next) - source.CentreSeconds) / source.SigmaSeconds;
        wave._value = source.Millivolts * PortableMath.Exp(-0.5 * x * x);
        wave._ratio = PortableMath.Exp(-step * (x + (0.5 * step)));
        wave._ratioStep = PortableMath.Exp(-step * step);
        return true;
    }

    public void SkipTo(long index)
    {
        for (; Next < index; Next++)
        {
            _value *= _ratio;
            _ratio *= _ratioStep;
        }
    }

    public void Draw(Span<double> buffer)
    {
        double g = _value;
        double r = _ratio;
        double q = _ratioStep;
        for (int i = 0; i < buffer.Length; i++)
        {
            buffer[i] += g;
            g *= r;
            r *= q;
        }

        _value = g;
        _ratio = r;
        Next += buffer.Length;
    }
}
