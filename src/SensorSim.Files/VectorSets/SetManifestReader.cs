// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Files.VectorSets;

/// <summary>Reads a manifest; what it says is checked before anything is done with it.</summary>
public static class SetManifestReader
{
    /// <summary>Largest manifest that is read [bytes].</summary>
    public const int LargestBytes = 1 << 24;

    private const int MostNesting = 8;
    private const long MostBytes = 1L << 40;

    /// <summary>Reads the bytes of a manifest.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="file">Name of the file, for messages.</param>
    /// <exception cref="InputFileException">They are not a manifest that this program can read.</exception>
    public static SetManifest Read(ReadOnlyMemory<byte> bytes, string file)
    {
        try
        {
            using var document = JsonDocument.Parse(bytes, new JsonDocumentOptions { MaxDepth = MostNesting });
            var root = new ManifestNode(document.RootElement, file, "");
            long schema = root.Integer("schema_version", 1, int.MaxValue);
            if (schema > SetManifest.CurrentSchema)
            {
                throw root.Error(FormattableString.Invariant($"schema_version is {schema}; this program reads up to {SetManifest.CurrentSchema}, take a newer one"));
            }

            return Read(root, (int)schema);
        }
        catch (JsonException e)
        {
            throw new InputFileException(
                file, (e.LineNumber ?? -1) + 1, (int)Math.Min(int.MaxValue - 1, e.BytePositionInLine ?? 0) + 1, "this is not JSON; a manifest is one JSON object.", e);
        }
        catch (InvalidOperationException e)
        {
            // What a string holds is decoded only when it is asked for.
            throw new InputFileException(file, 0, 0, "a text in it is not UTF-8; a manifest is one JSON object in UTF-8.", e);
        }
    }

    private static SetManifest Read(ManifestNode root, int schema)
    {
        var manifest = new SetManifest
        {
            SchemaVersion = schema,
            Title = root.Line("title"),
            GeneratorVersion = (int)root.Integer("generator_version", 1, int.MaxValue),
            Detector = root.Line("detector"),
            PlanPlace = root.Path("plan_place"),
            Requirements = [.. root.List("requirements").Select(r => new ManifestRequirement(
                r.Text("id"), r.Text("text"), r.Text("clause"), r.Text("channel"), r.Text("kind"), r.Text("rule")))],
            Cases = [.. root.List("cases").Select(ReadCase)],
            Files = [.. root.List("files").Select(f => new ManifestFile(f.Path("path"), f.Integer("bytes", 0, MostBytes), f.Sum("sha256")))],
        };
        if (manifest.Files.Count > SetFolder.MostFiles)
        {
            throw root.Error(FormattableString.Invariant($"files lists {manifest.Files.Count}; at most {SetFolder.MostFiles} are taken"));
        }

        // Some disks tell capitals apart and some do not: on those two such files would be one.
        var seen = new HashSet<string>([SetNames.Manifest, SetNames.Sidecar], StringComparer.OrdinalIgnoreCase);
        if (manifest.Files.FirstOrDefault(f => !seen.Add(f.Path)) is ManifestFile twice)
        {
            throw root.Error($"files lists {twice.Path} twice, or where it must not stand; each file stands once, and neither the manifest nor its sum");
        }

        var names = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
        if (manifest.Cases.FirstOrDefault(c => !names.Add(c.Name)) is ManifestCase again)
        {
            throw root.Error($"cases lists {again.Name} twice; each has a name of its own");
        }

        return manifest;
    }

    private static ManifestCase ReadCase(ManifestNode one)
    {
        ManifestNode sums = one.Node("sha256");
        string name = one.Path("name");
        return new ManifestCase
        {
            Name = name.Contains('/', StringComparison.Ordinal) ? throw one.Error("name must not hold a slash; it is a folder of the set") : name,
            About = one.Text("about"),
            Scenario = one.Text("scenario"),
            Seed = (ulong)one.Integer("seed", 0, long.MaxValue),
            DurationS = one.Number("duration_s"),
            Calibration = one.Text("calibration"),
            Disturbance = one.Text("disturbance"),
            Level = one.Text("level"),
            Requirements = one.Texts("requirements"),
            Deviations = [.. one.List("known_deviations").Select(d => new ManifestDeviation(d.Text("requirement"), d.Text("reason")))],
            Channels = [.. one.List("channels").Select(c => new ManifestChannel(
                c.Text("channel"), (int)c.Integer("rate_hz", 1, int.MaxValue), (int)c.Integer("bits", 1, 64), c.Integer("sample_count", 0, MostBytes)))],
            Stimulus = one.Texts("stimulus"),
            Sums = new StreamSums(sums.Sum("stimulus"), sums.Sum("truth"), sums.Sum("acquisition"), sums.Sum("acceptance"), sums.Sum("expected")),
            Headers = [.. one.List("headers").Select(h => new ManifestHeader(
                h.Path("file"),
                h.Path("expected"),
                h.Texts("channels"),
                (int)h.Integer("bits", 1, 64),
                (int)h.Integer("keep_every", 1, int.MaxValue),
                h.Integer("array_bytes", 0, MostBytes)))],
        };
    }
}
