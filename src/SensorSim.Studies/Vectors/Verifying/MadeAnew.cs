// SPDX-License-Identifier: MIT
using System.Collections.Concurrent;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>A set made again from its own plan and sources, compared with the disk while it was made.</summary>
internal sealed class MadeAnew
{
    private readonly ConcurrentDictionary<string, ByteComparison> _compared = new(StringComparer.Ordinal);
    private readonly SetOnDisk _disk;

    private MadeAnew(SetOnDisk disk) => _disk = disk;

    /// <summary>What was made; null when nothing could be.</summary>
    public MadeSet? Set { get; private set; }

    /// <summary>Why nothing was made: the end of a sentence.</summary>
    public string WhyNot { get; private set; } = "";

    /// <summary>Every file that was made, with its sum.</summary>
    public IReadOnlyDictionary<string, ManifestFile> Files { get; private set; } = new Dictionary<string, ManifestFile>();

    /// <summary>Makes a set again.</summary>
    /// <param name="disk">The set on the disk.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static MadeAnew Of(SetOnDisk disk, CancellationToken cancellation)
    {
        var anew = new MadeAnew(disk);
        try
        {
            anew.WhyNot = anew.Obstacle();
            if (anew.WhyNot.Length == 0)
            {
                anew.Make(cancellation);
            }
        }
        catch (ScenarioException e)
        {
            anew.WhyNot = $"its plan cannot be read: {e.Mistakes[0]}";
        }
        catch (Exception e) when (e is InputFileException or NotSupportedException)
        {
            anew.WhyNot = e.Message;
        }

        return anew;
    }

    /// <summary>Where a file first differs from what was made; null: nowhere, or it was not made.</summary>
    /// <param name="path">Path in the set.</param>
    public FirstDifference? DifferenceIn(string path)
    {
        if (!_compared.TryGetValue(path, out ByteComparison? compared) || compared.DifferenceAt < 0)
        {
            return null;
        }

        ManifestCase? one = Set?.Cases.Select(c => c.Facts).FirstOrDefault(c => path.StartsWith(c.Name + "/", StringComparison.Ordinal));
        return DifferenceFinder.Of(_disk, path, compared, one?.Channels.ToDictionary(c => c.Channel, c => c.RateHz, StringComparer.Ordinal) ?? []);
    }

    private string Obstacle()
    {
        if (_disk.Manifest is not SetManifest manifest)
        {
            return $"{SetNames.Manifest} cannot be read";
        }

        if (!_disk.IsPaired)
        {
            // Which of the two is damaged is not known yet, so nothing that it says stands in the way.
            return "";
        }

        if (manifest.GeneratorVersion != Scenario.GeneratorVersion)
        {
            return FormattableString.Invariant($"generator version {manifest.GeneratorVersion} made it, and this program has {Scenario.GeneratorVersion}");
        }

        ManifestFile? damaged = manifest.Files.FirstOrDefault(f => IsOrigin(f.Path) && !_disk.IsWhole(f));
        return damaged is null ? "" : $"{damaged.Path}, which it is made from, is damaged or missing";
    }

    private void Make(CancellationToken cancellation)
    {
        SetPlan plan = SetPlan.FromSet(_disk.Folder, _disk.Manifest!.PlanPlace);
        var files = new SetFiles(path =>
        {
            bool isThere = _disk.Files.TryGetValue(path, out FoundFile? found) && found.Bytes > 0 && _disk.FaultOf(path).Length == 0;
            return _compared[path] = new ByteComparison(isThere ? _disk.FullPath(path) : null);
        });
        Set = SetMaker.Make(plan, files, draw: null, cancellation);
        Files = files.Kept.ToDictionary(f => f.Path, StringComparer.Ordinal);
    }

    private static bool IsOrigin(string path) => path == SetNames.Plan || path.StartsWith(SetNames.Sources + "/", StringComparison.Ordinal);
}
