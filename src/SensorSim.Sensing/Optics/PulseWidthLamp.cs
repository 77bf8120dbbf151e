// SPDX-License-Identifier: MIT
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Optics;

/// <summary>A lamp dimmed by switching: a slot sees the share of its integration time during which the lamp is on.</summary>
internal sealed class PulseWidthLamp
{
    private readonly double _na;
    private readonly double _hz;
    private readonly double _duty;
    private readonly double _startTurns;
    private readonly double _windowTurns;

    /// <summary>Creates a lamp.</summary>
    /// <param name="na">Photocurrent while on [nA].</param>
    /// <param name="hz">Switching frequency [Hz].</param>
    /// <param name="duty">Share of time on, 0 to 1.</param>
    /// <param name="startTurns">Phase at time 0 [turns].</param>
    /// <param name="windowSeconds">Integration time, centred on the sampling instant [s].</param>
    public PulseWidthLamp(double na, double hz, double duty, double startTurns, double windowSeconds)
    {
        _na = na;
        _hz = hz;
        _duty = duty;
        _startTurns = startTurns;
        _windowTurns = hz * windowSeconds;
    }

    /// <summary>Adds the lamp's photocurrent [nA].</summary>
    public void Add(Span<double> buffer, in SampleGrid grid, long firstIndex)
    {
        if (_na == 0)
        {
            return;
        }

        double perTurn = _na / _windowTurns;
        for (int i = 0; i < buffer.Length; i++)
        {
            double begin = (_hz * grid.Seconds(firstIndex + i)) + _startTurns - (0.5 * _windowTurns);

            // Only the place within a turn matters; small numbers keep their digits over weeks.
            begin -= Math.Floor(begin);
            buffer[i] += perTurn * (OnTurns(begin + _windowTurns) - OnTurns(begin));
        }
    }

    // Time on since phase 0, in turns.
    private double OnTurns(double turns)
    {
        double whole = Math.Floor(turns);
        return (whole * _duty) + Math.Min(turns - whole, _duty);
    }
}
