// SPDX-License-Identifier: MIT
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Ecg;

/// <summary>Makes pacing spikes from their knobs.</summary>
internal sealed class SpikeShape
{
    private readonly Course _mv;
    private readonly Course _ms;
    private readonly double _sign;

    public SpikeShape(KeyValues values)
    {
        _mv = values.Course(PacingKeys.SpikeMv);
        _ms = values.Course(PacingKeys.SpikeMs);
        _sign = EcgShape.PolaritySign(values);
    }

    /// <summary>Whether any beat of a scenario can have a spike.</summary>
    public static bool IsNeeded(KeyValues values) => values.Course(HeartKeys.Rhythm).Words.Any(w => w is "paced" or "scripted");

    /// <summary>A spike that begins at a time.</summary>
    /// <param name="seconds">The time [s].</param>
    public PacingSpike Lay(double seconds) => new(seconds, _ms.Value(seconds) * 1e-3, _sign * _mv.Value(seconds));
}
