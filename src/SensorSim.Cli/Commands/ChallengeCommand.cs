// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Text;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Detectors.Choices;
using SensorSim.Files.Output;
using SensorSim.Reports.Figures;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Studies.Challenges;

namespace SensorSim.Cli.Commands;

/// <summary><c>challenge</c>: looks for the mildest input that breaks a requirement of a scenario.</summary>
internal static class ChallengeCommand
{
    private static readonly UTF8Encoding s_utf8 = new(encoderShouldEmitUTF8Identifier: false);

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var defaults = new ChallengeSettings();
        Argument<string> scenario = CommonOptions.Scenario();
        Option<string?> outFolder = CommonOptions.Out("Folder for challenge.toml, challenge.json, moment.txt and the picture of the failure; without it only the findings are printed");
        Option<long?> seed = CommonOptions.Seed();
        Option<long?> subjectSeed = CommonOptions.SubjectSeed();
        Option<string?> sensor = CommonOptions.Sensor();
        var knobs = new Option<string?>("--knobs")
        {
            Description = "Disturbances to search, sections or keys parted by commas; all unless given",
            HelpName = "LIST",
        };
        Option<long?> runs = NumberOption.Whole("--runs", $"Runs that the search may spend, shrinking apart; {defaults.MostRuns} unless given", 1, 10_000_000);
        Option<long?> searchSeed = NumberOption.Whole("--search-seed", "Seed of the search's own draws; 1 unless given", 0, 9007199254740991);
        Option<long?> checkSeeds = NumberOption.Whole("--check-seeds", $"Further seeds that a failure is checked on; {defaults.CheckSeeds} unless given", 0, 1000);
        Option<long?> checkLeast = NumberOption.Whole("--check-least", "On how many of these it must fail too; three quarters unless given", 0, 1000);
        DetectorOptions own = DetectorOptions.Create();
        Option<bool> json = CommonOptions.Json();
        var command = new Command("challenge", "Look for the mildest input that makes the detector break a requirement of a scenario.")
        {
            scenario, outFolder, seed, subjectSeed, sensor, knobs, runs, searchSeed, checkSeeds, checkLeast,
            own.Detector, own.DetectorCommand, own.DetectorClass, own.InProcess, json,
        };
        command.SetAction(parsed =>
        {
            ChallengeSettings settings = Settings(
                defaults, parsed.GetValue(knobs), parsed.GetValue(runs), parsed.GetValue(searchSeed), parsed.GetValue(checkSeeds), parsed.GetValue(checkLeast));
            Scenario read = ScenarioInput.Read(
                parsed.GetRequiredValue(scenario), parsed.GetValue(seed), parsed.GetValue(subjectSeed), parsed.GetValue(sensor), null);
            return Run(terminal, read, own.Read(parsed, hasCalibration: false), settings, parsed.GetValue(outFolder), parsed.GetValue(json), cancellation);
        });
        return command;
    }

    private static int Run(
        Terminal terminal, Scenario scenario, DetectorChoice? own, ChallengeSettings settings, string? outPath, bool isJson, CancellationToken cancellation)
    {
        using OutputFolder? folder = outPath is null ? null : OutputPlace.Open(outPath);
        using IDetectorFactory factory = own is null ? new LibraryFactory() : DetectorFactories.Open(own);
        using var progress = new RunCounter(terminal, settings.MostRuns);
        ChallengeResult result = Challenge.Search(scenario, factory, settings, progress.Report, cancellation);
        progress.Clear();
        if (folder is not null)
        {
            Write(folder, result);
        }

        if (isJson)
        {
            ChallengeJson.Write(terminal.OutStream, result);
        }
        else
        {
            ChallengeTable.Print(terminal, result);
        }

        if (outPath is not null)
        {
            terminal.Say($"files written to {outPath}");
        }

        return result.Found is null ? ExitCodes.Done : ExitCodes.NotMet;
    }

    private static void Write(OutputFolder folder, ChallengeResult result)
    {
        using (Stream json = folder.CreateFile("challenge.json"))
        {
            ChallengeJson.Write(json, result);
        }

        if (result.Found is not null)
        {
            Text(folder, "challenge.toml", ChallengeText.Scenario(result, folder.FullPath));
            Text(folder, "moment.txt", ChallengeText.Moment(result));
            MomentFigure.Write(folder.PathOf, FormattableString.Invariant($"{result.Scenario.Title}, failure at {result.Moment!.TimeS:0.0} s"), result.Around!);
        }

        folder.Commit();
    }

    private static void Text(OutputFolder folder, string name, string text)
    {
        using Stream file = folder.CreateFile(name);
        file.Write(s_utf8.GetBytes(text));
    }

    private static ChallengeSettings Settings(
        ChallengeSettings defaults, string? knobs, long? runs, long? searchSeed, long? checkSeeds, long? checkLeast)
    {
        int seeds = (int)(checkSeeds ?? defaults.CheckSeeds);
        int least = (int)(checkLeast ?? ((3 * seeds) + 3) / 4);
        return least > seeds
            ? throw new UsageException($"--check-least {least} is more than the {seeds} seeds of --check-seeds; at most {seeds}")
            : defaults with
            {
                MostRuns = (int)(runs ?? defaults.MostRuns),
                Seed = (ulong)(searchSeed ?? (long)defaults.Seed),
                CheckSeeds = seeds,
                CheckLeast = least,
                Knobs = knobs is null ? defaults.Knobs : Named(knobs),
            };
    }

    private static IReadOnlyList<Knob> Named(string list)
    {
        string[] names = list.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        foreach (string name in names)
        {
            if (!Knobs.Names.Contains(name, StringComparer.Ordinal))
            {
                throw new UsageException($"--knobs: \"{name}\" is no disturbance that can be searched; the nearest is \"{NearestName.Find(name, Knobs.Names)}\"");
            }
        }

        return names.Length == 0
            ? throw new UsageException("--knobs names nothing; give sections or keys parted by commas, for example --knobs ecg_noise,ambient.daylight_lux")
            : Knobs.Named(names);
    }
}
