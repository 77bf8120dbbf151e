// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>How breathing changes the heights of a beat's waves: all alike, and each by the turn of the heart's axis.</summary>
/// <remarks>
/// Inspiration (depth 1) lowers every wave by <c>ecg.respiratory_amplitude_percent</c>. It turns the heart's axis by
/// <c>ecg.respiratory_axis_deg</c>: a wave whose mean direction lies at φ to the lead is seen as cos(φ + turn) / cos φ of its height at
/// rest, so that waves of different directions change differently. Directions to the lead: P 10°, Q 145°, R −15°, S −140°, T and segment 20°.
/// That breathing turns the axis: known of ECG-derived respiration (Moody et al. 1985, from memory); the directions are a choice of this
/// project.
/// </remarks>
internal sealed class RespiratoryTurn
{
    // tan φ of P, Q, R, S, segment, T.
    private static readonly double[] Tangents = [0.17633, -0.70021, -0.26795, 0.83910, 0.36397, 0.36397];

    private readonly Course _percent;
    private readonly Course _degrees;
    private readonly bool _isOn;

    public RespiratoryTurn(KeyValues values)
    {
        _percent = values.Course(EcgKeys.RespiratoryAmplitudePercent);
        _degrees = values.Course(EcgKeys.RespiratoryAxisDeg);
        _isOn = !(_percent.IsConstant && _percent.BaseValue == 0 && _degrees.IsConstant && _degrees.BaseValue == 0);
    }

    /// <summary>Changes the heights of a beat's waves.</summary>
    /// <param name="beat">The beat.</param>
    /// <param name="seconds">When the beat is [s]: the knobs have their value of that time.</param>
    /// <param name="depth">Breathing depth, −1 to 1.</param>
    public void Apply(ref EcgBeat beat, double seconds, double depth)
    {
        if (!_isOn)
        {
            return;
        }

        double size = 1 - (0.01 * _percent.Value(seconds) * depth);
        PortableMath.SinCosTurns(_degrees.Value(seconds) * depth / 360, out double sin, out double cos);
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            EcgWave wave = beat[i];
            beat[i] = wave with { Millivolts = wave.Millivolts * (size * (cos - (Tangents[i] * sin))) };
        }
    }
}
