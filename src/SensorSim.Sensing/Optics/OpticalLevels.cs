// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;
using SensorSim.Body.Subject;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Optics;

/// <summary>Levels of one light over time, in closed form from the knobs; never measured from what was drawn.</summary>
/// <remarks>Safe for several threads.</remarks>
public sealed class OpticalLevels
{
    private readonly Course _atFootNa;
    private readonly Course _noiseNa;
    private readonly Course _noiseDb;
    private readonly bool _hasNoiseDb;
    private readonly Course _contact;
    private readonly Course _pressure;
    private readonly double _skinFactor;
    private readonly double _ledFactor;

    /// <summary>Creates the levels of a light.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red, infrared or green.</param>
    public OpticalLevels(KeyValues values, ChannelName light)
    {
        ArgumentNullException.ThrowIfNull(values);
        _atFootNa = values.Course(LightKey(light));
        _skinFactor = SkinOptics.LightFactor(values[SubjectKeys.SkinTone], values[WavelengthKey(light)]);
        _ledFactor = values[CurrentKey(light)] / OpticsKeys.ReferenceMa;
        _contact = values.Course(ContactKeys.ContactPercent);
        _pressure = values.Course(ContactKeys.PressureMmhg);
        _noiseNa = values.Course(OpticsKeys.WhiteNoiseNaRms);
        _noiseDb = values.Course(OpticsKeys.WhiteNoiseSnrDb);
        _hasNoiseDb = values.IsSet(OpticsKeys.WhiteNoiseSnrDb);
    }

    /// <summary>Pulse height of a light's absorbance at the start of a scenario: ln of brightest over darkest light of a steady pulse.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <param name="light">Red, infrared or green.</param>
    /// <returns>Absorbance, natural logarithm, no unit.</returns>
    public static double PulseHeight(KeyValues values, ChannelName light) => new LightGains(values).At(0)[light - ChannelName.Red];

    /// <summary>Mean foot-to-peak light of a channel [nA].</summary>
    /// <param name="levelNa">Light at the foot [nA].</param>
    /// <param name="pulseHeight">Pulse height of the absorbance.</param>
    public static double FootToPeakNa(double levelNa, double pulseHeight) => levelNa * (1 - PortableMath.Exp(-pulseHeight));

    /// <summary>
    /// Light at the foot of a steady pulse [nA], with the LED current of the start and outside of lift-offs: the knob for light skin, less for
    /// darker skin and lost contact, more for contact pressure, in proportion to the current.
    /// </summary>
    /// <param name="seconds">Body time [s].</param>
    public double AtFootNa(double seconds) => TissueNa(seconds) * _ledFactor * (_contact.Value(seconds) * 0.01);

    /// <summary>Pulse height of the absorbance over that at the best contact pressure: 0 to 1.</summary>
    /// <param name="seconds">Body time [s].</param>
    public double PulseFactor(double seconds) => ContactPressure.PulseFactor(_pressure.Value(seconds));

    /// <summary>White noise of the channel [nA rms]: the given current, and the one that follows from the given ratio.</summary>
    /// <param name="seconds">Body time [s].</param>
    /// <param name="footToPeakNa">Mean foot-to-peak light of the channel [nA].</param>
    public double WhiteNoiseNa(double seconds, double footToPeakNa)
    {
        double fixedNa = _noiseNa.Value(seconds);
        double decibel = _noiseDb.Value(seconds);

        // A ratio that the scenario does not give stands at its cleanest until its first change, and is no noise at all.
        if (!_hasNoiseDb && decibel == OpticsKeys.WhiteNoiseSnrDb.Default)
        {
            return fixedNa;
        }

        double ratio = Decibels.Amplitude(decibel);
        double byRatioNa = footToPeakNa / (2 * Math.Sqrt(2.0)) / ratio;
        return Math.Sqrt((fixedNa * fixedNa) + (byRatioNa * byRatioNa));
    }

    /// <summary>The knob of a light's level.</summary>
    /// <param name="light">Red, infrared or green.</param>
    public static NumberKey LightKey(ChannelName light) => light switch
    {
        ChannelName.Red => OpticsKeys.RedNa,
        ChannelName.Infrared => OpticsKeys.InfraredNa,
        _ => OpticsKeys.GreenNa,
    };

    /// <summary>The knob of a light's LED current.</summary>
    /// <param name="light">Red, infrared or green.</param>
    public static NumberKey CurrentKey(ChannelName light) => light switch
    {
        ChannelName.Red => OpticsKeys.RedMa,
        ChannelName.Infrared => OpticsKeys.InfraredMa,
        _ => OpticsKeys.GreenMa,
    };

    /// <summary>Light at the foot of a steady pulse with full contact [nA], at the current for which the knob holds.</summary>
    /// <param name="seconds">Body time [s].</param>
    internal double TissueNa(double seconds) =>
        _atFootNa.Value(seconds) * _skinFactor * ContactPressure.LightFactor(_pressure.Value(seconds));

    private static NumberKey WavelengthKey(ChannelName light) => light switch
    {
        ChannelName.Red => OxygenKeys.RedNm,
        ChannelName.Infrared => OxygenKeys.InfraredNm,
        _ => OxygenKeys.GreenNm,
    };
}
