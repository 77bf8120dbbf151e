// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Subject;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Oxygen;

/// <summary>Oxygen saturation over time and what the lights see of it: a closed form, asked once a beat.</summary>
/// <remarks>
/// <para>
/// Beer-Lambert: a light's pulse height is proportional to the extinction of the blood that pulses, so path and concentration cancel in
/// the ratio of two lights. Pulsing blood = (1 − f) arterial + f venous; each holds carboxy- and methaemoglobin in the same shares,
/// the rest is oxygenated by its saturation.
/// </para>
/// <para>
/// The apparent saturation is the one that clean arterial blood would need for the same red over infrared extinction, plus the skin's bias;
/// never above 100 % or below 0. The law turns it into the ratio: by extinction, or by the calibration table. So every source of error
/// acts alike under both laws. With a given ratio, saturation and apparent saturation are what the table says for it.
/// </para>
/// </remarks>
public sealed class OxygenModel
{
    private const double ReferenceTone = 2;

    private readonly OxygenLaw _law;
    private readonly CalibrationTable _table;
    private readonly Course _saturation;
    private readonly Course _ratio;
    private readonly Course _carboxy;
    private readonly Course _met;
    private readonly Course _venousShare;
    private readonly Course _venousSaturation;
    private readonly BloodExtinction _red;
    private readonly BloodExtinction _infrared;
    private readonly BloodExtinction _green;
    private readonly double _greenPath;
    private readonly double _biasPercent;

    /// <summary>Creates the oxygen of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    /// <exception cref="ArgumentException">The calibration table cannot be read; the message says why.</exception>
    public OxygenModel(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        _law = OxygenLaws.InForce(values);
        string wrong = CalibrationTable.Read(values[OxygenKeys.Table], out _table);
        if (wrong.Length > 0)
        {
            throw new ArgumentException($"oxygen.table: {wrong}.", nameof(values));
        }

        _saturation = values.Course(OxygenKeys.SaturationPercent);
        _ratio = values.Course(PulseKeys.RatioOfRatios);
        _carboxy = values.Course(OxygenKeys.CarboxyhaemoglobinPercent);
        _met = values.Course(OxygenKeys.MethaemoglobinPercent);
        _venousShare = values.Course(OxygenKeys.VenousSharePercent);
        _venousSaturation = values.Course(OxygenKeys.VenousSaturationPercent);
        _red = new BloodExtinction(values[OxygenKeys.RedNm]);
        _infrared = new BloodExtinction(values[OxygenKeys.InfraredNm]);
        _green = new BloodExtinction(values[OxygenKeys.GreenNm]);
        _greenPath = values[OxygenKeys.GreenPathPercent] * 0.01;
        _biasPercent = values[OxygenKeys.SkinBiasPoints] * (values[SubjectKeys.SkinTone] - ReferenceTone);
    }

    /// <summary>Whether saturation and ratios are the same all the time.</summary>
    internal bool IsSteady => _saturation.IsConstant && _ratio.IsConstant && _carboxy.IsConstant && _met.IsConstant
        && _venousShare.IsConstant && _venousSaturation.IsConstant;

    /// <summary>True functional saturation of arterial blood [%].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double SaturationPercent(double seconds) => _law == OxygenLaw.GivenRatio
        ? _table.Percent(_ratio.Value(seconds))
        : Within(_saturation.Value(seconds), 0, 100);

    /// <summary>Saturation that the ratio of the lights stands for [%].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double ApparentPercent(double seconds) =>
        _law == OxygenLaw.GivenRatio ? SaturationPercent(seconds) : Apparent(Pulsing(seconds));

    /// <summary>Pulse heights of the lights over that of infrared.</summary>
    /// <param name="seconds">Body time [s].</param>
    public LightRatios Ratios(double seconds)
    {
        BloodMix mix = Pulsing(seconds);
        double green = _greenPath * _green.Of(mix) / _infrared.Of(mix);
        double red = _law switch
        {
            OxygenLaw.GivenRatio => _ratio.Value(seconds),
            OxygenLaw.CalibrationTable => _table.Ratio(Apparent(mix)),
            _ => BloodExtinction.Ratio(_red, _infrared, Apparent(mix) * 0.01),
        };
        return new LightRatios(red, green);
    }

    private static double Within(double value, double low, double high) => Math.Max(low, Math.Min(high, value));

    private BloodMix Pulsing(double seconds)
    {
        double saturation = SaturationPercent(seconds) * 0.01;
        if (_law == OxygenLaw.GivenRatio)
        {
            return new BloodMix(saturation, 0, 0);
        }

        double venous = Within(_venousShare.Value(seconds) * 0.01, 0, 1);
        double mixed = saturation + (venous * (Within(_venousSaturation.Value(seconds) * 0.01, 0, 1) - saturation));
        return new BloodMix(mixed, Within(_carboxy.Value(seconds) * 0.01, 0, 0.5), Within(_met.Value(seconds) * 0.01, 0, 0.5));
    }

    private double Apparent(in BloodMix mix)
    {
        // Clean blood is taken as it is: solving would only round.
        double share = mix.Carboxy == 0 && mix.Met == 0
            ? mix.Saturation
            : BloodExtinction.Saturation(_red, _infrared, _red.Of(mix) / _infrared.Of(mix));
        return Within((share * 100) + _biasPercent, 0, 100);
    }
}
