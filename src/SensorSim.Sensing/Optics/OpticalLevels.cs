// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Optics;

/// <summary>Levels of the optical signals in closed form from the knobs; never measured from what was drawn.</summary>
public static class OpticalLevels
{
    /// <summary>Pulse height of the infrared absorbance: ln of brightest over darkest light for the wanted perfusion index.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <returns>Absorbance, natural logarithm, no unit.</returns>
    public static double InfraredPulseHeight(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);

        // Perfusion index p = 2 (max − min) / (max + min), so max/min = (1 + p/2) / (1 − p/2).
        double half = values[PulseKeys.PerfusionIndexPercent] * 0.005;
        return PortableMath.Log((1 + half) / (1 - half));
    }

    /// <summary>Pulse height of the red absorbance.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <returns>Absorbance, natural logarithm, no unit.</returns>
    public static double RedPulseHeight(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        return InfraredPulseHeight(values) * values[PulseKeys.RatioOfRatios];
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
