// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of muscle bursts and electrode motion that never come or have no strength; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleNoiseKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values)
    {
        string noBurst = IdleKeys.Without(values, EcgNoiseKeys.MuscleBurstPerMin);
        string noBurstLevel = IdleKeys.WithoutLevel(values, EcgNoiseKeys.MuscleBurstUvRms, EcgNoiseKeys.MuscleBurstSnrDb);
        yield return (EcgNoiseKeys.MuscleBurstUvRms, noBurst);
        yield return (EcgNoiseKeys.MuscleBurstSnrDb, noBurst);
        yield return (EcgNoiseKeys.MuscleBurstPerMin, noBurstLevel);
        yield return (EcgNoiseKeys.MuscleBurstS, IdleKeys.First(noBurstLevel, noBurst));
        foreach ((NumberKey level, NumberKey ratio, NumberKey rate, NumberKey restRate) in new[]
        {
            (EcgNoiseKeys.SlowMotionUvRms, EcgNoiseKeys.SlowMotionSnrDb, EcgNoiseKeys.SlowMotionPerMin, EcgNoiseKeys.SlowMotionRestPerMin),
            (EcgNoiseKeys.SharpMotionUvRms, EcgNoiseKeys.SharpMotionSnrDb, EcgNoiseKeys.SharpMotionPerMin, EcgNoiseKeys.SharpMotionRestPerMin),
        })
        {
            // With transients at rest the rate in movement acts even on a still body: with a set level fewer are larger.
            string noTransient = values[restRate] != 0 ? ""
                : values[rate] == 0 ? $"{rate.Name} and {restRate.Name} are 0; set one of them"
                : IdleMovementKeys.Still(values, $", or {restRate.Name} for transients at rest");
            string noLevel = IdleKeys.WithoutLevel(values, level, ratio);
            yield return (level, noTransient);
            yield return (ratio, noTransient);
            yield return (rate, IdleKeys.First(noLevel, noTransient));
            yield return (restRate, noLevel);
        }
    }
}
