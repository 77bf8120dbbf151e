// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of movements that never come, and of what they do to the light; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleMovementKeys
{
    private static readonly (NumberKey Often, NumberKey Size)[] s_events =
    [
        (HandMovementKeys.GesturesPerMin, HandMovementKeys.GestureG), (HandMovementKeys.TapsPerMin, HandMovementKeys.TapG),
    ];

    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values)
    {
        string still = Still(values);
        bool isScale = IsGaitScale(values);
        string gait = IdleKeys.First(still, isScale ? "" : WithoutGait(values));
        string artefact = IdleKeys.First(still, IdleKeys.Without(values, OpticsKeys.MovementArtefactRatio));
        yield return (MovementKeys.Activity, isScale ? "" : WithoutSize(values));
        yield return (MovementKeys.CadenceHz, gait);
        yield return (MovementKeys.CadencePerBeat, gait);
        yield return (MovementKeys.CadenceSpreadHz, gait);
        yield return (MovementKeys.StepVariationPercent, gait);
        yield return (MovementKeys.AmplitudeG, gait);
        yield return (OpticsKeys.MovementArtefactRatio, still);
        yield return (TissueArtefactKeys.CoherencePercent, artefact);
        yield return (TissueArtefactKeys.ForwardPercent, artefact);
        yield return (TissueArtefactKeys.SidewaysPercent, artefact);
        yield return (TissueArtefactKeys.UpwardPercent, artefact);
        foreach ((NumberKey often, NumberKey size) in s_events)
        {
            yield return (size, IdleKeys.Without(values, often));
            yield return (often, IdleKeys.Without(values, size));
        }

        yield return (HandMovementKeys.TremorHz, IdleKeys.Without(values, HandMovementKeys.TremorG));
    }

    /// <summary>Why the body never moves, and what would move it; empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="orElse">What would help as well.</param>
    public static string Still(KeyValues values, string orElse = " or another movement")
    {
        NumberKey[] steady = [HandMovementKeys.TypingG, HandMovementKeys.TremorG, HandMovementKeys.VehicleGRms];
        if (WithoutGait(values).Length == 0 || steady.Any(k => !values.Course(k).IsAlways(0)) || s_events.Any(e => e is var (often, size)
            && !values.Course(often).IsAlways(0) && !values.Course(size).IsAlways(0)))
        {
            return "";
        }

        // Something is to move, but by nothing: its size is what is missing.
        NumberKey? sizeless = WithoutSize(values).Length > 0 ? MovementKeys.AmplitudeG
            : s_events.Where(e => !values.Course(e.Often).IsAlways(0)).Select(e => e.Size).FirstOrDefault();
        return sizeless is null ? $"the body never moves; set {MovementKeys.Activity.Name}{orElse}" : $"the body never moves, for {sizeless.Name} is 0; set it{orElse}";
    }

    private static string WithoutGait(KeyValues values) =>
        values.Course(MovementKeys.Activity).Words.All(w => w == "rest") ? $"nobody walks or runs; set {MovementKeys.Activity.Name}" : WithoutSize(values);

    private static string WithoutSize(KeyValues values) =>
        values.Course(MovementKeys.Activity).Words.Any(w => w != "rest") ? IdleKeys.Without(values, MovementKeys.AmplitudeG) : "";

    // What is measured in shares of the gait's own strength depends on the gait though nobody takes a step.
    private static bool IsGaitScale(KeyValues values) =>
        IdleKeys.Without(values, OpticsKeys.MovementArtefactRatio).Length == 0
        || IdleKeys.WithoutLevel(values, EcgNoiseKeys.SlowMotionUvRms, EcgNoiseKeys.SlowMotionSnrDb).Length == 0
        || IdleKeys.WithoutLevel(values, EcgNoiseKeys.SharpMotionUvRms, EcgNoiseKeys.SharpMotionSnrDb).Length == 0;
}
