// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The voltages that the electrodes themselves add to the ECG: half-cell voltage, its steps, pops, overloads.</summary>
internal sealed class ElectrodeInput
{
    private const double PerMinute = 1 / 60.0;
    private const double PerHour = 1 / 3600.0;

    // Candidates come so often that thinning is mild even at the highest rate that a knob allows.
    private const double StepCandidates = 2;
    private const double PopCandidates = 4;
    private const double OverloadCandidates = 1.0 / 30;

    private readonly HalfCell? _halfCell;
    private readonly DecayingEvents? _steps;
    private readonly DecayingEvents? _pops;
    private readonly DecayingEvents? _overloads;
    private readonly Course _stepRate;
    private readonly Course _stepSize;
    private readonly Course _popRate;
    private readonly Course _popSize;
    private readonly Course _overloadRate;
    private readonly double _overloadMv;
    private double _stepsPerSecond;
    private double _stepMv;
    private double _popsPerSecond;
    private double _popMv;
    private double _overloadsPerSecond;

    private ElectrodeInput(KeyValues values, ulong seed, SampleGrid grid, double rateHz)
    {
        _stepRate = values.Course(ElectrodeKeys.StepsPerMin);
        _stepSize = values.Course(ElectrodeKeys.StepMvRms);
        _popRate = values.Course(ElectrodeKeys.PopsPerMin);
        _popSize = values.Course(ElectrodeKeys.PopMvRms);
        _overloadRate = values.Course(ElectrodeKeys.OverloadPerH);
        _overloadMv = values[ElectrodeKeys.OverloadMv];
        _halfCell = HalfCell.IsNeeded(values) ? new HalfCell(values, grid) : null;
        if (!_stepRate.IsAlways(0))
        {
            _steps = new DecayingEvents(
                new KeyedRandom(seed, "electrodes.steps"), grid, rateHz, values[ElectrodeKeys.StepRecoveryS], StepCandidates, isSizeDrawn: true);
        }

        if (!_popRate.IsAlways(0))
        {
            _pops = new DecayingEvents(
                new KeyedRandom(seed, "electrodes.pops"), grid, rateHz, values[ElectrodeKeys.PopDecayMs] * 1e-3, PopCandidates, isSizeDrawn: true);
        }

        if (HasOverloads(values))
        {
            _overloads = new DecayingEvents(
                new KeyedRandom(seed, "electrodes.overloads"),
                grid,
                rateHz,
                values[ElectrodeKeys.OverloadRecoveryS],
                !_overloadRate.IsAlways(0) ? OverloadCandidates : 0,
                isSizeDrawn: false,
                values.IsSet(ElectrodeKeys.OverloadAtS) ? values[ElectrodeKeys.OverloadAtS] : double.NaN);
        }
    }

    private ElectrodeInput(ElectrodeInput other)
    {
        _halfCell = other._halfCell?.Copy();
        _steps = other._steps?.Copy();
        _pops = other._pops?.Copy();
        _overloads = other._overloads?.Copy();
        _stepRate = other._stepRate;
        _stepSize = other._stepSize;
        _popRate = other._popRate;
        _popSize = other._popSize;
        _overloadRate = other._overloadRate;
        _overloadMv = other._overloadMv;
        _stepsPerSecond = other._stepsPerSecond;
        _stepMv = other._stepMv;
        _popsPerSecond = other._popsPerSecond;
        _popMv = other._popMv;
        _overloadsPerSecond = other._overloadsPerSecond;
    }

    /// <summary>The voltages of a scenario; null when there are none.</summary>
    public static ElectrodeInput? Create(KeyValues values, ulong seed, SampleGrid grid, double rateHz) =>
        HalfCell.IsNeeded(values) || !values.Course(ElectrodeKeys.StepsPerMin).IsAlways(0) || !values.Course(ElectrodeKeys.PopsPerMin).IsAlways(0) || HasOverloads(values)
            ? new ElectrodeInput(values, seed, grid, rateHz)
            : null;

    public void Latch(double seconds)
    {
        _halfCell?.Latch(seconds);
        _stepsPerSecond = _stepRate.Value(seconds) * PerMinute;
        _stepMv = _stepSize.Value(seconds);
        _popsPerSecond = _popRate.Value(seconds) * PerMinute;
        _popMv = _popSize.Value(seconds);
        _overloadsPerSecond = _overloadRate.Value(seconds) * PerHour;
    }

    /// <summary>Slow voltage at a time since the last latch, what a high-pass has long forgotten [mV].</summary>
    public double SteadyMv(double seconds) => _halfCell?.Millivolts(seconds) ?? 0;

    public void Add(Span<double> buffer, long firstIndex)
    {
        _halfCell?.Add(buffer, firstIndex);
        _steps?.Add(buffer, firstIndex, _stepsPerSecond, _stepMv);
        _pops?.Add(buffer, firstIndex, _popsPerSecond, _popMv);
        _overloads?.Add(buffer, firstIndex, _overloadsPerSecond, _overloadMv);
    }

    public ElectrodeInput Copy() => new(this);

    private static bool HasOverloads(KeyValues values) =>
        values.IsSet(ElectrodeKeys.OverloadAtS) || !values.Course(ElectrodeKeys.OverloadPerH).IsAlways(0);
}
