// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>Looks at every file of a set: by its sum, and by making it again.</summary>
/// <remarks>Pictures are looked at by their sums alone: how a line is drawn may change from machine to machine.</remarks>
public static class SetVerifier
{
    /// <summary>Looks at a set.</summary>
    /// <param name="folder">Its folder; nothing in it is changed, nothing outside of it is read.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="InputFileException">It is no set, or holds a link.</exception>
    public static SetVerification Verify(string folder, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        SetOnDisk disk = SetOnDisk.Read(folder);
        MadeAnew anew = MadeAnew.Of(disk, cancellation);
        SetManifest? rebuilt = Rebuilt(disk, anew);
        (SetManifest? trusted, List<SetFinding> findings) = ManifestJudge.Of(disk, rebuilt);
        if (trusted is not null)
        {
            bool hasOtherDetector = trusted.Detector != SetMaker.Detector;
            findings.AddRange(trusted.Files.Select(f => Look(disk, anew, f, hasOtherDetector)).OfType<SetFinding>());
            HashSet<string> listed = [.. trusted.Files.Select(f => f.Path), SetNames.Manifest, SetNames.Sidecar];
            findings.AddRange(disk.Files.Keys.Order(StringComparer.Ordinal).Where(f => !listed.Contains(f)).Select(f => new SetFinding(
                f, FindingKind.Extra, "the manifest does not list it; nothing else may lie in the folder of a set")));
            AddVersions(trusted, anew, disk, findings);
            if (findings.Count == 0 && rebuilt is not null && !SetManifestWriter.Bytes(rebuilt).AsSpan().SequenceEqual(disk.ManifestBytes))
            {
                findings.Add(new SetFinding(SetNames.Manifest, FindingKind.Different, $"every file is as it says, but it is not what the plan gives: {ManifestJudge.Difference(disk.ManifestBytes!, rebuilt).Sentence}"));
            }
        }

        return new SetVerification(
            findings, disk.Manifest, anew.Set is null ? [] : [.. anew.Set.Cases.Select(c => (c.Case.Name, c.Facts.Sums))], anew.WhyNot)
        {
            FileCount = disk.Files.Count,
            Verdicts = anew.Set is null ? [] : [.. anew.Set.Cases.SelectMany(c => c.Verdicts)],
        };
    }

    // What the manifest has to be: everything made, and the pictures as they lie there.
    private static SetManifest? Rebuilt(SetOnDisk disk, MadeAnew anew)
    {
        if (anew.Set is not MadeSet made)
        {
            return null;
        }

        IEnumerable<ManifestFile> pictures = made.Cases.Select(c => $"{c.Case.Name}/{SetNames.Picture}")
            .Select(disk.Picture).OfType<ManifestFile>();
        return made.Manifest with { Files = [.. made.Manifest.Files.Concat(pictures).OrderBy(f => f.Path, StringComparer.Ordinal)] };
    }

    private static SetFinding? Look(SetOnDisk disk, MadeAnew anew, ManifestFile file, bool hasOtherDetector)
    {
        if (!disk.Files.TryGetValue(file.Path, out FoundFile? found))
        {
            return new SetFinding(file.Path, FindingKind.Missing, "the manifest lists it, and it is not there");
        }

        bool isWhole = disk.IsWhole(file);
        if (disk.FaultOf(file.Path) is { Length: > 0 } fault)
        {
            return new SetFinding(file.Path, FindingKind.Damaged, $"cannot be read: {fault}");
        }

        bool isMade = anew.Files.TryGetValue(file.Path, out ManifestFile? made) && !(hasOtherDetector && IsOfDetector(file.Path));
        if (!isWhole)
        {
            FirstDifference? where = isMade && made!.Sha256 == file.Sha256 ? anew.DifferenceIn(file.Path) : null;
            string size = found.Bytes == file.Bytes ? "" : FormattableString.Invariant($"it has {found.Bytes} bytes instead of {file.Bytes}");
            string what = where is null ? (size.Length > 0 ? size : "its SHA-256 is not the manifest's") : where.Sentence + (size.Length > 0 ? $", and {size}" : "");
            return new SetFinding(file.Path, FindingKind.Damaged, what) { Difference = where };
        }

        if (isMade && made!.Sha256 != file.Sha256)
        {
            FirstDifference? where = anew.DifferenceIn(file.Path);
            return new SetFinding(
                file.Path, FindingKind.Different, $"it is as the manifest says, but this program makes something else: {where?.Sentence ?? "where is not known"}")
            {
                Difference = where,
            };
        }

        return null;
    }

    private static void AddVersions(SetManifest manifest, MadeAnew anew, SetOnDisk disk, List<SetFinding> findings)
    {
        if (!disk.IsPaired)
        {
            // It was made again all the same, for the version may be what is damaged. If it is not, it explains what is made differently.
            if (manifest.GeneratorVersion != Scenario.GeneratorVersion || manifest.Detector != SetMaker.Detector)
            {
                findings.Add(new SetFinding(SetNames.Manifest, FindingKind.OtherVersion, FormattableString.Invariant(
                    $"it names generator version {manifest.GeneratorVersion} and {manifest.Detector}; this program has {Scenario.GeneratorVersion} and {SetMaker.Detector}, and may make other files for that alone")));
            }

            return;
        }

        if (manifest.GeneratorVersion != Scenario.GeneratorVersion)
        {
            findings.Add(new SetFinding(SetNames.Manifest, FindingKind.OtherVersion, FormattableString.Invariant(
                $"made by generator version {manifest.GeneratorVersion}; this program has {Scenario.GeneratorVersion} and cannot make its samples again, so only sums were looked at")));
        }
        else if (manifest.Detector != SetMaker.Detector)
        {
            findings.Add(new SetFinding(SetNames.Manifest, FindingKind.OtherVersion,
                $"its expected answers are those of {manifest.Detector}; this program has {SetMaker.Detector} and cannot give them again, so of these only sums were looked at"));
        }
        else if (anew.Set is null && findings.Count == 0)
        {
            findings.Add(new SetFinding(SetNames.Plan, FindingKind.Different, $"every sum is right, but the set cannot be made again: {anew.WhyNot}"));
        }
    }

    private static bool IsOfDetector(string path) =>
        path == SetNames.Index || path.EndsWith("/" + SetNames.Expected, StringComparison.Ordinal) || path.EndsWith("." + SetNames.Expected, StringComparison.Ordinal);
}
