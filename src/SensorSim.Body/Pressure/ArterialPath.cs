// SPDX-License-Identifier: MIT
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Pressure;

/// <summary>How far the pulse runs from the aortic valve to the sensor.</summary>
/// <remarks>
/// A share of the height for each site. Finger and ear: so that Q wave to pulse at 65 bpm and 80 mmHg diastolic comes out at the 245
/// and 174 ms of Jago and Murray 1988 with the default artery. Wrist: the finger's less a hand of 0.11 of the height. Chest: choice of this
/// project. They are paths at the one speed of the model; the true ones are shorter, with slower small arteries at their end.
/// </remarks>
public static class ArterialPath
{
    /// <summary>Length of the path [m]: the knob when set, else the share of the height.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static double Metres(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return values.IsSet(ArteryKeys.PathM) ? values[ArteryKeys.PathM] : Share(values[SiteKeys.Site]) * values[SubjectKeys.HeightM];
    }

    private static double Share(string site) => site switch
    {
        "finger" => 0.57,
        "wrist" => 0.46,
        "ear" => 0.28,
        "chest" => 0.15,
        _ => throw new ArgumentOutOfRangeException(nameof(site), site, "No arterial path is known for this site."),
    };
}
