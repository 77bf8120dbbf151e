// SPDX-License-Identifier: MIT
using SensorSim.Body.Movement;
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>A key that a scenario sets and that changes nothing in it.</summary>
/// <param name="Key">The key.</param>
/// <param name="Why">Why, and what would bring it in; without a full stop.</param>
public sealed record IdleKey(KeyDefinition Key, string Why)
{
    /// <summary>The whole sentence, without a full stop.</summary>
    public string Sentence => $"{Key.Name} has no effect: {Why}";
}

/// <summary>Finds keys that scale, shape or time something that never happens in a scenario: allowed, but hardly what was meant.</summary>
/// <remarks>
/// Told from the values and their courses alone, and only where no sample can depend on the key. Only keys that the scenario's own file, a study or the command line sets:
/// a sensor or a drawn person has properties that a still body never shows.
/// </remarks>
public static class IdleKeys
{
    private const string Still = "the body never moves; set movement.activity or another movement";

    /// <summary>The keys that change nothing, in a fixed order.</summary>
    /// <param name="scenario">The scenario.</param>
    public static IReadOnlyList<IdleKey> Of(Scenario scenario)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        KeyValues values = scenario.Values;
        bool isStill = new MovementIntensity(values).IsOff;
        var idle = new List<IdleKey>();
        foreach ((KeyDefinition key, string why) in Unmoved(values, isStill).Concat(Shapes(values)).Concat(Noise(values, isStill))
            .Concat(IdleRhythmKeys.Of(values)).Concat(IdleAmbientKeys.Of(values)))
        {
            // What is set to nothing is meant to do nothing.
            bool isNothing = key is NumberKey { HasDefault: true } number && values.Course(number).IsAlways(0);
            if (why.Length > 0 && scenario.Sets(key) && !isNothing)
            {
                idle.Add(new IdleKey(key, why));
            }
        }

        return idle;
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Unmoved(KeyValues values, bool isStill)
    {
        string still = isStill ? Still : "";
        string gait = isStill ? Still : WithoutSteps(values);
        yield return (MovementKeys.CadenceHz, gait);
        yield return (MovementKeys.CadencePerBeat, gait);
        yield return (MovementKeys.CadenceSpreadHz, gait);
        yield return (MovementKeys.StepVariationPercent, gait);
        yield return (MovementKeys.AmplitudeG, gait);
        yield return (OpticsKeys.MovementArtefactRatio, still);
        string artefact = isStill ? Still : Without(values, OpticsKeys.MovementArtefactRatio);
        yield return (TissueArtefactKeys.CoherencePercent, artefact);
        yield return (TissueArtefactKeys.ForwardPercent, artefact);
        yield return (TissueArtefactKeys.SidewaysPercent, artefact);
        yield return (TissueArtefactKeys.UpwardPercent, artefact);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Shapes(KeyValues values)
    {
        yield return (HandMovementKeys.GestureG, Without(values, HandMovementKeys.GesturesPerMin));
        yield return (HandMovementKeys.TapG, Without(values, HandMovementKeys.TapsPerMin));
        yield return (HandMovementKeys.TremorHz, Without(values, HandMovementKeys.TremorG));
        yield return (ElectrodeKeys.StepMvRms, Without(values, ElectrodeKeys.StepsPerMin));
        yield return (ElectrodeKeys.StepRecoveryS, Without(values, ElectrodeKeys.StepsPerMin));
        yield return (ElectrodeKeys.PopMvRms, Without(values, ElectrodeKeys.PopsPerMin));
        yield return (ElectrodeKeys.PopDecayMs, Without(values, ElectrodeKeys.PopsPerMin));
        yield return (ElectrodeKeys.ContactLossS, Without(values, ElectrodeKeys.ContactLossPerH));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Noise(KeyValues values, bool isStill)
    {
        string noBurst = Without(values, EcgNoiseKeys.MuscleBurstPerMin);
        yield return (EcgNoiseKeys.MuscleBurstUvRms, noBurst);
        yield return (EcgNoiseKeys.MuscleBurstSnrDb, noBurst);
        string noBurstLevel = WithoutLevel(values, EcgNoiseKeys.MuscleBurstUvRms, EcgNoiseKeys.MuscleBurstSnrDb);
        yield return (EcgNoiseKeys.MuscleBurstPerMin, noBurstLevel);
        yield return (EcgNoiseKeys.MuscleBurstS, noBurstLevel);
        foreach ((NumberKey level, NumberKey ratio, NumberKey rate, NumberKey restRate) in new[]
        {
            (EcgNoiseKeys.SlowMotionUvRms, EcgNoiseKeys.SlowMotionSnrDb, EcgNoiseKeys.SlowMotionPerMin, EcgNoiseKeys.SlowMotionRestPerMin),
            (EcgNoiseKeys.SharpMotionUvRms, EcgNoiseKeys.SharpMotionSnrDb, EcgNoiseKeys.SharpMotionPerMin, EcgNoiseKeys.SharpMotionRestPerMin),
        })
        {
            string noTransient = values[restRate] != 0 ? ""
                : values[rate] == 0 ? $"{rate.Name} and {restRate.Name} are 0"
                : isStill ? $"the body never moves; set movement.activity, or {restRate.Name} for transients at rest"
                : "";
            yield return (level, noTransient);
            yield return (ratio, noTransient);
            string noLevel = WithoutLevel(values, level, ratio);
            yield return (rate, noLevel);
            yield return (restRate, noLevel);
        }
    }

    // A body that types or rides, but takes no step. What is measured in shares of the gait's own strength depends on the gait all the same.
    private static string WithoutSteps(KeyValues values)
    {
        bool isScaled = Without(values, OpticsKeys.MovementArtefactRatio).Length == 0
            || WithoutLevel(values, EcgNoiseKeys.SlowMotionUvRms, EcgNoiseKeys.SlowMotionSnrDb).Length == 0
            || WithoutLevel(values, EcgNoiseKeys.SharpMotionUvRms, EcgNoiseKeys.SharpMotionSnrDb).Length == 0;
        return !isScaled && values.Course(MovementKeys.Activity).Words.All(w => w == "rest") ? "nobody walks or runs; set movement.activity" : "";
    }

    /// <summary>Why nothing comes of what a key scales or times; empty where something does.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="gate">The key that is 0 where nothing comes of it.</param>
    internal static string Without(KeyValues values, NumberKey gate) => values.Course(gate).IsAlways(0) ? $"{gate.Name} is 0" : "";

    private static string WithoutLevel(KeyValues values, NumberKey level, NumberKey ratio) =>
        values.Course(level).IsAlways(0) && !values.IsSet(ratio) && !values.IsChanging(ratio) ? $"neither {level.Name} nor {ratio.Name} is set" : "";
}
