// SPDX-License-Identifier: MIT
namespace SensorSim.Cli.Tests;

/// <summary>Gives each test a folder of its own.</summary>
public abstract class CommandTest
{
    private string _folder = "";

    /// <summary>Root of the source tree.</summary>
    protected static string Root { get; } = FindRoot();

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("cli-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    /// <summary>Path of something in the test's folder.</summary>
    protected string At(params string[] names) => Path.Combine([_folder, .. names]);

    /// <summary>Writes a file.</summary>
    protected string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    /// <summary>Writes a short scenario.</summary>
    protected string Scenario(string more = "", double seconds = 12) =>
        Write("s.toml", FormattableString.Invariant($"[scenario]\nduration_s = {seconds}\n{more}"));

    /// <summary>Everything in the test's folder, hidden or not.</summary>
    protected string[] Everything() => [.. Directory.EnumerateFileSystemEntries(_folder, "*", SearchOption.AllDirectories)
        .Select(p => Path.GetRelativePath(_folder, p)).Order(StringComparer.Ordinal)];

    /// <summary>Every file of a folder with its content.</summary>
    protected static Dictionary<string, byte[]> Contents(string folder) =>
        Directory.EnumerateFiles(folder).ToDictionary(f => Path.GetFileName(f), File.ReadAllBytes, StringComparer.Ordinal);

    private static string FindRoot()
    {
        string? at = AppContext.BaseDirectory;
        while (at is not null && !File.Exists(Path.Combine(at, "SensorSim.sln")))
        {
            at = Path.GetDirectoryName(at);
        }

        return at ?? throw new InvalidOperationException("The tests do not run inside the source tree.");
    }
}
