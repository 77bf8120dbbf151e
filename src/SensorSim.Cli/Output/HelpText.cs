// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Globalization;
using SensorSim.Scenarios;
using SensorSim.Studies.Vectors.Making;

namespace SensorSim.Cli.Output;

/// <summary>Help: what the parser's own help says, then examples and exit codes.</summary>
internal static class HelpText
{
    private static readonly Dictionary<string, string[]> s_examples = new(StringComparer.Ordinal)
    {
        ["run"] =
        [
            "sensorsim run waveforms/scenarios/rest-finger.toml --out out/rest",
            "sensorsim run waveforms/scenarios/walking-wrist.toml --seed 2 --json",
            "sensorsim run waveforms/scenarios/rest-finger-10min.toml --subject-seed 7",
            "sensorsim run waveforms/scenarios/walking-wrist.toml --closed-loop --control light_level --out out/loop",
            "sensorsim run waveforms/scenarios/rest-finger.toml --sensor waveforms/sensors/wrist-watch.toml",
            "sensorsim run waveforms/scenarios/pressure-rise.toml --calibration waveforms/calibrations/finger-two-cuffs.toml",
        ],
        ["record"] =
        [
            "sensorsim record waveforms/scenarios/noisy-room.toml --out out/noisy",
            "sensorsim record waveforms/scenarios/rest-finger.toml --format bdf,parquet --out out/open",
            "sensorsim record --link /dev/ttyACM0 --baud 921600 --duration-s 60 --out out/bench",
        ],
        ["replay"] =
        [
            "sensorsim replay waveforms/scenarios/rest-finger.toml --link /dev/ttyACM0 --baud 921600 --out out/board",
            "sensorsim replay waveforms/scenarios/rest-finger.toml --link tcp:127.0.0.1:7000 --as-fast-as-possible --expect bit-exact",
            "sensorsim replay out/noisy --link /dev/ttyACM0 --baud 921600 --damage drop=1,corrupt=1 --damage-seed 2",
        ],
        ["detect"] =
        [
            "sensorsim detect out/noisy --out out/answers",
            "sensorsim detect out/open/recording.bdf",
            "sensorsim detect waveforms/recorded/ambulatory-ecg.csv --rate-hz 360 --unit mv --channel ecg --out out/recorded",
        ],
        ["score"] =
        [
            "sensorsim score out/noisy/truth.csv out/answers/detections.csv",
            "sensorsim score waveforms/recorded/ambulatory-ecg-beats.csv out/recorded/detections.csv --rate-hz 360 --duration-s 150",
        ],
        ["sweep"] =
        [
            "sensorsim sweep waveforms/studies/muscle-noise.toml --out out/muscle",
            "sensorsim sweep waveforms/studies/muscle-noise.toml --out out/part2 --shard 2/3",
        ],
        ["submit"] = ["sensorsim sweep submit waveforms/studies/muscle-noise.toml --write-only --out out/cluster"],
        ["merge"] = ["sensorsim sweep merge waveforms/studies/muscle-noise.toml out/part1 out/part2 out/part3 --out out/muscle"],
        ["compare"] =
        [
            "sensorsim compare out/muscle out/muscle-next --out out/comparison",
            "sensorsim compare --baseline out/muscle out/muscle-next --margin r_peak_sensitivity_min=0.002 --out out/gate",
        ],
        ["challenge"] =
        [
            "sensorsim challenge waveforms/scenarios/rest-finger.toml --out out/challenge",
            "sensorsim challenge waveforms/scenarios/rest-finger.toml --knobs ecg_noise,ambient.daylight_lux --runs 1000",
        ],
        ["vectors"] =
        [
            "sensorsim vectors verify waveforms/vectors",
            "sensorsim vectors make waveforms/vectors/plan.toml --out out/vectors",
        ],
        ["vectors make"] = ["sensorsim vectors make waveforms/vectors/plan.toml --out out/vectors"],
        ["vectors compare"] =
        [
            "sensorsim vectors compare waveforms/vectors --answers out/device",
            "sensorsim vectors compare waveforms/vectors --detector-command \"python3 detector.py\" --out out/results",
            "sensorsim vectors compare waveforms/vectors --answers out/device.csv --device \"bench 3\" --firmware 1.4.2 --date 2026-05-04 --out out/results",
        ],
        ["vectors stimulus"] = ["sensorsim vectors stimulus waveforms/vectors --case bigeminy --out out/samples"],
        ["vectors verify"] = ["sensorsim vectors verify waveforms/vectors", "sensorsim vectors verify out/vectors --json"],
        ["selftest"] = ["sensorsim selftest", "sensorsim selftest --json --out out/installation"],
        ["schema"] = ["sensorsim schema scenario", "sensorsim schema --out out/schemas"],
        ["explain"] = ["sensorsim explain", "sensorsim explain heart.rate_bpm", "sensorsim explain change", "sensorsim explain waveforms/scenarios/noisy-room.toml"],
    };

