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
    // Some sections hold knobs of several models: they are gathered in the order in which their sections first come.
    private static readonly KeyDefinition[] s_byModel =
    [
        .. SubjectKeys.All, .. SiteKeys.All, .. HeartKeys.All, .. EctopyKeys.All, .. BlockKeys.All, .. AtrialArrhythmiaKeys.All, .. AtrialKeys.All,
        .. VentricularFibrillationKeys.All, .. VentricularKeys.All, .. PacingKeys.All, .. EcgKeys.All, .. PulseKeys.All, .. ArrivalKeys.All,
        .. EjectionKeys.All, .. ArteryKeys.All, .. PressureKeys.All, .. OxygenKeys.All, .. BreathingKeys.All, .. MovementKeys.All,
    ];

    /// <summary>Every knob of the body; those of one section stand together.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [.. s_byModel.GroupBy(k => k.Section, StringComparer.Ordinal).SelectMany(section => section)];
}
