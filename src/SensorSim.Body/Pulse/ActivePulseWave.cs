// SPDX-License-Identifier: MIT
using SensorSim.Body.Rendering;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Pulse;

/// <summary>A pulse component (x·e^(1−x))^n on a regular grid: x grows by a constant, e^(1−x) is multiplied by one.</summary>
/// <remarks>The variant is the light: an index into the beat's <see cref="PulseGains"/>.</remarks>
internal struct ActivePulseWave : IActiveWave<ActivePulseWave>
{
    private double _firstX;
    private double _stepX;
    private double _exponential;
    private double _ratio;
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
        wave._first = grid.FirstAtOrAfter(source.StartSeconds);
        wave.Next = wave._first;
        wave.Last = grid.FirstAtOrAfter(source.CutSeconds) - 1;
        if (source.Height == 0 || wave.Last < wave.Next)
        {
            return false;
        }

        wave._thirds = source.Thirds;
        wave._height = source.Height * beat.Gains[variant];
        wave._stepX = grid.StepSeconds / source.ToPeakSeconds;
        wave._firstX = (grid.Seconds(wave._first) - source.StartSeconds) / source.ToPeakSeconds;
        wave._exponential = PortableMath.Exp(1 - wave._firstX);
        wave._ratio = PortableMath.Exp(-wave._stepX);
        return true;
    }

    public void SkipTo(long index)
    {
        for (; Next < index; Next++)
        {
            _exponential *= _ratio;
        }
    }

    public void Draw(Span<double> buffer)
    {
        double e = _exponential;
        double ratio = _ratio;
        double height = _height;
        double firstX = _firstX;
        double stepX = _stepX;
        double k = Next - _first;

        // One loop for each order: a test inside would cost as much as the wave.
        switch (_thirds)
        {
            case 1:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    buffer[i] += height * (h * h * h);
                    e *= ratio;
                    k++;
                }

                break;
            case 2:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    double cube = h * h * h;
                    buffer[i] += height * (cube * cube);
                    e *= ratio;
                    k++;
                }

                break;
            default:
                for (int i = 0; i < buffer.Length; i++)
                {
                    double h = (firstX + (k * stepX)) * e;
                    double cube = h * h * h;
                    buffer[i] += height * (cube * cube * cube);
                    e *= ratio;
                    k++;
                }

                break;
        }

        _exponential = e;
        Next += buffer.Length;
    }
}
