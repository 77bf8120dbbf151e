// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
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
        _isDrifting = !_driftCourse.IsAlways(0);
    }

    /// <summary>Whether a scenario has any such voltage.</summary>
    public static bool IsNeeded(KeyValues values) =>
        !values.Course(ElectrodeKeys.OffsetMv).IsAlways(0) || !values.Course(ElectrodeKeys.OffsetDriftUvPerS).IsAlways(0);

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
    public double Millivolts(double seconds)
    {
        double gathered = Gathered(seconds);
        return _offsetMv + Folded(gathered, Fold(gathered));
    }

    public void Add(Span<double> buffer, long firstIndex)
    {
        if (!_isDrifting)
        {
            SpanLanes.Add(buffer, _offsetMv);
            return;
        }

        // The line is monotone: where both ends lie in one fold, all samples do.
        double fold = Fold(Gathered(_grid.Seconds(firstIndex)));
        bool isOne = fold == Fold(Gathered(_grid.Seconds(firstIndex + buffer.Length - 1)));
        if (isOne)
        {
            AddLine(buffer, firstIndex, fold);
            return;
        }

        for (int i = 0; i < buffer.Length; i++)
        {
            double gathered = Gathered(_grid.Seconds(firstIndex + i));
            buffer[i] += _offsetMv + Folded(gathered, Fold(gathered));
        }
    }

    public HalfCell Copy() => (HalfCell)MemberwiseClone();

    // A triangle between −300 and 300 mV, since no electrode drifts without end: even folds rise, odd ones fall.
    private static double Fold(double millivolts) => Math.Floor((millivolts + TurnMv) / (2 * TurnMv));

    private static double Folded(double millivolts, double fold)
    {
        double rest = millivolts - (2 * TurnMv * fold);
        return ((long)fold & 1) == 0 ? rest : -rest;
    }

    private double Gathered(double seconds) => _gatheredMv + (_mvPerSecond * (seconds - _latchSeconds));

    // Samples that all lie in one fold: four at a time, the same operations as one by one.
    private void AddLine(Span<double> buffer, long firstIndex, double fold)
    {
        double turns = 2 * TurnMv * fold;
        double sign = ((long)fold & 1) == 0 ? 1 : -1;
        Vector256<double> index = Vector256.Create((double)firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        int done = 0;
        foreach (ref Vector256<double> four in MemoryMarshal.Cast<double, Vector256<double>>(buffer))
        {
            Vector256<double> seconds = Vector256.Create(_grid.StartSeconds) + (index * _grid.StepSeconds);
            Vector256<double> gathered = Vector256.Create(_gatheredMv) + (_mvPerSecond * (seconds - Vector256.Create(_latchSeconds)));
            four += Vector256.Create(_offsetMv) + (sign * (gathered - Vector256.Create(turns)));
            index += Vector256.Create((double)Vector256<double>.Count);
            done += Vector256<double>.Count;
        }

        for (; done < buffer.Length; done++)
        {
            buffer[done] += _offsetMv + Folded(Gathered(_grid.Seconds(firstIndex + done)), fold);
        }
    }
}
