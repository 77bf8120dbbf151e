// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of room light that is not there, or of what never happens to it; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleAmbientKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values)
    {
        string noLux = IdleKeys.Without(values, AmbientKeys.LevelLux);
        string noMains = noLux.Length > 0 && IdleKeys.Without(values, AmbientKeys.LevelNa).Length > 0
            ? $"{AmbientKeys.LevelNa.Name} and {AmbientKeys.LevelLux.Name} are 0" : "";
        string noFlicker = noMains.Length > 0 ? noMains : IdleKeys.Without(values, AmbientKeys.FlickerPercent);
        yield return (AmbientKeys.NaPerLux, noLux);
        yield return (AmbientKeys.FlickerPercent, noMains);
        yield return (AmbientKeys.FlickerSecondPercent, noFlicker);
        yield return (AmbientKeys.FlickerThirdPercent, noFlicker);
        yield return (AmbientChangeKeys.LampSwitchPerMin, noMains);

        string noLamp = IdleKeys.Without(values, AmbientKeys.PulseWidthLampNa);
        yield return (AmbientKeys.PulseWidthHz, noLamp);
        yield return (AmbientKeys.PulseWidthDutyPercent, noLamp);

        string noDaylight = IdleKeys.Without(values, AmbientChangeKeys.DaylightLux);
        string noShade = noDaylight.Length > 0 ? noDaylight : IdleKeys.Without(values, AmbientChangeKeys.ShadePerMin);
        yield return (AmbientChangeKeys.DaylightNaPerLux, noDaylight);
        yield return (AmbientChangeKeys.ShadePerMin, noDaylight);
        yield return (AmbientChangeKeys.ShadeDepthPercent, noShade);
        yield return (AmbientChangeKeys.ShadeRampS, noShade);

        string noLight = noMains.Length > 0 && noLamp.Length > 0 && noDaylight.Length > 0
            ? $"there is no room light; set {AmbientKeys.LevelLux.Name}, {AmbientChangeKeys.DaylightLux.Name} or {AmbientKeys.PulseWidthLampNa.Name}" : "";
        yield return (AmbientChangeKeys.HandPerMin, noLight);
        yield return (AmbientChangeKeys.HandDepthPercent, noLight.Length > 0 ? noLight : IdleKeys.Without(values, AmbientChangeKeys.HandPerMin));
    }
}
