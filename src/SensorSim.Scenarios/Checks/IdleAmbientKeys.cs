// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of room light that is not there, or of what never happens to it; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleAmbientKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values) => Mains(values).Concat(Daylight(values)).Concat(Hands(values));

    /// <summary>Why no light flickers with the mains; empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static string WithoutFlicker(KeyValues values) => IdleKeys.First(WithoutMains(values), IdleKeys.Without(values, AmbientKeys.FlickerPercent));

    /// <summary>Why there is no room light of any kind; empty where there is.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static string WithoutLight(KeyValues values) =>
        WithoutMains(values).Length > 0 && WithoutDaylight(values).Length > 0 && IdleKeys.Without(values, AmbientKeys.PulseWidthLampNa).Length > 0
            ? $"there is no room light; set {AmbientKeys.LevelLux.Name}, {AmbientChangeKeys.DaylightLux.Name} or {AmbientKeys.PulseWidthLampNa.Name}" : "";

    private static IEnumerable<(KeyDefinition Key, string Why)> Mains(KeyValues values)
    {
        string noMains = WithoutMains(values);
        string noFlicker = WithoutFlicker(values);
        string noLamp = IdleKeys.Without(values, AmbientKeys.PulseWidthLampNa);
        yield return (AmbientKeys.LevelLux, IdleKeys.Without(values, AmbientKeys.NaPerLux));
        yield return (AmbientKeys.NaPerLux, IdleKeys.Without(values, AmbientKeys.LevelLux));
        yield return (AmbientKeys.FlickerPercent, noMains);
        yield return (AmbientKeys.FlickerSecondPercent, noFlicker);
        yield return (AmbientKeys.FlickerThirdPercent, noFlicker);
        yield return (AmbientChangeKeys.LampSwitchPerMin, noMains);
        yield return (AmbientKeys.PulseWidthHz, noLamp);
        yield return (AmbientKeys.PulseWidthDutyPercent, noLamp);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Daylight(KeyValues values)
    {
        string noDaylight = WithoutDaylight(values);
        string noDepth = IdleKeys.Without(values, AmbientChangeKeys.ShadeDepthPercent);
        string noShade = IdleKeys.First(noDaylight, IdleKeys.Without(values, AmbientChangeKeys.ShadePerMin));
        yield return (AmbientChangeKeys.DaylightLux, IdleKeys.Without(values, AmbientChangeKeys.DaylightNaPerLux));
        yield return (AmbientChangeKeys.DaylightNaPerLux, IdleKeys.Without(values, AmbientChangeKeys.DaylightLux));
        yield return (AmbientChangeKeys.ShadePerMin, IdleKeys.First(noDaylight, noDepth));
        yield return (AmbientChangeKeys.ShadeDepthPercent, noShade);
        yield return (AmbientChangeKeys.ShadeRampS, IdleKeys.First(noShade, noDepth));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Hands(KeyValues values)
    {
        string noLight = WithoutLight(values);
        yield return (AmbientChangeKeys.HandPerMin, IdleKeys.First(noLight, IdleKeys.Without(values, AmbientChangeKeys.HandDepthPercent)));
        yield return (AmbientChangeKeys.HandDepthPercent, IdleKeys.First(noLight, IdleKeys.Without(values, AmbientChangeKeys.HandPerMin)));
    }

    private static string WithoutMains(KeyValues values)
    {
        if (IdleKeys.Without(values, AmbientKeys.LevelNa).Length == 0)
        {
            return "";
        }

        return IdleKeys.Without(values, AmbientKeys.LevelLux).Length > 0
            ? $"{AmbientKeys.LevelNa.Name} and {AmbientKeys.LevelLux.Name} are 0; set one of them"
            : IdleKeys.Without(values, AmbientKeys.NaPerLux);
    }

    private static string WithoutDaylight(KeyValues values) =>
        IdleKeys.First(IdleKeys.Without(values, AmbientChangeKeys.DaylightLux), IdleKeys.Without(values, AmbientChangeKeys.DaylightNaPerLux));
}
