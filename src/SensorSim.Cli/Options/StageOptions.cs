// SPDX-License-Identifier: MIT
using System.CommandLine;
using SensorSim.Detectors.Probing;
using SensorSim.FixedPoint;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Cli.Options;

/// <summary>What is wanted of the intermediate values.</summary>
/// <param name="IsAudited">Whether their bits are counted.</param>
/// <param name="Traced">Which are written to files.</param>
internal sealed record StageChoice(bool IsAudited, IReadOnlyList<ProbePoint> Traced)
{
    /// <summary>Whether anything is.</summary>
    public bool IsAny => IsAudited || Traced.Count > 0;
}

/// <summary>The options that look inside the library.</summary>
internal sealed record StageOptions
{
    /// <summary>Counts bits.</summary>
    public required Option<bool> Audit { get; init; }

    /// <summary>Writes intermediate values.</summary>
    public required Option<string[]> Trace { get; init; }

    /// <summary>Creates the options.</summary>
    public static StageOptions Create() => new()
    {
        Audit = new Option<bool>("--audit") { Description = "Print how many bits each intermediate value used of its word, with headroom, clipping and rounding noise" },
        Trace = new Option<string[]>("--trace")
        {
            Description = "Write an intermediate value as trace_STAGE.csv; may be given several times; needs --out",
            HelpName = "STAGE",
        },
    };

    /// <summary>Reads the options.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="hasOut">Whether there is a folder for files.</param>
    /// <exception cref="UsageException">A stage is unknown, or there is no place for its file.</exception>
    public StageChoice Read(ParseResult parsed, bool hasOut)
    {
        var points = new List<ProbePoint>();
        foreach (string name in parsed.GetValue(Trace) ?? [])
        {
            if (!StageName.TryParse(name, out ProbePoint point))
            {
                throw new UsageException($"--trace {name} is no stage; the nearest is {NearestName.Find(name, StageName.All)}; the stages are {string.Join(", ", StageName.All)}");
            }

            if (!points.Contains(point))
            {
                points.Add(point);
            }
        }

        return points.Count == 0 || hasOut
            ? new StageChoice(parsed.GetValue(Audit), points)
            : throw new UsageException($"--trace {points[0].Text()} writes a file; add --out, for example --out out/trace");
    }
}
