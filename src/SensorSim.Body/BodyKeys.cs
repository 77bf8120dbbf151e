// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;

namespace SensorSim.Body;

/// <summary>Every knob of the body.</summary>
public static class BodyKeys
{
    /// <summary>Every knob of the body, by section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } =
    [
        .. SubjectKeys.All, .. SiteKeys.All, .. HeartKeys.All, .. EctopyKeys.All, .. BlockKeys.All, .. AtrialArrhythmiaKeys.All,
        .. VentricularKeys.All, .. EcgKeys.All, .. PulseKeys.All, .. ArrivalKeys.All,
        .. EjectionKeys.All, .. ArteryKeys.All, .. PressureKeys.All, .. OxygenKeys.All, .. BreathingKeys.All, .. MovementKeys.All,
    ];
}
