// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>Levels of the optical signals in closed form from the knobs; never measured from what was drawn.</summary>
public static class OpticalLevels
{
    /// <summary>Pulse height of a light's absorbance at the start of a scenario: ln of brightest over darkest light of a steady pulse.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red, infrared or green.</param>
    /// <returns>Absorbance, natural logarithm, no unit.</returns>
    public static double PulseHeight(KeyValues values, ChannelName light) => new LightGains(values).At(0)[light - ChannelName.Red];

    /// <summary>Light at the foot of a steady pulse [nA]: the knob for light skin, less for darker skin.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red or infrared.</param>
    public static double AtFootNa(KeyValues values, ChannelName light)
    {
        ArgumentNullException.ThrowIfNull(values);
        bool isRed = light == ChannelName.Red;
        return values[isRed ? OpticsKeys.RedNa : OpticsKeys.InfraredNa]
            * SkinOptics.LightFactor(values[SubjectKeys.SkinTone], values[isRed ? OxygenKeys.RedNm : OxygenKeys.InfraredNm]);
    }

    /// <summary>Mean foot-to-peak light of a channel [nA].</summary>
    /// <param name="levelNa">Light at the foot [nA].</param>
    /// <param name="pulseHeight">Pulse height of the absorbance.</param>
    public static double FootToPeakNa(double levelNa, double pulseHeight) => levelNa * (1 - PortableMath.Exp(-pulseHeight));

    /// <summary>White noise of a channel [nA rms]: the given current, and the one that follows from the given ratio.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="footToPeakNa">Mean foot-to-peak light of the channel [nA].</param>
    public static double WhiteNoiseNa(KeyValues values, double footToPeakNa)
    {
        ArgumentNullException.ThrowIfNull(values);
        double fixedNa = values[OpticsKeys.WhiteNoiseNaRms];
        if (!values.IsSet(OpticsKeys.WhiteNoiseSnrDb))
        {
            return fixedNa;
        }

        double ratio = PortableMath.Exp(values[OpticsKeys.WhiteNoiseSnrDb] * (2.302585092994046 / 20));
        double byRatioNa = footToPeakNa / (2 * Math.Sqrt(2.0)) / ratio;
        return Math.Sqrt((fixedNa * fixedNa) + (byRatioNa * byRatioNa));
    }
}
