// SPDX-License-Identifier: MIT
using System.Buffers;
using System.Text;
using SensorSim.Files.VectorSets;
using SensorSim.Signals.Identity;
using SensorSim.Studies.Vectors.Sets;

namespace SensorSim.Studies.Vectors.Verifying;

/// <summary>Decides which of manifest and sum is damaged when the two do not belong together, and which manifest is to be believed.</summary>
internal static class ManifestJudge
{
    // A sum with a few wrong digits was damaged itself; of a damaged manifest nearly all digits differ (15 of 16 by chance).
    private const int FewDigits = 16;
    private static readonly SearchValues<byte> s_digits = SearchValues.Create("0123456789abcdef"u8);

    /// <summary>The manifest to believe, and what is wrong with the two files.</summary>
    /// <param name="disk">The set on the disk.</param>
    /// <param name="rebuilt">The manifest as the rest of the set gives it; null when it could not be made.</param>
    public static (SetManifest? Trusted, List<SetFinding> Findings) Of(SetOnDisk disk, SetManifest? rebuilt)
    {
        if (disk.IsPaired)
        {
            return disk.Manifest is null
                ? (rebuilt, [new SetFinding(SetNames.Manifest, FindingKind.Damaged, $"it cannot be read: {disk.ManifestFault}")])
                : (disk.Manifest, []);
        }

        if (disk.ManifestBytes is not byte[] bytes)
        {
            return (rebuilt, [disk.Files.ContainsKey(SetNames.Manifest)
                ? new SetFinding(SetNames.Manifest, FindingKind.Damaged, $"it cannot be read: {disk.ManifestFault}")
                : new SetFinding(SetNames.Manifest, FindingKind.Missing, $"it is not there, so only {SetNames.Sidecar} tells what it was")]);
        }

        if (disk.SidecarBytes is not byte[] sidecar)
        {
            return (disk.Manifest ?? rebuilt, [new SetFinding(SetNames.Sidecar, FindingKind.Missing, "it is not there, so nothing vouches for the manifest")]);
        }

        byte[]? rebuiltBytes = rebuilt is null ? null : SetManifestWriter.Bytes(rebuilt);
        if (rebuiltBytes is not null && rebuiltBytes.AsSpan().SequenceEqual(bytes))
        {
            return (disk.Manifest, [Sidecar()]);
        }

        if (rebuiltBytes is not null && SetManifestWriter.Sidecar(Sha256Sum.Of(rebuiltBytes)).AsSpan().SequenceEqual(sidecar))
        {
            FirstDifference where = Difference(bytes, rebuilt!);
            return (rebuilt, [new SetFinding(SetNames.Manifest, FindingKind.Damaged, where.Sentence) { Difference = where }]);
        }

        byte[] right = SetManifestWriter.Sidecar(Sha256Sum.Of(bytes));
        bool isSidecar = sidecar.Length != right.Length || !IsSum(sidecar) || right.Zip(sidecar).Count(p => p.First != p.Second) <= FewDigits;
        return isSidecar
            ? (disk.Manifest ?? rebuilt, [Sidecar()])
            : (disk.Manifest ?? rebuilt, [new SetFinding(SetNames.Manifest, FindingKind.Damaged, disk.Manifest is null
                ? $"its SHA-256 is not the one in {SetNames.Sidecar}, and it cannot be read: {disk.ManifestFault}"
                : $"its SHA-256 is not the one in {SetNames.Sidecar}")]);
    }

    /// <summary>Where the manifest first differs from what the rest of the set gives.</summary>
    /// <param name="bytes">The manifest on the disk.</param>
    /// <param name="rebuilt">What it has to be.</param>
    public static FirstDifference Difference(byte[] bytes, SetManifest rebuilt)
    {
        byte[] right = SetManifestWriter.Bytes(rebuilt);
        int at = right.AsSpan().CommonPrefixLength(bytes);
        long line = right.AsSpan(0, at).Count((byte)'\n') + 1;
        return new FirstDifference(at, FormattableString.Invariant($"line {line}"), LineAt(bytes, at), LineAt(right, at)) { Line = line };
    }

    private static SetFinding Sidecar() => new(SetNames.Sidecar, FindingKind.Damaged, $"it does not hold the SHA-256 of {SetNames.Manifest}, which is whole");

    private static bool IsSum(byte[] sidecar) =>
        sidecar.Length >= 64 && sidecar.AsSpan(0, 64).IndexOfAnyExcept(s_digits) < 0 && sidecar.AsSpan(64).SequenceEqual(SetManifestWriter.Sidecar("").AsSpan());

    private static string LineAt(byte[] bytes, int at)
    {
        int begin = bytes.AsSpan(0, at).LastIndexOf((byte)'\n') + 1;
        int length = bytes.AsSpan(begin).IndexOf((byte)'\n');
        return DifferenceFinder.Quote(Encoding.UTF8.GetString(bytes, begin, length < 0 ? bytes.Length - begin : length), Encoding.UTF8.GetCharCount(bytes, begin, at - begin));
    }
}
