// SPDX-License-Identifier: MIT
using System.Globalization;

namespace SensorSim.Studies.Clusters;

/// <summary>The scripts of a job array of Slurm: one task for each part, and one that joins them.</summary>
/// <remarks>
/// The program is a child of the script and not put in its place (no <c>exec</c>): the scheduler sees exit codes of scripts, not signals of programs.
/// A part that was killed is queued again, at most <see cref="MostRestarts"/> times, and goes on from its journal.
/// </remarks>
public static class SlurmScripts
{
    /// <summary>How often a part may be queued again after it was killed.</summary>
    public const int MostRestarts = 5;

    /// <summary>Name of the script of the parts.</summary>
    public const string PartsName = "parts.sh";

    /// <summary>Name of the script that joins them.</summary>
    public const string JoinName = "join.sh";

    /// <summary>The script of the parts.</summary>
    /// <param name="job">The job.</param>
    public static string Parts(ClusterJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        string count = job.PartCount.ToString(CultureInfo.InvariantCulture);
        string cores = job.CoresPerPart.ToString(CultureInfo.InvariantCulture);
        return $$"""
            #!/bin/bash
            #SBATCH --job-name=study-parts
            #SBATCH --array=1-{{count}}
            #SBATCH --cpus-per-task={{cores}}
            #SBATCH --requeue
            #SBATCH --open-mode=append
            #SBATCH --output={{LogPattern(job, "part-%a")}}
            part=$SLURM_ARRAY_TASK_ID
            {{ShellWords.Quote(job.Command)}} sweep {{ShellWords.Quote(job.StudyPath)}} --shard "$part/{{count}}" --workers {{cores}} --out {{ShellWords.Quote(job.PartFolder(""))}}"$part"
            status=$?

            # A detector that crashed or stayed silent is a result like any other; joining reports it.
            [ "$status" = 1 ] && exit 0

            # Killed: once more, from the journal. A part that is killed every time must not go round for ever.
            if [ "$status" -ge 128 ] && [ "${SLURM_RESTART_COUNT:-0}" -lt {{MostRestarts}} ]; then
                scontrol requeue "${SLURM_ARRAY_JOB_ID}_$part" && sleep 60
            fi
            exit "$status"

            """.ReplaceLineEndings("\n");
    }

    /// <summary>How many parts a script of earlier has.</summary>
    /// <param name="path">Path of the script.</param>
    /// <returns>The number; null when there is no such script.</returns>
    public static int? PartCountIn(string path)
    {
        const string Begin = "#SBATCH --array=1-";
        string? line = File.Exists(path) ? File.ReadLines(path).FirstOrDefault(l => l.StartsWith(Begin, StringComparison.Ordinal)) : null;
        return line is not null && int.TryParse(line.AsSpan(Begin.Length), NumberStyles.None, CultureInfo.InvariantCulture, out int count) ? count : null;
    }

    /// <summary>The script that joins the parts.</summary>
    /// <param name="job">The job.</param>
    public static string Join(ClusterJob job)
    {
        ArgumentNullException.ThrowIfNull(job);
        IEnumerable<string> folders = Enumerable.Range(1, job.PartCount).Select(p => job.PartFolder(p.ToString(CultureInfo.InvariantCulture)));
        return $$"""
            #!/bin/bash
            #SBATCH --job-name=study-join
            #SBATCH --requeue
            #SBATCH --open-mode=append
            #SBATCH --output={{LogPattern(job, "join")}}
            {{ShellWords.Quote(job.Command)}} sweep merge {{ShellWords.Quote(job.StudyPath)}} {{ShellWords.Quote(folders)}} --out {{ShellWords.Quote(job.ResultFolder)}}
            status=$?

            # A detector that did not answer is written into the result; the job itself is done.
            [ "$status" = 1 ] && exit 0
            exit "$status"

            """.ReplaceLineEndings("\n");
    }

    // The scheduler reads % in a path as the start of a field.
    private static string LogPattern(ClusterJob job, string name)
    {
        if (job.Folder.Any(c => char.IsWhiteSpace(c) || char.IsControl(c)))
        {
            throw new NotSupportedException($"{job.Folder} has a space in it, and a directive of the scheduler ends at one; choose another folder for --out.");
        }

        return $"{job.LogFolder.Replace("%", "%%", StringComparison.Ordinal)}/{name}.log";
    }
}
