// SPDX-License-Identifier: MIT
using System.CommandLine;
using System.Globalization;
using SensorSim.Cli.Options;
using SensorSim.Cli.Output;
using SensorSim.Files.Output;
using SensorSim.Studies.Clusters;
using SensorSim.Studies.Plans;

namespace SensorSim.Cli.Commands;

/// <summary><c>sweep submit</c>: writes the scripts that make a study in parts on a cluster, and hands them to its scheduler.</summary>
internal static class SubmitCommand
{
    private const string Slurm = "slurm";
    private const string Kubernetes = "kubernetes";
    private const string ManifestName = "job.yaml";

    public static Command Create(Terminal terminal, CancellationToken cancellation)
    {
        var study = new Argument<string>("STUDY") { Description = "Study file (TOML), on a disk that every machine of the cluster sees" };
        var engine = new Option<string>("--engine")
        {
            Description = "slurm: a job array; kubernetes: the manifest of an indexed job, written and not submitted",
            HelpName = "ENGINE",
            DefaultValueFactory = _ => Slurm,
        };
        engine.AcceptOnlyFromAmong(Slurm, Kubernetes);
        Option<string?> outFolder = CommonOptions.Out("Folder for scripts, logs, parts and result, on a disk that every machine of the cluster sees; must be given");
        Option<long?> parts = NumberOption.Whole("--parts", "Parts at most; 100 unless given", 1, 10_000);
        Option<long?> workers = NumberOption.Whole("--workers", "Cores of each part; 1 unless given", 1, 1024);
        Option<double?> partSeconds = NumberOption.Real("--part-seconds", "Shortest time of a part [s]; parts are made fewer until none is shorter; 10 unless given", 0.1, 86_400);
        var writeOnly = new Option<bool>("--write-only") { Description = "Write the scripts and submit nothing" };
        var image = new Option<string?>("--image") { Description = "Kubernetes: image that holds the command sensorsim", HelpName = "IMAGE" };
        var claim = new Option<string?>("--claim") { Description = "Kubernetes: volume claim with the study, seen by the pods as " + KubernetesManifest.MountPath, HelpName = "NAME" };
        var command = new Command("submit", "Cut a study into parts and hand them to a cluster's scheduler; the last job joins them.")
        {
            study, engine, outFolder, parts, workers, partSeconds, writeOnly, image, claim,
        };
        command.SetAction(parsed =>
        {
            string path = parsed.GetRequiredValue(study);
            StudyPlan plan = PlanReader.ReadFile(path);
            SweepCommand.RefuseToCut(plan);
            string folder = SweepCommand.OutOf(parsed.GetValue(outFolder));
            int cores = (int)(parsed.GetValue(workers) ?? 1);
            int count = SlurmScripts.PartCountIn(Path.Combine(folder, SlurmScripts.PartsName)) is int earlier ? Earlier(earlier, folder, terminal) : Count(plan, (int)(parsed.GetValue(parts) ?? 100), cores, parsed.GetValue(partSeconds) ?? PartCounts.ShortestPartS, terminal, cancellation);
            return parsed.GetRequiredValue(engine) == Kubernetes
                ? WriteManifest(path, folder, count, cores, parsed.GetValue(image), parsed.GetValue(claim), terminal)
                : Submit(path, folder, count, cores, parsed.GetValue(writeOnly), terminal);
        });
        return command;
    }

    // Finished parts are kept, and a study cut otherwise would not fit them.
    private static int Earlier(int count, string folder, Terminal terminal)
    {
        terminal.Say(string.Create(CultureInfo.InvariantCulture, $"{folder} holds scripts of {count} parts: the study is cut as before, and what is finished is not made twice"));
        return count;
    }

    private static int Count(StudyPlan plan, int wanted, int cores, double partSeconds, Terminal terminal, CancellationToken cancellation)
    {
        using var detectors = new OpenDetectors(plan);
        plan = PlanReader.CheckConstants(plan, detectors.Factories);
        double each = RunTimer.SecondsPerRun(plan, detectors.Factories, TimeSpan.FromSeconds(2), cancellation);
        int count = PartCounts.Of(wanted, plan.RunCount, each, cores, partSeconds);
        terminal.Say(string.Create(CultureInfo.InvariantCulture, $"{plan.RunCount} runs of about {each * 1000:0.#} ms: {count} {(count == 1 ? "part" : "parts")}"));
        return count;
    }

    private static int Submit(string path, string folder, int count, int cores, bool isWriteOnly, Terminal terminal)
    {
        var job = new ClusterJob
        {
            Command = OwnCommand(),
            StudyPath = Path.GetFullPath(path),
            Folder = Path.GetFullPath(folder).TrimEnd('/'),
            PartCount = count,
            CoresPerPart = cores,
        };
        using (OutputFolder output = OutputPlace.Open(folder))
        {
            WriteText(output, SlurmScripts.PartsName, SlurmScripts.Parts(job));
            WriteText(output, SlurmScripts.JoinName, SlurmScripts.Join(job));
            output.Commit();
        }

        Directory.CreateDirectory(job.LogFolder);
        string parts = Path.Combine(job.Folder, SlurmScripts.PartsName);
        string join = Path.Combine(job.Folder, SlurmScripts.JoinName);
        if (isWriteOnly)
        {
            terminal.Out.WriteLine(parts);
            terminal.Out.WriteLine(join);
            return ExitCodes.Done;
        }

        (string partsJob, string joinJob) = SlurmQueue.Submit(parts, join);
        terminal.Out.WriteLine($"{partsJob} {joinJob}");
        terminal.Say($"submitted: job {partsJob} makes {count} parts, job {joinJob} joins them into {job.ResultFolder}");
        return ExitCodes.Done;
    }

    private static int WriteManifest(string path, string folder, int count, int cores, string? image, string? claim, Terminal terminal)
    {
        if (image is null || claim is null)
        {
            throw new UsageException("--engine kubernetes needs --image IMAGE and --claim NAME: what to run, and the volume with the study");
        }

        var job = new ClusterJob
        {
            Command = ["sensorsim"],
            StudyPath = $"{KubernetesManifest.MountPath}/{Path.GetFileName(path)}",
            Folder = $"{KubernetesManifest.MountPath}/parts",
            PartCount = count,
            CoresPerPart = cores,
        };
        using OutputFolder output = OutputPlace.Open(folder);
        WriteText(output, ManifestName, KubernetesManifest.Text(job, NameOf(path), image, claim));
        output.Commit();
        terminal.Out.WriteLine(Path.Combine(folder, ManifestName));
        terminal.Say($"copy the study and its scenario to the volume {claim}, apply the manifest, then join: sensorsim sweep merge STUDY part-1 … part-{count} --out result");
        return ExitCodes.Done;
    }

    private static string NameOf(string path)
    {
        string name = new([.. Path.GetFileNameWithoutExtension(path).ToLowerInvariant().Select(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) ? c : '-')]);
        name = "study-" + name.Trim('-');
        return name[..Math.Min(50, name.Length)].TrimEnd('-');
    }

    // Started as "dotnet sensorsim.dll", the process is the runtime and the program its first argument.
    private static string[] OwnCommand()
    {
        string process = Environment.ProcessPath ?? throw new IOException("the path of this program cannot be found");
        return Path.GetFileNameWithoutExtension(process) == "dotnet" ? [process, Path.Combine(AppContext.BaseDirectory, "sensorsim.dll")] : [process];
    }

    private static void WriteText(OutputFolder folder, string name, string text)
    {
        using Stream stream = folder.CreateFile(name);
        stream.Write(System.Text.Encoding.UTF8.GetBytes(text));
    }
}
