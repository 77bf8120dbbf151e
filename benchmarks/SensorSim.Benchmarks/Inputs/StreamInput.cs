// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Pulse;
using SensorSim.Body.Rhythm;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Sensing.Mains;
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

    /// <summary>The scenario with every disturbance there is, at any length.</summary>
    public static StreamInput EverythingOn => new(
        "everything on", ScenarioReader.ReadFile(Repository.PathOf("waveforms", "scenarios", "all-on.toml")).Values);

    /// <summary>Assembles the stream.</summary>
    /// <param name="durationSeconds">Length [s]; by default 30 years, longer than anybody reads.</param>
    public SensorStream CreateStream(double durationSeconds = 1e9) => new(Values, Seed, durationSeconds);

    /// <summary>Assembles the body alone.</summary>
    public Body.BodyModel CreateBody() => new(Values, Seed);
}