    /// <summary>Adds examples and exit codes to the help of the command and of every verb.</summary>
    public static void Install(RootCommand root, Terminal terminal)
    {
        foreach (HelpOption help in root.Options.OfType<HelpOption>())
        {
            help.Action = new WithExamples((HelpAction)help.Action!, terminal);
        }

        foreach (VersionOption version in root.Options.OfType<VersionOption>())
        {
            version.Action = new AllVersions((SynchronousCommandLineAction)version.Action!, terminal);
        }
    }

    /// <summary>Prints the version of the program, then what decides about its answers and its samples: the detector and the generator.</summary>
    internal sealed class AllVersions(SynchronousCommandLineAction inner, Terminal terminal) : SynchronousCommandLineAction
    {
        public override bool ClearsParseErrors => inner.ClearsParseErrors;

        public override int Invoke(ParseResult parseResult)
        {
            int code = inner.Invoke(parseResult);
            terminal.Out.WriteLine($"detector: {SetMaker.Detector}");
            terminal.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"generator version: {Scenario.GeneratorVersion}"));
            return code;
        }
    }

    /// <summary>Prints the help.</summary>
    internal sealed class WithExamples(HelpAction inner, Terminal terminal) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            int code = Trimmed(parseResult);
            string name = parseResult.CommandResult.Command.Name;
            string inside = parseResult.CommandResult.Parent is CommandResult { Command: not RootCommand } parent ? $"{parent.Command.Name} {name}" : name;
            string[] examples = s_examples.TryGetValue(inside, out string[]? exact) ? exact
                : s_examples.TryGetValue(name, out string[]? own) ? own
                : [.. s_examples.Values.Select(e => e[0]).Distinct(StringComparer.Ordinal)];
            terminal.Out.WriteLine("Exit codes:");
            terminal.Out.WriteLine("  0 done, requirements met   1 a requirement not met, or the detector failed");
            terminal.Out.WriteLine("  2 wrong input              3 disk, rights or port      130 interrupted");
            terminal.Out.WriteLine();
            terminal.Out.WriteLine("Examples:");
            foreach (string example in examples)
            {
                terminal.Out.WriteLine($"  {example}");
            }

            return code;
        }

        // Where it wraps a line, the parser's help leaves the blank that it wraps at.
        private int Trimmed(ParseResult parseResult)
        {
            TextWriter target = parseResult.InvocationConfiguration.Output;
            using var text = new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" };
            parseResult.InvocationConfiguration.Output = text;
            int code = inner.Invoke(parseResult);
            parseResult.InvocationConfiguration.Output = target;
            foreach (string line in text.ToString().TrimEnd('\n').Split('\n'))
            {
                target.WriteLine(line.TrimEnd());
            }

            target.WriteLine();
            return code;
        }
    }
}
