// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.VectorSets;

namespace SensorSim.Files.Tests.VectorSets;

/// <summary>The manifest: canonical, and nothing in it leads out of its folder.</summary>
public sealed class SetManifestTests
{
    private const string Sum = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

    [Test]
    public void The_same_content_gives_the_same_bytes_and_comes_back()
    {
        byte[] bytes = SetManifestWriter.Bytes(Manifest("rest/truth.csv"));
        SetManifest read = SetManifestReader.Read(bytes, "manifest.json");
        Assert.That(SetManifestWriter.Bytes(read), Is.EqualTo(bytes));
        Assert.That(read.Cases[0].Headers[0].Channels, Is.EqualTo(new[] { "ecg" }));
        Assert.That(Encoding.UTF8.GetString(bytes), Does.EndWith("}\n").And.Not.Contain("\r"));
    }

    [TestCase("../rest/truth.csv")]
    [TestCase("/etc/hosts")]
    [TestCase("rest/../../truth.csv")]
    [TestCase("rest//truth.csv")]
    [TestCase("C:/truth.csv")]
    [TestCase("rest\\truth.csv")]
    [TestCase("./truth.csv")]
    [TestCase(".hidden")]
    [TestCase("-rf")]
    [TestCase("con.csv")]
    [TestCase("rest/truth.csv ")]
    [TestCase("")]
    [TestCase("manifest.json")]
    [TestCase("MANIFEST.SHA256")]
    public void A_path_that_could_lead_elsewhere_is_refused(string path)
    {
        byte[] bytes = SetManifestWriter.Bytes(Manifest(path));
        Assert.That(() => SetManifestReader.Read(bytes, "manifest.json"), Throws.TypeOf<InputFileException>().With.Message.StartsWith("manifest.json: ").And.Message.Not.Contains("\n"));
    }

    [Test]
    public void A_path_that_stands_twice_is_refused_whatever_its_capitals()
    {
        SetManifest twice = Manifest("rest/truth.csv");
        byte[] bytes = SetManifestWriter.Bytes(twice with { Files = [.. twice.Files, new ManifestFile("Rest/Truth.csv", 0, Sum)] });
        Assert.That(() => SetManifestReader.Read(bytes, "m"), Throws.TypeOf<InputFileException>().With.Message.Contains("twice"));
    }

    [TestCase("\"schema_version\": 1", "\"schema_version\": 2", "schema_version is 2; this program reads up to 1")]
    [TestCase("\"bytes\": 0", "\"bytes\": 1e400", "files[0]: bytes must be a whole number")]
    [TestCase("\"bytes\": 0", "\"bytes\": -1", "files[0]: bytes must be a whole number")]
    [TestCase("\"bytes\": 0", "\"bytes\": 99999999999999999999", "files[0]: bytes must be a whole number")]
    [TestCase("\"duration_s\": 20", "\"duration_s\": 1e999", "cases[0]: duration_s must be a finite number")]
    [TestCase("\"title\": \"Rest\"", "\"title\": 5", "title must be a text")]
    [TestCase("\"title\": \"Rest\"", "\"title\": \"\\ud800\"", "UTF-8")]
    [TestCase("\"title\": \"Rest\"", "\"tilte\": \"Rest\"", "title is missing")]
    [TestCase("\"files\": [", "\"files\": [[[[[[[[[[", "this is not JSON")]
    [TestCase(Sum, "E3b0", "SHA-256")]
    public void What_is_not_a_manifest_is_told_in_one_sentence(string right, string wrong, string sentence)
    {
        string text = Encoding.UTF8.GetString(SetManifestWriter.Bytes(Manifest("rest/truth.csv")));
        Assert.That(text, Does.Contain(right));
        byte[] bytes = Encoding.UTF8.GetBytes(text.Replace(right, wrong, StringComparison.Ordinal));
        Assert.That(() => SetManifestReader.Read(bytes, "m"), Throws.TypeOf<InputFileException>().With.Message.Contains(sentence).And.Message.Not.Contains("\n"));
    }

    [Test]
    public void Bytes_changed_at_random_never_do_worse_than_a_sentence()
    {
        byte[] bytes = SetManifestWriter.Bytes(Manifest("rest/truth.csv"));
        var random = new Random(11);
        for (int i = 0; i < 3000; i++)
        {
            byte[] broken = [.. bytes];
            for (int k = 0; k <= i % 3; k++)
            {
                broken[random.Next(broken.Length)] = (byte)random.Next(256);
            }

            Memory<byte> cut = broken.AsMemory(0, i % 2 == 0 ? broken.Length : random.Next(broken.Length));
            try
            {
                SetManifestReader.Read(cut, "m");
            }
            catch (InputFileException e)
            {
                Assert.That(e.Message, Does.Not.Contain("\n"));
            }
        }
    }

    [Test]
    public void A_link_in_the_folder_is_refused_and_a_pipe_is_not_opened()
    {
        using var folder = new TestFolder();
        folder.Write("manifest.json", "{}");
        using (var mkfifo = System.Diagnostics.Process.Start("mkfifo", folder["pipe"]))
        {
            mkfifo.WaitForExit();
        }

        Assert.That(SetFolder.Files(folder.Root).Select(f => (f.Path, f.Bytes)), Is.EqualTo(new[] { ("manifest.json", 2L), ("pipe", 0L) }));
        Assert.That(() => SetFolder.ReadSmall(folder["pipe"], 10), Throws.TypeOf<InputFileException>().With.Message.Contains("is empty"));
        File.CreateSymbolicLink(folder["link.csv"], "/etc/hosts");
        Assert.That(() => SetFolder.Files(folder.Root), Throws.TypeOf<InputFileException>().With.Message.Contains("link.csv").And.Message.Contains("is a link"));
        File.Delete(folder["link.csv"]);
        Directory.CreateSymbolicLink(folder["rest"], "/etc");
        Assert.That(() => SetFolder.Files(folder.Root), Throws.TypeOf<InputFileException>().With.Message.Contains("rest").And.Message.Contains("is a link"));
        Assert.That(() => SetFolder.ReadSmall(folder["rest"], 10), Throws.TypeOf<InputFileException>());
    }

    private static SetManifest Manifest(string path) => new()
    {
        Title = "Rest",
        GeneratorVersion = 3,
        Detector = "sensorsim 0.4",
        PlanPlace = "vectors/plan.toml",
        Requirements = [new ManifestRequirement("ECG-1", "Every beat is found: é", "own", "ecg", "r_peak", "marks")],
        Cases =
        [
            new ManifestCase
            {
                Name = "rest",
                About = "",
                Scenario = "../a.toml",
                Seed = 1,
                DurationS = 20,
                Calibration = "",
                Disturbance = "none",
                Level = "pass",
                Requirements = ["ECG-1"],
                Deviations = [new ManifestDeviation("ECG-1", "because")],
                Channels = [new ManifestChannel("ecg", 250, 18, 5000)],
                Stimulus = ["raw"],
                Sums = new StreamSums(Sum, Sum, Sum, Sum, Sum),
                Headers = [new ManifestHeader("rest/rest.h", "rest/rest.expected.csv", ["ecg"], 16, 1, 10_000)],
            },
        ],
        Files = [new ManifestFile(path, 0, Sum)],
    };
}
