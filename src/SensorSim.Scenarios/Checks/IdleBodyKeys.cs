// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;
using SensorSim.Body.Pressure;
using SensorSim.Body.Pulse;
using SensorSim.Body.Subject;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Checks;

/// <summary>Keys of person, artery, pressure and blood that nothing asks for; part of <see cref="IdleKeys"/>.</summary>
internal static class IdleBodyKeys
{
    private const double ReferenceTone = 2;

    /// <summary>The keys, each with the reason why it changes nothing; the reason is empty where it does.</summary>
    /// <param name="scenario">The scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Why)> Of(Scenario scenario) => Person(scenario).Concat(Arrival(scenario.Values)).Concat(Blood(scenario.Values));

    // Both only steer what else is drawn of a person; activities are as hard as the age makes them.
    private static IEnumerable<(KeyDefinition Key, string Why)> Person(Scenario scenario)
    {
        string nobody = scenario.Subject is null ? "nobody is drawn; set subject.seed" : "";
        yield return (SubjectKeys.AgeYears, scenario.ActivityCount > 0 ? "" : nobody);
        yield return (SubjectKeys.Sex, nobody);
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Arrival(KeyValues values)
    {
        string byKnob = IdleKeys.Unless(values, ArrivalKeys.From, "pressure");
        foreach (KeyDefinition key in ArteryKeys.All)
        {
            yield return (key, byKnob);
        }

        yield return (PulseKeys.ArrivalMs, IdleKeys.Unless(values, ArrivalKeys.From, "knob"));
        yield return (PressureKeys.TimeOfDayH, IdleKeys.Without(values, PressureKeys.CircadianDipPercent));
    }

    private static IEnumerable<(KeyDefinition Key, string Why)> Blood(KeyValues values)
    {
        bool hasGreen = OpticalSlots.HasGreen(values);
        string noGreen = hasGreen ? "" : $"{OpticsKeys.GreenNa.Name} is 0; set it";
        bool isToneless = values[SubjectKeys.SkinTone] == ReferenceTone;
        bool isMixed = !values.Course(OxygenKeys.CarboxyhaemoglobinPercent).IsAlways(0) || !values.Course(OxygenKeys.MethaemoglobinPercent).IsAlways(0);
        string byTable = isMixed || !isToneless || OxygenLaws.InForce(values) == OxygenLaw.Extinction ? ""
            : $"clean blood under skin of tone 2 depends on no wavelength unless by extinction; set {OxygenKeys.Law.Name} = \"extinction\"";
        yield return (OxygenKeys.VenousSaturationPercent, IdleKeys.Without(values, OxygenKeys.VenousSharePercent));
        yield return (OxygenKeys.SkinBiasPoints, isToneless ? $"{SubjectKeys.SkinTone.Name} is 2, the tone without bias; set another" : "");
        yield return (OxygenKeys.RedNm, byTable);
        yield return (OxygenKeys.InfraredNm, hasGreen ? "" : byTable);
        yield return (OxygenKeys.GreenNm, noGreen);
        yield return (OxygenKeys.GreenPathPercent, noGreen);
    }
}
