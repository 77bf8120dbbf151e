// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Oxygen;

/// <summary>How saturation becomes the ratio of red to infrared pulse height.</summary>
public enum OxygenLaw
{
    /// <summary>By a calibration table.</summary>
    CalibrationTable,

    /// <summary>By extinction coefficients and the Beer-Lambert law.</summary>
    Extinction,

    /// <summary>The ratio is given; saturation is what the calibration table says for it.</summary>
    GivenRatio,
}

/// <summary>Which law is in force, and which keys contradict it.</summary>
public static class OxygenLaws
{
    private static readonly NumberKey[] s_throughSaturation =
    [
        OxygenKeys.SaturationPercent, OxygenKeys.CarboxyhaemoglobinPercent, OxygenKeys.MethaemoglobinPercent,
        OxygenKeys.VenousSharePercent, OxygenKeys.VenousSaturationPercent, OxygenKeys.SkinBiasPoints,
    ];

    /// <summary>The law in force: the one that is set; when none is, a given pulse.ratio_of_ratios wins, else the calibration table.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static OxygenLaw InForce(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (!values.IsSet(OxygenKeys.Law) && IsGiven(values, PulseKeys.RatioOfRatios))
        {
            return OxygenLaw.GivenRatio;
        }

        return values[OxygenKeys.Law] switch
        {
            "extinction" => OxygenLaw.Extinction,
            "given_ratio" => OxygenLaw.GivenRatio,
            _ => OxygenLaw.CalibrationTable,
        };
    }

    /// <summary>Keys that were given but cannot act beside the others, each with one sentence.</summary>
    /// <param name="values">Values of the scenario.</param>
    public static IEnumerable<(KeyDefinition Key, string Sentence)> Conflicts(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        OxygenLaw law = InForce(values);
        if (law != OxygenLaw.GivenRatio && IsGiven(values, PulseKeys.RatioOfRatios))
        {
            yield return (
                PulseKeys.RatioOfRatios,
                $"pulse.ratio_of_ratios is given, but oxygen.law = \"{values[OxygenKeys.Law]}\" makes the ratio from saturation; remove one of them or say oxygen.law = \"given_ratio\"");
        }

        foreach (NumberKey key in s_throughSaturation)
        {
            if (law == OxygenLaw.GivenRatio && IsGiven(values, key))
            {
                yield return (
                    key,
                    $"{key.Name} has no effect while the ratio is given; remove it or pulse.ratio_of_ratios");
            }
        }

        if (law == OxygenLaw.Extinction && values.IsSet(OxygenKeys.Table))
        {
            yield return (OxygenKeys.Table, "oxygen.table has no effect with oxygen.law = \"extinction\"; remove one of them");
        }
    }

    private static bool IsGiven(KeyValues values, KeyDefinition key) => values.IsSet(key) || values.IsChanging(key);
}
