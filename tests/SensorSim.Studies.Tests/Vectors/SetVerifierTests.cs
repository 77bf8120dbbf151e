// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Sets;
using SensorSim.Studies.Vectors.Verifying;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>Verifying of sets: whatever is changed is found, named, and placed.</summary>
public sealed class SetVerifierTests
{
    [Test]
    public void A_whole_set_is_sound_and_gives_a_sum_for_each_stream()
    {
        using var bench = new SetBench();
        bench.Make("set");
        SetVerification verified = bench.Verify("set");
        Assert.That(verified.Findings, Is.Empty);
        Assert.That(verified.WhyNotMade, Is.Empty);
        Assert.That(verified.Sums.Select(s => s.Case), Is.EqualTo(new[] { "rest", "lost" }));

        // As sha256sum has them: the sum of the lines "<sum>  <file>" of the raw files.
        string folder = bench["set/lost"];
        IEnumerable<string> names = new[] { "stimulus-channels.csv" }.Concat(VectorSet.Open(bench["set"]).Manifest.Cases[1].Channels.SelectMany(c => new[] { $"{c.Channel}.i32", $"{c.Channel}-runs.csv" }));
        string lines = string.Concat(names.Select(n => $"{SetFolder.Sha256Of(Path.Combine(folder, n))}  {n}\n"));
        Assert.That(verified.Sums[1].Sums.Stimulus, Is.EqualTo(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.ASCII.GetBytes(lines)))));
        Assert.That(verified.Sums[1].Sums.Truth, Is.EqualTo(SetFolder.Sha256Of(Path.Combine(folder, "truth.csv"))));
    }

    [Test]
    public void A_flipped_bit_in_any_file_is_found_and_that_file_named_alone() => Flip(seed: 1, flips: 60);

    [Test]
    [Category("Slow")]
    public void A_thousand_flipped_bits_are_found() => Flip(seed: 2, flips: 1000);

    [Test]
    public void The_first_difference_is_placed_in_the_terms_of_the_file()
    {
        using var bench = new SetBench();
        bench.Make("set");
        SetManifest manifest = bench.Manifest("set");
        byte[] codes = File.ReadAllBytes(bench["set/lost/ecg.i32"]);
        int code = BitConverter.ToInt32(codes, 4000);
        codes[4000] ^= 1;
        File.WriteAllBytes(bench["set/lost/ecg.i32"], codes);
        FirstDifference first = Only(bench.Verify("set"), "lost/ecg.i32").Difference!;

        // The thousandth code that came, placed by the list of stretches.
        long place = 1000;
        long sample = -1;
        foreach (string[] row in File.ReadLines(bench["set/lost/ecg-runs.csv"]).Skip(1).Select(l => l.Split(',')))
        {
            if (place < long.Parse(row[1], CultureInfo.InvariantCulture))
            {
                sample = long.Parse(row[0], CultureInfo.InvariantCulture) + place;
                break;
            }

            place -= long.Parse(row[1], CultureInfo.InvariantCulture);
        }

        Assert.That(sample, Is.GreaterThan(1000), "samples are missing before it");
        Assert.That((first.Byte, first.Channel, first.Sample, first.TimeS), Is.EqualTo((4000L, "ecg", sample, (double)sample / 250)));
        Assert.That((first.InFile, first.Made), Is.EqualTo(((code ^ 1).ToString(CultureInfo.InvariantCulture), code.ToString(CultureInfo.InvariantCulture))));
        codes[4000] ^= 1;
        File.WriteAllBytes(bench["set/lost/ecg.i32"], codes);

        // A field of the third line of truth.
        string[] lines = File.ReadAllLines(bench["set/rest/truth.csv"]);
        string[] fields = lines[2].Split(',');
        string right = fields[2];
        fields[2] = "123";
        lines[2] = string.Join(',', fields);
        File.WriteAllText(bench["set/rest/truth.csv"], string.Join('\n', lines) + "\n");
        SetFinding finding = Only(bench.Verify("set"), "rest/truth.csv");
        Assert.That(finding.Sentence, Does.StartWith("line 3, column time_ns of ").And.Contain($"\"123\" in the file, \"{right}\" when made anew"));
        Assert.That(finding.Difference!.Line, Is.EqualTo(3));
        lines[2] = lines[2].Replace(",123,", $",{right},", StringComparison.Ordinal);
        File.WriteAllText(bench["set/rest/truth.csv"], string.Join('\n', lines) + "\n");

        // The signal of the ECG is the first of a record of a second; the header has 256 bytes and as many for each signal.
        byte[] bdf = File.ReadAllBytes(bench["set/rest/stimulus.bdf"]);
        int header = int.Parse(System.Text.Encoding.ASCII.GetString(bdf, 184, 8), CultureInfo.InvariantCulture);
        int signals = int.Parse(System.Text.Encoding.ASCII.GetString(bdf, 252, 4), CultureInfo.InvariantCulture);
        int record = Enumerable.Range(0, signals).Sum(s => 3 * int.Parse(System.Text.Encoding.ASCII.GetString(bdf, 256 + (216 * signals) + (8 * s), 8), CultureInfo.InvariantCulture));
        int at = header + (2 * record) + (3 * 10);
        bdf[at] ^= 4;
        File.WriteAllBytes(bench["set/rest/stimulus.bdf"], bdf);
        first = Only(bench.Verify("set"), "rest/stimulus.bdf").Difference!;
        Assert.That((first.Byte, first.Sample, first.TimeS), Is.EqualTo(((long)at, 510L, 2.04)));
        Assert.That(first.Channel, Does.Contain("ECG").IgnoreCase);
        Assert.That(int.Parse(first.InFile, CultureInfo.InvariantCulture) ^ int.Parse(first.Made, CultureInfo.InvariantCulture), Is.EqualTo(4));
        Assert.That(manifest.Files, Has.Count.GreaterThan(20));
    }

    [Test]
    public void Files_missing_too_many_cut_short_or_made_longer_are_named()
    {
        using var bench = new SetBench();
        bench.Make("set");
        File.Delete(bench["set/rest/truth.csv"]);
        bench.Write("set/rest/notes.txt", "");
        byte[] picture = File.ReadAllBytes(bench["set/lost/picture.png"]);
        File.WriteAllBytes(bench["set/lost/picture.png"], picture[..^1]);
        File.AppendAllText(bench["set/lost/acquisition.csv"], "x");
        SetVerification verified = bench.Verify("set");
        Assert.That(verified.Findings.Select(f => (f.Path, f.Kind)), Is.EquivalentTo(new[]
        {
            ("lost/acquisition.csv", FindingKind.Damaged), ("lost/picture.png", FindingKind.Damaged), ("rest/truth.csv", FindingKind.Missing), ("rest/notes.txt", FindingKind.Extra),
        }));
        Assert.That(verified.Findings.Single(f => f.Path == "lost/picture.png").Sentence, Does.Contain($"{picture.Length - 1} bytes instead of {picture.Length}"));
        Assert.That(() => VectorSet.Open(bench["set"]), Throws.TypeOf<InputFileException>());
    }

    // A file of the wrong size is damaged whatever it holds: it is told at once, not after its bytes were summed. Nor is what the manifest does not list.
    [Test]
    public void Files_of_the_wrong_size_are_not_summed()
    {
        using var bench = new SetBench();
        bench.Make("set");
        long picture = new FileInfo(bench["set/lost/picture.png"]).Length;
        Grow(bench["set/lost/picture.png"]);
        Grow(bench["set/rest/ecg.i32"]);
        Grow(bench["set/notes.bin"]);

        SetOnDisk disk = SetOnDisk.Read(bench["set"]);
        Assert.That(disk.Summed, Does.Contain("rest/picture.png").And.Contain("rest/truth.csv"));
        Assert.That(disk.Summed.Intersect(["lost/picture.png", "rest/ecg.i32", "notes.bin"]), Is.Empty);
        Assert.That(() => VectorSet.Open(bench["set"]), Throws.TypeOf<InputFileException>().With.Message.Contains("its size or its SHA-256"));
        SetVerification verified = bench.Verify("set");
        Assert.That(verified.Findings.Select(f => f.Path), Is.EquivalentTo(new[] { "lost/picture.png", "rest/ecg.i32", "notes.bin" }));
        Assert.That(verified.Findings.Single(f => f.Path == "lost/picture.png").Sentence, Is.EqualTo($"it has {1L << 30} bytes instead of {picture}"));
        Assert.That(verified.Findings.Single(f => f.Path == "rest/ecg.i32").Sentence, Does.Contain($", and it has {1L << 30} bytes instead of "));

        // A gigabyte of nothing: it takes no room on the disk.
        static void Grow(string path)
        {
            using FileStream file = File.OpenWrite(path);
            file.SetLength(1 << 30);
        }
    }

    [Test]
    public void Sums_that_were_forged_do_not_help()
    {
        using var bench = new SetBench();
        bench.Make("set");
        string expected = File.ReadAllText(bench["set/rest/expected.csv"]);
        string first = expected.Split('\n')[1];
        bench.Forge("set", "rest/expected.csv", System.Text.Encoding.UTF8.GetBytes(expected.Replace(first + "\n", "", StringComparison.Ordinal)));
        SetFinding finding = Only(bench.Verify("set"), "rest/expected.csv");
        Assert.That(finding.Kind, Is.EqualTo(FindingKind.Different));
        Assert.That(finding.Difference!.Line, Is.EqualTo(2));
    }

    [Test]
    public void A_manifest_that_says_something_else_of_sound_files_is_told()
    {
        using var bench = new SetBench();
        bench.Make("set");
        bench.Forge("set", bench.Manifest("set") with { Title = "Another" });
        SetFinding finding = Only(bench.Verify("set"), SetNames.Manifest);
        Assert.That(finding.Sentence, Does.Contain("line 3").And.Contain("Another").And.Contain("Bench"));
    }

    [Test]
    public void A_set_of_another_version_is_opened_and_told_to_be_one()
    {
        using var bench = new SetBench();
        bench.Make("set");
        SetManifest manifest = bench.Manifest("set");
        bench.Forge("set", manifest with { GeneratorVersion = manifest.GeneratorVersion - 1 });
        SetVerification verified = bench.Verify("set");
        Assert.That(Only(verified, SetNames.Manifest).Kind, Is.EqualTo(FindingKind.OtherVersion));
        Assert.That(verified.WhyNotMade, Does.Contain("generator version"));
        VectorSet set = VectorSet.Open(bench["set"]);
        Assert.That((set.CanBeMadeHere, set.Cases.Count), Is.EqualTo((false, 2)));
        bench.Forge("set", manifest with { Detector = "sensorsim 0.1" });
        verified = bench.Verify("set");
        Assert.That(Only(verified, SetNames.Manifest).Sentence, Does.Contain("sensorsim 0.1"));
        Assert.That(verified.Sums, Has.Count.EqualTo(2), "samples and truth are made again all the same");
    }

    // Nothing vouches for its manifest, so it is made again; that the version differs is said beside what differs.
    [Test]
    public void A_set_of_another_version_without_its_sum_is_told_to_be_both()
    {
        using var bench = new SetBench();
        bench.Make("set");
        SetManifest manifest = bench.Manifest("set");
        foreach (SetManifest other in new[] { manifest with { GeneratorVersion = manifest.GeneratorVersion - 1 }, manifest with { Detector = "sensorsim 0.1" } })
        {
            bench.Forge("set", other);
            File.Delete(bench["set/manifest.sha256"]);
            SetFinding[] findings = [.. bench.Verify("set").Findings];
            Assert.That(findings.Select(f => (f.Path, f.Kind)), Is.EqualTo(new[] { (SetNames.Sidecar, FindingKind.Missing), (SetNames.Manifest, FindingKind.OtherVersion) }));
            Assert.That(findings[1].Sentence, Does.StartWith($"it names generator version {other.GeneratorVersion} and {other.Detector}; this program has "));
        }
    }

    [Test]
    public void A_missing_or_foreign_sum_and_a_missing_manifest_are_told_apart()
    {
        using var bench = new SetBench();
        bench.Make("set");
        byte[] sidecar = File.ReadAllBytes(bench["set/manifest.sha256"]);
        File.Delete(bench["set/manifest.sha256"]);
        Assert.That(Only(bench.Verify("set"), SetNames.Sidecar).Kind, Is.EqualTo(FindingKind.Missing));
        File.WriteAllText(bench["set/manifest.sha256"], "");
        Assert.That(Only(bench.Verify("set"), SetNames.Sidecar).Kind, Is.EqualTo(FindingKind.Damaged));
        File.WriteAllBytes(bench["set/manifest.sha256"], sidecar);
        File.Delete(bench["set/manifest.json"]);
        Assert.That(Only(bench.Verify("set"), SetNames.Manifest).Kind, Is.EqualTo(FindingKind.Missing));
        File.Delete(bench["set/manifest.sha256"]);
        Assert.That(() => bench.Verify("set"), Throws.TypeOf<InputFileException>().With.Message.Contains("holds no manifest.json"));
        Assert.That(() => bench.Verify("nowhere"), Throws.TypeOf<InputFileException>().With.Message.Contains("there is no such folder"));
    }

    private static void Flip(int seed, int flips)
    {
        using var bench = new SetBench();
        bench.Make("set");
        string[] files = [.. bench.Bytes("set").Keys.Order(StringComparer.Ordinal)];
        var random = new Random(seed);
        var missed = new List<string>();
        for (int i = 0; i < flips; i++)
        {
            // Each file first, then any: large files must not be the only ones that are hit.
            string file = files[i < files.Length ? i : random.Next(files.Length)];
            string path = Path.Combine(bench["set"], file);
            byte[] bytes = File.ReadAllBytes(path);
            int at = random.Next(bytes.Length);
            int bit = random.Next(8);
            bytes[at] ^= (byte)(1 << bit);
            File.WriteAllBytes(path, bytes);
            IReadOnlyList<SetFinding> findings = bench.Verify("set").Findings;
            if (findings.Count != 1 || findings[0].Path != file)
            {
                missed.Add($"bit {bit} of byte {at} of {file}: {string.Join("; ", findings.Select(f => $"{f.Path} {f.Sentence}"))}");
            }

            bytes[at] ^= (byte)(1 << bit);
            File.WriteAllBytes(path, bytes);
        }

        Assert.That(missed, Is.Empty);
        Assert.That(bench.Verify("set").Findings, Is.Empty);
    }

    private static SetFinding Only(SetVerification verified, string path)
    {
        Assert.That(verified.Findings.Select(f => f.Path), Is.EqualTo(new[] { path }), string.Join('\n', verified.Findings.Select(f => f.Sentence)));
        return verified.Findings[0];
    }
}
