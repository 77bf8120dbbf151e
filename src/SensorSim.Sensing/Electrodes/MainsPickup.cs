// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Electrodes;

/// <summary>The mains that couples into body and leads, as it stands between the inputs of the amplifier.</summary>
internal sealed class MainsPickup
{
    private readonly MainsCoupling _coupling;
    private readonly MainsWaves _mains;
    private readonly double[] _supplyMv;
    private double _seconds;
    private double _depth;
    private SampleStatus _off;
    private bool _isKnown;
    private Vector256<double> _sine;
    private Vector256<double> _cosine;

    private MainsPickup(KeyValues values, MainsWaves mains)
    {
        _coupling = new MainsCoupling(values);
        _mains = mains;
        double peak = 1e3 * Math.Sqrt(2.0) * _coupling.SupplyV;
        _supplyMv = [peak, peak * values[MainsKeys.SupplySecondPercent] * 0.01, peak * values[MainsKeys.SupplyThirdPercent] * 0.01];
    }

    private MainsPickup(MainsPickup other, MainsWaves mains)
    {
        _coupling = other._coupling;
        _mains = mains;
        _supplyMv = other._supplyMv;
        _seconds = other._seconds;
        _depth = other._depth;
        _off = other._off;
        _isKnown = other._isKnown;
        _sine = other._sine;
        _cosine = other._cosine;
    }

    /// <summary>The mains of a scenario; null when nothing lets it in.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="mains">The waves of the mains, which others may use too.</param>
    public static MainsPickup? Create(KeyValues values, MainsWaves mains) =>
        MainsCoupling.IsNeeded(values) ? new MainsPickup(values, mains) : null;

    /// <summary>Takes the values at a time.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="depth">Depth of the modulation, 0 to 1.</param>
    public void Latch(double seconds, double depth)
    {
        _seconds = seconds;
        _depth = depth;
        _isKnown = false;
    }

    /// <summary>Adds the mains to samples [mV].</summary>
    /// <param name="buffer">The samples.</param>
    /// <param name="firstIndex">Index of the first sample.</param>
    /// <param name="off">Electrodes without contact.</param>
    public void Add(Span<double> buffer, long firstIndex, SampleStatus off)
    {
        if (!_isKnown || off != _off)
        {
            Solve(off);
        }

        if (_sine != Vector256<double>.Zero || _cosine != Vector256<double>.Zero)
        {
            _mains.Add(buffer, firstIndex, _sine, _cosine, _depth);
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    /// <param name="mains">The copy of the waves.</param>
    public MainsPickup Copy(MainsWaves mains) => new(this, mains);

    private void Solve(SampleStatus off)
    {
        MainsNetwork network = _coupling.At(_seconds, off);
        for (int i = 0; i < _supplyMv.Length; i++)
        {
            Phasor input = network.Differential((i + 1) * _coupling.FrequencyHz);
            _sine = _sine.WithElement(i, _supplyMv[i] * input.Real);
            _cosine = _cosine.WithElement(i, _supplyMv[i] * input.Imaginary);
        }

        _off = off;
        _isKnown = true;
    }
}
