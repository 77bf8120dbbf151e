// SPDX-License-Identifier: MIT
using SensorSim.Firmware.Tests.Twins;
using SensorSim.Tests.Shared;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.Firmware.Tests.Writer;

/// <summary>The C in the repository is what the C# source gives now.</summary>
[TestFixture]
public sealed class GeneratedTests
{
    private const string Advice = "the C# has changed; run: dotnet run --project src/SensorSim.TwinWriter";

    private static string Folder => Path.Combine(TwinBuild.Firmware, "library");

    [Test]
    public void CommittedC_IsWhatTheSourceGives()
    {
        IReadOnlyDictionary<string, string> files = LibraryWriter.Write(SourceSet.Read(SourceSet.FilesOf(Path.Combine(CCompiler.Root, "src"))));
        Assert.That(files, Has.Count.GreaterThan(200));
        foreach ((string path, string text) in files)
        {
            string full = Path.Combine(Folder, path);
            Assert.That(File.Exists(full), Is.True, $"{path} is missing; {Advice}");
            Assert.That(File.ReadAllText(full), Is.EqualTo(text), $"{path}; {Advice}");
        }

        Assert.That(OutputFolder.Stale(Folder, files), Is.Empty, Advice);
    }

    [Test]
    public void Write_Folder_IsChangedOnlyWhereItDiffers()
    {
        string folder = Path.Combine(TwinBuild.Folder, "output");
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "kept.h"), "/* written by hand */\n");
        var files = new Dictionary<string, string>(StringComparer.Ordinal) { ["beats/a.h"] = "/* first */\n/* Generated from a */\n", ["beats/b.h"] = "/* first */\n/* Generated from b */\n" };
        Assert.That(OutputFolder.Write(folder, files), Is.EqualTo(2));
        Assert.That(OutputFolder.Write(folder, files), Is.Zero);
        files.Remove("beats/b.h");
        Assert.That(OutputFolder.Write(folder, files), Is.EqualTo(1));
        Assert.That(Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(Path.GetFileName), Is.EquivalentTo((string[])["kept.h", "a.h"]));
    }
}
