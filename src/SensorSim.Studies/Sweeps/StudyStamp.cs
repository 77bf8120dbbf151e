// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text;
using SensorSim.Files;
using SensorSim.Scenarios;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Sweeps;

/// <summary>What stands at the beginning of a study's journal: which study, which part of it, made by which versions.</summary>
public sealed record StudyStamp
{
    /// <summary>Identity of the runs, see <see cref="StudyIdentity.OfRuns"/>.</summary>
    public required string Identity { get; init; }

    /// <summary>Which part of the study.</summary>
    public required Shard Shard { get; init; }

    /// <summary>Runs of the whole study.</summary>
    public required long RunCount { get; init; }

    /// <summary>Version of the program.</summary>
    public required string ProgramVersion { get; init; }

    /// <summary>Version of the generator.</summary>
    public required int GeneratorVersion { get; init; }

    /// <summary>The stamp of a study made by this program.</summary>
    /// <param name="plan">The study.</param>
    /// <param name="identity">Its identity.</param>
    /// <param name="shard">Which part.</param>
    public static StudyStamp Of(StudyPlan plan, StudyIdentity identity, Shard shard)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(identity);
        return new StudyStamp
        {
            Identity = identity.OfRuns,
            Shard = shard,
            RunCount = plan.RunCount,
            ProgramVersion = StudyIdentity.ProgramVersion,
            GeneratorVersion = Scenario.GeneratorVersion,
        };
    }

    /// <summary>The bytes in the journal.</summary>
    public byte[] ToBytes() => Encoding.UTF8.GetBytes(string.Create(
        CultureInfo.InvariantCulture,
        $"identity {Identity}\nshard {Shard}\nruns {RunCount}\nprogram {ProgramVersion}\ngenerator {GeneratorVersion}\n"));

    /// <summary>Reads the bytes.</summary>
    /// <param name="bytes">What <see cref="ToBytes"/> gave.</param>
    /// <param name="file">The journal, for messages.</param>
    /// <exception cref="InputFileException">The journal is not one of a study.</exception>
    public static StudyStamp Read(byte[] bytes, string file)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (string line in Encoding.UTF8.GetString(bytes).Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] parts = line.Split(' ', 2);
            fields[parts[0]] = parts[^1];
        }

        return fields.TryGetValue("identity", out string? identity)
            && Shard.TryParse(fields.GetValueOrDefault("shard", ""), out Shard shard)
            && long.TryParse(fields.GetValueOrDefault("runs"), NumberStyles.None, CultureInfo.InvariantCulture, out long runs)
            && int.TryParse(fields.GetValueOrDefault("generator"), NumberStyles.None, CultureInfo.InvariantCulture, out int generator)
            ? new StudyStamp
            {
                Identity = identity,
                Shard = shard,
                RunCount = runs,
                ProgramVersion = fields.GetValueOrDefault("program", ""),
                GeneratorVersion = generator,
            }
            : throw new InputFileException(file, 0, 0, "this is not the journal of a study; name a folder in which a sweep was begun.");
    }

    /// <summary>What keeps a journal of another stamp from being this study's, in words; null when nothing does.</summary>
    /// <param name="other">The stamp of the journal.</param>
    public string? DifferenceFrom(StudyStamp other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if ((other.ProgramVersion, other.GeneratorVersion) != (ProgramVersion, GeneratorVersion))
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"the runs were made by version {other.ProgramVersion}, generator {other.GeneratorVersion}; this is version {ProgramVersion}, generator {GeneratorVersion}");
        }

        return other.Identity != Identity || other.RunCount != RunCount ? "the runs are of another study, or the study, its scenario or a detector has changed since" : null;
    }
}
