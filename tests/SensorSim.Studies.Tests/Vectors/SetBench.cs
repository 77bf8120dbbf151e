// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Files.Output;
using SensorSim.Files.VectorSets;
using SensorSim.Studies.Vectors.Making;
using SensorSim.Studies.Vectors.Verifying;

namespace SensorSim.Studies.Tests.Vectors;

/// <summary>A small plan on the disk, in folders like the project's own, and sets made of it; removed with it.</summary>
internal sealed class SetBench : IDisposable
{
    /// <summary>A case at rest with every form of samples and two headers, and one with lost samples and lost contact.</summary>
    public const string Plan = """
        [set]
        title = "Bench"
        about = "For tests | of *sets*."

        [[requirement]]
        id = "ECG-1"
        text = "Every beat is found, and nothing else."
        clause = "own"
        channel = "ecg"
        kind = "r_peak"
        rule = "marks"
        sensitivity_min = 0.9
        positive_predictivity_min = 0.9

        [[case]]
        name = "rest"
        scenario = "../scenarios/rest.toml"
        seed = 7
        duration_s = 24
        level = "pass"
        requirements = ["ECG-1"]
        stimulus = ["bdf", "raw"]
        [[case.header]]
        channels = ["ecg"]
        max_bytes = 20000
        [[case.header]]
        name = "rest-thin"
        channels = ["ecg", "infrared"]
        bits = 32
        keep_every = 2

        [[case]]
        name = "lost"
        scenario = "../scenarios/lost.toml"
        seed = 8
        duration_s = 22
        level = "pass"
        disturbance = "data_loss"
        requirements = ["ECG-1"]
        stimulus = ["raw"]
        """;

    private readonly string _root = Directory.CreateTempSubdirectory("sensorsim-vectors-").FullName;

    public SetBench(string plan = Plan)
    {
        Write("plans/plan.toml", plan);
        Write("scenarios/rest.toml", "# at rest\n[scenario]\ntitle = \"Rest\"\nduration_s = 60\nsensor = \"../sensors/wrist.toml\"\n");
        Write("scenarios/lost.toml", "[scenario]\nduration_s = 60\nsensor = \"../sensors/wrist.toml\"\n[device]\npacket_loss_percent = 5\n");
        Write("sensors/wrist.toml", "[sensor]\ntitle = \"Bench sensor\"\n[ecg_amplifier]\nbits = 18\n");
    }

    public string PlanPath => this["plans/plan.toml"];

    public string this[string path] => Path.Combine(_root, path);

    public void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text, new UTF8Encoding(false));
    }

    /// <summary>Makes the plan's set into a folder.</summary>
    public MadeSet Make(string folder, SetPlan? plan = null)
    {
        using var output = new OutputFolder(this[folder]);
        MadeSet made = SetMaker.Make(plan ?? SetPlan.ReadFile(PlanPath), output, picture => Encoding.ASCII.GetBytes($"picture of {picture.Case.Name}"));
        output.Commit();
        return made;
    }

    public SetVerification Verify(string folder) => SetVerifier.Verify(this[folder]);

    /// <summary>Every file of a set with its bytes.</summary>
    public Dictionary<string, byte[]> Bytes(string folder) =>
        SetFolder.Files(this[folder]).ToDictionary(f => f.Path, f => File.ReadAllBytes(Path.Combine(this[folder], f.Path)), StringComparer.Ordinal);

    /// <summary>Puts other bytes into a file, and sums into the manifest and beside it as if they had always been so.</summary>
    public void Forge(string folder, string path, byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(this[folder], path), bytes);
        string place = Path.Combine(this[folder], SetNames.Manifest);
        SetManifest manifest = SetManifestReader.Read(File.ReadAllBytes(place), place);
        var file = new ManifestFile(path, bytes.Length, Sum(bytes));
        Forge(folder, manifest with { Files = [.. manifest.Files.Select(f => f.Path == path ? file : f)] });
    }

    /// <summary>Puts another manifest in place, with its sum.</summary>
    public void Forge(string folder, SetManifest manifest)
    {
        byte[] bytes = SetManifestWriter.Bytes(manifest);
        File.WriteAllBytes(Path.Combine(this[folder], SetNames.Manifest), bytes);
        File.WriteAllBytes(Path.Combine(this[folder], SetNames.Sidecar), SetManifestWriter.Sidecar(Sum(bytes)));
    }

    public SetManifest Manifest(string folder)
    {
        string place = Path.Combine(this[folder], SetNames.Manifest);
        return SetManifestReader.Read(File.ReadAllBytes(place), place);
    }

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private static string Sum(byte[] bytes) => Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes));
}
