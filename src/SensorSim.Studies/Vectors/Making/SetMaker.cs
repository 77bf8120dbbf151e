// SPDX-License-Identifier: MIT
using System.Runtime.ExceptionServices;
using SensorSim.Detectors.Choices;
using SensorSim.Files;
using SensorSim.Files.Output;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Makes a vector set from its plan, cases side by side.</summary>
public static class SetMaker
{
    /// <summary>Name and version of the detector whose answers the set expects.</summary>
    public static string Detector
    {
        get
        {
            using var factory = new LibraryFactory();
            return factory.Identity;
        }
    }

    /// <summary>Makes a set into a folder.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="folder">Takes the files; committed by the caller, who looks at the verdicts first.</param>
    /// <param name="draw">Gives the bytes of a case's picture (PNG); called by several threads at once.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="InputFileException">The plan asks for what a case's stream cannot give.</exception>
    public static MadeSet Make(SetPlan plan, OutputFolder folder, Func<CasePicture, byte[]> draw, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(draw);
        var turn = new Lock();
        var files = new SetFiles(path =>
        {
            lock (turn)
            {
                return folder.CreateFile(path);
            }
        });
        MadeSet made = Make(plan, files, draw, cancellation);
        byte[] manifest = SetManifestWriter.Bytes(made.Manifest);
        using (Stream stream = folder.CreateFile(SetNames.Manifest))
        {
            stream.Write(manifest);
        }

        using (Stream stream = folder.CreateFile(SetNames.Sidecar))
        {
            stream.Write(SetManifestWriter.Sidecar(Sha256Sum.Of(manifest)));
        }

        return made;
    }

    /// <summary>Makes every file but the manifest and its sum.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="files">Where they go.</param>
    /// <param name="draw">Gives the bytes of a picture; null: none are made, and the manifest lacks them.</param>
    /// <param name="cancellation">Ends the work.</param>
    internal static MadeSet Make(SetPlan plan, SetFiles files, Func<CasePicture, byte[]>? draw, CancellationToken cancellation)
    {
        MadeCase[] cases = new MadeCase[plan.Plan.Cases.Count];
        try
        {
            Parallel.For(0, cases.Length, new ParallelOptions { CancellationToken = cancellation, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
                cases[i] = new CaseMaker(files, plan.Plan.File, plan.Plan.Cases[i], draw).Make(cancellation));
        }
        catch (AggregateException e)
        {
            // What happened is what it is, in whichever case it was met first.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        files.Write(SetNames.Plan, plan.Plan.Bytes.Span);
        foreach (SetSource source in plan.Sources.Concat(plan.Attached))
        {
            files.Write(source.Path, source.Bytes.Span);
        }

        files.Write(SetNames.Index, SetIndex.Bytes(plan, cases, Detector));
        return new MadeSet(ManifestOf(plan, cases, files.Kept), cases);
    }

    private static SetManifest ManifestOf(SetPlan plan, MadeCase[] cases, IReadOnlyList<ManifestFile> files) => new()
    {
        Title = plan.Plan.Title,
        GeneratorVersion = Scenario.GeneratorVersion,
        Detector = Detector,
        PlanPlace = plan.Place,
        Requirements =
        [
            .. plan.Plan.Requirements.Select(r => new ManifestRequirement(
                r.Id, r.Text, r.Clause, r.Channel is { } channel ? Signals.Streams.ChannelNames.All[(int)channel] : "", Signals.Marks.MarkKinds.Text(r.Kind), r.Rule.Text())),
        ],
        Cases = [.. cases.Select(c => c.Facts)],
        Files = files,
    };
}
