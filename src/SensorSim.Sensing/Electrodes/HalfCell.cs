// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The slow half-cell voltage between the electrodes: an offset, and what its drift has gathered since time 0.</summary>
internal sealed class HalfCell
{
    private const double TurnMv = 300;

    private readonly SampleGrid _grid;
    private readonly Course _offsetCourse;
    private readonly Course _driftCourse;
    private readonly bool _isDrifting;
    private double _offsetMv;
    private double _gatheredMv;
    private double _mvPerSecond;
    private double _latchSeconds;

    public HalfCell(KeyValues values, SampleGrid grid)
    {
        _grid = grid;
        _offsetCourse = values.Course(ElectrodeKeys.OffsetMv);
        _driftCourse = values.Course(ElectrodeKeys.OffsetDriftUvPerS);
        _isDrifting = ElectrodeInput.IsEver(_driftCourse);
    }

    /// <summary>Whether a scenario has any such voltage.</summary>
    public static bool IsNeeded(KeyValues values) =>
        ElectrodeInput.IsEver(values.Course(ElectrodeKeys.OffsetMv)) || ElectrodeInput.IsEver(values.Course(ElectrodeKeys.OffsetDriftUvPerS));

    /// <summary>Takes the values at a time; between two latches the drift is a straight line.</summary>
    public void Latch(double seconds)
    {
        _offsetMv = _offsetCourse.Value(seconds);
        if (_isDrifting)
        {
            _gatheredMv = _driftCourse.Integral(seconds) * 1e-3;
            _mvPerSecond = _driftCourse.Value(seconds) * 1e-3;
            _latchSeconds = seconds;
        }
    }

    /// <summary>The voltage at a time since the last latch [mV].</summary>
    public double Millivolts(double seconds) =>
        _isDrifting ? _offsetMv + Folded(_gatheredMv + (_mvPerSecond * (seconds - _latchSeconds))) : _offsetMv;

    public void Add(Span<double> buffer, long firstIndex)
    {
        for (int i = 0; i < buffer.Length; i++)
        {
            buffer[i] += _isDrifting ? Millivolts(_grid.Seconds(firstIndex + i)) : _offsetMv;
        }
    }

    public HalfCell Copy() => (HalfCell)MemberwiseClone();

    // A triangle between −300 and 300 mV: no electrode drifts without end.
    private static double Folded(double millivolts)
    {
        double place = (millivolts + TurnMv) / (4 * TurnMv);
        place = 4 * TurnMv * (place - Math.Floor(place));
        return place < 2 * TurnMv ? place - TurnMv : (3 * TurnMv) - place;
    }
}
