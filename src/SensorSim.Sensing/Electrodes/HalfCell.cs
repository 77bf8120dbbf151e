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
            AddLine(buffer.Slice(i, 1), firstIndex + i, Fold(Gathered(_grid.Seconds(firstIndex + i))));
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

    // Samples that all lie in one fold: a line over the sample's index, four at a time and the rest one by one, the same operations.
    private void AddLine(Span<double> buffer, long firstIndex, double fold)
    {
        double sign = ((long)fold & 1) == 0 ? 1 : -1;
        double atZero = _offsetMv + (sign * (Gathered(_grid.StartSeconds) - (2 * TurnMv * fold)));
        double perSample = sign * _mvPerSecond * _grid.StepSeconds;
        Vector256<double> index = Vector256.Create((double)firstIndex) + Vector256.Create(0.0, 1, 2, 3);
        var from = Vector256.Create(atZero);
        var step = Vector256.Create(perSample);
        var on = Vector256.Create((double)Vector256<double>.Count);
        ref double b = ref MemoryMarshal.GetReference(buffer);
        int whole = buffer.Length & -Vector256<double>.Count;
        for (nuint i = 0; i < (nuint)(uint)whole; i += (nuint)Vector256<double>.Count)
        {
            (Vector256.LoadUnsafe(ref b, i) + (from + (index * step))).StoreUnsafe(ref b, i);
            index += on;
        }

        for (int i = whole; i < buffer.Length; i++)
        {
            buffer[i] += atZero + ((firstIndex + i) * perSample);
        }
    }
}
