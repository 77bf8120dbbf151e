// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Optics;

/// <summary>Room light as one slot sees it: level, flicker at twice the mains frequency, a pulse-width lamp.</summary>
internal sealed class AmbientLight
{
    private readonly double _levelNa;
    private readonly double _flickerNa;
    private readonly Rotation _flicker;
    private readonly PulseWidthLamp _lamp;

    public AmbientLight(KeyValues values, ulong seed, WanderingPhase mains)
    {
        double windowSeconds = values[OpticsKeys.IntegrationUs] * 1e-6;
        _levelNa = values[AmbientKeys.LevelNa];

        // Integration over the slot averages the flicker: a factor sin(x)/x with x = π × frequency × window.
        double x = Math.PI * 2 * mains.FrequencyHz * windowSeconds;
        _flickerNa = _levelNa * values[AmbientKeys.FlickerPercent] * 0.01 * PortableMath.Sin(x) / x;
        _flicker = new Rotation(mains, 2);
        _lamp = new PulseWidthLamp(
            values[AmbientKeys.PulseWidthLampNa],
            values[AmbientKeys.PulseWidthHz],
            values[AmbientKeys.PulseWidthDutyPercent] * 0.01,
            new KeyedRandom(seed, "ambient.pulse_width_phase").Uniform(0),
            windowSeconds);
    }

    private AmbientLight(AmbientLight other)
    {
        _levelNa = other._levelNa;
        _flickerNa = other._flickerNa;
        _flicker = other._flicker.Copy();
        _lamp = other._lamp;
    }

    /// <summary>Adds the photocurrent [nA] of ambient light.</summary>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_levelNa != 0)
        {
            for (int i = 0; i < buffer.Length; i++)
            {
                buffer[i] += _levelNa;
            }
        }

        if (_flickerNa != 0)
        {
            _flicker.Add(buffer, grid, firstIndex, _flickerNa, 0);
        }

        _lamp.Add(buffer, grid, firstIndex);
    }

    /// <summary>An independent copy with the same state.</summary>
    public AmbientLight Copy() => new(this);
}
