// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Support;

/// <summary>Values of knobs that the tests start from.</summary>
internal static class Settings
{
    /// <summary>Every disturbance on, at the default rates.</summary>
    public static KeyValues Everything() => new KeyValues()
        .Set(MovementKeys.Activity, "walking")
        .Set(EcgAmplifierKeys.WhiteNoiseUvRms, 20)
        .Set(EcgAmplifierKeys.BaselineWanderMvRms, 0.1)
        .Set(EcgAmplifierKeys.BreathingBaselineMv, 0.15)
        .Set(EcgAmplifierKeys.MainsUvPp, 100)
        .Set(OpticsKeys.WhiteNoiseNaRms, 0.3)
        .Set(OpticsKeys.WhiteNoiseSnrDb, 30)
        .Set(OpticsKeys.MovementArtefactRatio, 1)
        .Set(AmbientKeys.LevelNa, 300)
        .Set(AmbientKeys.PulseWidthLampNa, 40)
        .Set(AccelerometerKeys.NoiseUgPerRthz, 150);

    /// <summary>Adds everything that happens to light and artefact by itself: daylight with shade, hands, lamps that are switched, an artefact that is not all explained.</summary>
    public static KeyValues InARestlessRoom(KeyValues values) => values
        .Set(AmbientKeys.LevelLux, 200)
        .Set(AmbientKeys.FlickerSecondPercent, 20)
        .Set(AmbientKeys.FlickerThirdPercent, 10)
        .Set(AmbientChangeKeys.LampSwitchPerMin, 20)
        .Set(AmbientChangeKeys.DaylightLux, 500)
        .Set(AmbientChangeKeys.ShadePerMin, 40)
        .Set(AmbientChangeKeys.ShadeRampS, 1.3)
        .Set(AmbientChangeKeys.HandPerMin, 25)
        .Set(TissueArtefactKeys.CoherencePercent, 70)
        .Set(TissueArtefactKeys.SidewaysPercent, 40);

    /// <summary>Converters so fine that rounding does not matter: 24 bit, 20 bit for acceleration.</summary>
    public static KeyValues Fine(KeyValues? values = null) => (values ?? new KeyValues())
        .Set(EcgAmplifierKeys.Bits, 24)
        .Set(OpticsKeys.Bits, 24)
        .Set(AccelerometerKeys.Bits, 20);

    /// <summary>Fine converters, a body whose beats are all alike and that breathing does not move.</summary>
    public static KeyValues Steady() => Fine()
        .Set(HeartKeys.RespiratoryVariabilityMs, 0)
        .Set(HeartKeys.SlowVariabilityMs, 0)
        .Set(BreathingKeys.SpreadPerMin, 0)
        .Set(PulseKeys.ArrivalSpreadMs, 0)
        .Set(PulseKeys.RespiratoryAmplitudePercent, 0)
        .Set(PulseKeys.RespiratoryBaselinePercent, 0)
        .Set(MainsKeys.WanderHz, 0)
        .Set(MovementKeys.CadenceSpreadHz, 0)
        .Set(MovementKeys.StepVariationPercent, 0);

    /// <summary>As <see cref="Steady"/>, without heart: no ECG waves, no light from the LEDs.</summary>
    public static KeyValues Silent() => Steady()
        .Set(EcgKeys.PMv, 0).Set(EcgKeys.QMv, 0).Set(EcgKeys.RMv, 0).Set(EcgKeys.SMv, 0).Set(EcgKeys.TMv, 0)
        .Set(OpticsKeys.RedNa, 0)
        .Set(OpticsKeys.InfraredNa, 0);

    /// <summary>Copies of values with a knob at its smallest and at its largest value, or at each of its words; text at its longest.</summary>
    public static IEnumerable<KeyValues> AtEveryEnd(KeyValues values, KeyDefinition key) => key switch
    {
        NumberKey number => [values.Copy().Set(number, number.Minimum), values.Copy().Set(number, number.Maximum)],
        ChoiceKey choice => choice.Choices.Select(word => values.Copy().Set(choice, word)),
        TextKey text => [values.Copy().Set(text, new string('a', text.MaximumLength))],
        _ => throw new ArgumentException($"{key.Name} is neither a number nor a choice nor text.", nameof(key)),
    };
}
