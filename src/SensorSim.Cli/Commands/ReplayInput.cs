// SPDX-License-Identifier: MIT
using SensorSim.Cli.Options;
using SensorSim.Scenarios;
using SensorSim.Sensing;
using SensorSim.Studies.Replays;

namespace SensorSim.Cli.Commands;

/// <summary>What a replay sends: the stream of a scenario, or a recording.</summary>
/// <param name="Path">Path as the user gave it.</param>
/// <param name="Scenario">The scenario; null for a recording.</param>
/// <param name="Choice">What the command line says of a recording.</param>
internal sealed record ReplayInput(string Path, Scenario? Scenario, RecordingChoice Choice)
{
    /// <summary>What it is called.</summary>
    public string Title => Scenario?.Title ?? System.IO.Path.GetFileName(System.IO.Path.TrimEndingDirectorySeparator(System.IO.Path.GetFullPath(Path)));

    /// <summary>Reads a scenario, or looks at a recording.</summary>
    /// <param name="path">Path of a scenario file or of a recording.</param>
    /// <param name="choice">What the command line says of a recording.</param>
    /// <param name="seed">Seed, instead of the scenario's.</param>
    /// <param name="subjectSeed">Seed of a person.</param>
    /// <param name="sensor">Path of a sensor file.</param>
    /// <param name="settings">Path of a schedule of settings.</param>
    /// <exception cref="UsageException">A recording was given options of a scenario or the other way round, or the folder is no recording.</exception>
    public static ReplayInput Read(string path, RecordingChoice choice, long? seed, long? subjectSeed, string? sensor, string? settings)
    {
        if (RecordingInput.IsRecording(path))
        {
            return seed is null && subjectSeed is null && sensor is null && settings is null
                ? new ReplayInput(path, null, choice)
                : throw new UsageException("--seed, --subject-seed, --sensor and --settings belong to a scenario; a recording is made already, leave them out");
        }

        if (Directory.Exists(path))
        {
            throw new UsageException($"{path}: there is no channels.csv in this folder, and no EDF or BDF file; give a scenario file, or a folder written by record");
        }

        return choice.IsAny
            ? throw new UsageException("--map, --rate-hz, --unit, --channel, --uv-per-code and --inverted belong to a recording of others; a scenario says these itself")
            : new ReplayInput(path, ScenarioInput.Read(path, seed, subjectSeed, sensor, settings), choice);
    }

    /// <summary>Opens what is sent, as long as the command line says.</summary>
    /// <param name="choice">How it is replayed.</param>
    /// <param name="isClosed">Whether its settings must be open to change.</param>
    /// <exception cref="UsageException">The options do not fit this input.</exception>
    public ReplaySource Open(ReplayChoice choice, bool isClosed)
    {
        if (Scenario is null && (choice.IsEndless || isClosed))
        {
            throw new UsageException(choice.IsEndless
                ? "--endless makes more of a scenario; a recording has an end, use --loop"
                : "--closed-loop changes settings of a sensor that is being simulated; a recording can no longer be changed, give a scenario");
        }

        if (choice.IsRepeated && isClosed)
        {
            throw new UsageException("--closed-loop and --loop do not go together, since every round begins with the first settings; use --endless");
        }

        if (choice.StartS > 0 && isClosed)
        {
            throw new UsageException("--closed-loop begins with the first settings of a sensor; leave out --start-s");
        }

        if (choice.IsRepeated)
        {
            var repeated = new RepeatedStream(OpenOnce);
            return new ReplaySource(repeated, repeated.Truth, repeated);
        }

        return choice.IsEndless ? Made(new SensorStream(Scenario!.Values, Scenario.Seed, double.PositiveInfinity, Scenario.Settings)) : OpenOnce();
    }

    private static ReplaySource Made(SensorStream stream) => new(stream, stream.Truth);

    private ReplaySource OpenOnce()
    {
        if (Scenario is not null)
        {
            return Made(Scenario.CreateStream());
        }

        RecordedRun recorded = RecordingInput.OpenWithTruth(Path, Choice);
        return new ReplaySource(recorded, recorded.Truth, recorded);
    }
}
