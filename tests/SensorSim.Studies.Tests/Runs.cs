// SPDX-License-Identifier: MIT
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Tests;

/// <summary>Short runs for the tests.</summary>
internal static class Runs
{
    public static Scenario Read(double seconds, string more = "") => ScenarioReader.ReadText(
        FormattableString.Invariant($"[scenario]\nduration_s = {seconds}\n{more}"), "test.toml");

    public static Scorer Scorer(SensorStream stream) => new(
        stream,
        new ScoringOptions
        {
            ExpectedRows = [new(ChannelName.Ecg, MarkKind.RPeak), new(ChannelName.Infrared, MarkKind.PulseFootTangent)],
        });

    public static RunOutcome Run(Scenario scenario, IDetector? detector, params IRunSink[] sinks)
    {
        SensorStream stream = scenario.CreateStream();
        return new Runner(stream, stream.Truth, detector, Scorer(stream), sinks).Run();
    }
}
