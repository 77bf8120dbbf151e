// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of what never happens at the electrodes, and of mains that reaches nothing; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleElectrodeKeys
{
    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(KeyValues values) => Events(values).Concat(Contacts(values)).Concat(MainsOf(values));

    private static IEnumerable<(KeyDefinition Key, string Why)> Events(KeyValues values)
    {
        foreach ((NumberKey often, NumberKey size, NumberKey lasting) in new[]
        {
            (ElectrodeKeys.StepsPerMin, ElectrodeKeys.StepMvRms, ElectrodeKeys.StepRecoveryS),
            (ElectrodeKeys.PopsPerMin, ElectrodeKeys.PopMvRms, ElectrodeKeys.PopDecayMs),
        })
        {
            (string never, string noSize) = (IdleKeys.Without(values, often), IdleKeys.Without(values, size));
            yield return (often, noSize);
            yield return (size, never);
            yield return (lasting, IdleKeys.First(never, noSize));
        }

        string noOverload = values.IsSet(ElectrodeKeys.OverloadAtS) || !values.Course(ElectrodeKeys.OverloadPerH).IsAlways(0) ? ""
            : $"{ElectrodeKeys.OverloadPerH.Name} is 0; set it or {ElectrodeKeys.OverloadAtS.Name}";
        string noVoltage = IdleKeys.Without(values, ElectrodeKeys.OverloadMv);
        yield return (ElectrodeKeys.OverloadAtS, noVoltage);
        yield return (ElectrodeKeys.OverloadPerH, noVoltage);
        yield return (ElectrodeKeys.OverloadMv, noOverload);
        yield return (ElectrodeKeys.OverloadRecoveryS, IdleKeys.First(noOverload, noVoltage));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Contacts(KeyValues values)
    {
        string noLoss = IdleKeys.Without(values, ElectrodeKeys.ContactLossPerH);

        // Only the two inputs go to a rail.
        bool isOff = values.Course(ElectrodeKeys.Off).Words.Any(w => w is "positive" or "negative");
        yield return (ElectrodeKeys.ContactLossS, noLoss);
        yield return (ElectrodeKeys.RailMs, noLoss.Length == 0 || isOff ? ""
            : $"no input loses contact; set {ElectrodeKeys.Off.Name} or {ElectrodeKeys.ContactLossPerH.Name}");
        bool isThirdOff = noLoss.Length == 0 || values.Course(ElectrodeKeys.Off).Words.Contains("third");
        yield return (ElectrodeKeys.Third, isThirdOff ? "" : WithoutCommonMode(values));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> MainsOf(KeyValues values)
    {
        string noCoupling = WithoutCoupling(values);
        string noCommon = WithoutCommonMode(values);
        string noDrive = IdleKeys.First(noCommon, IdleKeys.Unless(values, ElectrodeKeys.Third, "driven"));
        string noThird = values[ElectrodeKeys.Third] == "none" ? $"{ElectrodeKeys.Third.Name} is \"none\"; set another" : "";
        string noDirect = IdleKeys.WithoutLevel(values, EcgAmplifierKeys.MainsUvPp, EcgNoiseKeys.MainsSnrDb);
        string noMains = noCoupling.Length == 0 || noDirect.Length == 0 ? ""
            : $"no mains is in the ECG; set {EcgAmplifierKeys.MainsUvPp.Name} or {MainsKeys.BodyCouplingPf.Name}";
        string noFlicker = IdleAmbientKeys.WithoutFlicker(values);
        string nowhere = noMains.Length == 0 || noFlicker.Length == 0 ? ""
            : $"mains is neither in the ECG nor in the light; set {EcgAmplifierKeys.MainsUvPp.Name}, {MainsKeys.BodyCouplingPf.Name} or {AmbientKeys.LevelLux.Name}";
        yield return (ElectrodeKeys.ImpedancePositiveKohm, noCoupling);
        yield return (ElectrodeKeys.ImpedanceNegativeKohm, noCoupling);
        yield return (ElectrodeKeys.ImpedanceThirdKohm, IdleKeys.First(noCommon, noThird));
        yield return (ElectrodeKeys.DriveGainDb, noDrive);
        yield return (EcgAmplifierKeys.CmrrDb, noCommon);
        yield return (EcgAmplifierKeys.CommonModeKohm, noCoupling);
        yield return (EcgAmplifierKeys.MainsSecondPercent, noDirect);
        yield return (EcgAmplifierKeys.MainsThirdPercent, noDirect);
        yield return (MainsKeys.FrequencyHz, nowhere);
        yield return (MainsKeys.WanderHz, nowhere);
        yield return (MainsKeys.SupplyV, noCoupling);
        yield return (MainsKeys.SupplySecondPercent, noCoupling);
        yield return (MainsKeys.SupplyThirdPercent, noCoupling);
        yield return (MainsKeys.BodyCouplingPf, IdleKeys.Without(values, MainsKeys.DeviceEarthPf));
        yield return (MainsKeys.BodyEarthPf, noCommon);
        yield return (MainsKeys.DeviceEarthPf, noCommon);
        yield return (MainsKeys.ModulationPercent, noMains);
        yield return (MainsKeys.ModulationHz, IdleKeys.First(noMains, IdleKeys.Without(values, MainsKeys.ModulationPercent)));
    }

    // What comes through the body closes its circuit through the device's own capacitance to earth; what comes through the leads does not.
    private static string WithoutCommonMode(KeyValues values) =>
        IdleKeys.First(IdleKeys.Without(values, MainsKeys.BodyCouplingPf), IdleKeys.Without(values, MainsKeys.DeviceEarthPf));

    private static string WithoutCoupling(KeyValues values)
    {
        if (!values.Course(MainsKeys.LeadCouplingPf).IsAlways(0))
        {
            return "";
        }

        return values.Course(MainsKeys.BodyCouplingPf).IsAlways(0) ? $"{MainsKeys.BodyCouplingPf.Name} and {MainsKeys.LeadCouplingPf.Name} are 0; set one of them" : WithoutCommonMode(values);
    }
}
