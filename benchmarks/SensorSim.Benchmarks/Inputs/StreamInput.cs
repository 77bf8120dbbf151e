// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Movement;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Keys;

namespace SensorSim.Benchmarks.Inputs;

/// <summary>A stream to measure with: ECG at 250 Hz, three slots at 100 Hz, three axes at 50 Hz.</summary>
/// <param name="Name">Name in tables.</param>
/// <param name="Values">Values of the knobs.</param>
internal sealed record StreamInput(string Name, KeyValues Values)
{
    /// <summary>Samples in a second of signal.</summary>
    public const int SamplesPerSecond = 250 + (3 * 100) + (3 * 50);

    private const ulong Seed = 1;

    /// <summary>Steady beats, nothing in the way: what making costs at least.</summary>
    public static StreamInput EverythingOff => new("everything off", new KeyValues()
        .Set(HeartKeys.RespiratoryVariabilityMs, 0)
        .Set(HeartKeys.SlowVariabilityMs, 0)
        .Set(BreathingKeys.SpreadPerMin, 0)
        .Set(PulseKeys.ArrivalSpreadMs, 0)
        .Set(PulseKeys.RespiratoryAmplitudePercent, 0)
        .Set(PulseKeys.RespiratoryBaselinePercent, 0)
        .Set(MainsKeys.WanderHz, 0));

    /// <summary>The scenario of a person at rest.</summary>
    public static StreamInput Rest => new(
        "at rest", ScenarioReader.ReadFile(Repository.PathOf("waveforms", "scenarios", "rest-finger.toml")).Values);

    /// <summary>Every disturbance there is, at once, none so strong that beats could not be found.</summary>
    public static StreamInput EverythingOn => new("everything on", new KeyValues()
        .Set(HeartKeys.RateBpm, 80)
        .Set(MovementKeys.Activity, "walking")
        .Set(MovementKeys.AmplitudeG, 0.5)
        .Set(EcgAmplifierKeys.WhiteNoiseUvRms, 20)
        .Set(EcgAmplifierKeys.BaselineWanderMvRms, 0.2)
        .Set(EcgAmplifierKeys.BreathingBaselineMv, 0.1)
        .Set(EcgAmplifierKeys.MainsUvPp, 100)
        .Set(EcgAmplifierKeys.MainsSecondPercent, 20)
        .Set(EcgAmplifierKeys.MainsThirdPercent, 30)
        .Set(OpticsKeys.WhiteNoiseNaRms, 0.2)
        .Set(OpticsKeys.WhiteNoiseSnrDb, 34)
        .Set(OpticsKeys.MovementArtefactRatio, 0.3)
        .Set(AmbientKeys.LevelNa, 200)
        .Set(AmbientKeys.FlickerPercent, 20)
        .Set(AmbientKeys.PulseWidthLampNa, 50)
        .Set(AccelerometerKeys.NoiseUgPerRthz, 150));

    /// <summary>Assembles the stream.</summary>
    /// <param name="durationSeconds">Length [s]; infinity for an endless one.</param>
    public SensorStream CreateStream(double durationSeconds = double.PositiveInfinity) => new(Values, Seed, durationSeconds);

    /// <summary>Assembles the body alone.</summary>
    public Body.BodyModel CreateBody() => new(Values, Seed);
}
