// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Breathing;

/// <summary>Breathing as one oscillation of steady depth and wandering rate, shared by everything that breathing moves.</summary>
public sealed class BreathingModel
{
    /// <summary>Creates breathing from its knobs.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="seed">Seed of the scenario.</param>
    public BreathingModel(KeyValues values, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(values);

        // The rate wanders over one to ten minutes: slow against a breath, so that depth stays the same and the line widens.
        Phase = new WanderingPhase(
            new KeyedRandom(seed, "breathing.phase"),
            values.Course(BreathingKeys.RatePerMin).Scaled(1.0 / 60),
            values[BreathingKeys.SpreadPerMin] / 60,
            0.0017,
            0.017);
    }

    /// <summary>Phase of breathing.</summary>
    public WanderingPhase Phase { get; }

    /// <summary>How far the lungs are filled, −1 (out) to +1 (in).</summary>
    /// <param name="seconds">Body time [s].</param>
    public double Depth(double seconds)
    {
        PortableMath.SinCosTurns(Phase.Turns(seconds), out double sin, out _);
        return sin;
    }
}
