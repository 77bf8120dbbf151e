// SPDX-License-Identifier: MIT
using System.Text;
using System.Text.RegularExpressions;

namespace SensorSim.Architecture.Tests;

/// <summary>What every source file of the repository has in common.</summary>
[TestFixture]
public sealed partial class SourceTreeTests
{
    private const string Licence = "SPDX-License-Identifier: MIT";
    private const int LongestFile = 400;

    private static readonly string[] Folders = ["src", "tests", "benchmarks", "docs", ".ci"];
    private static readonly string[] SourceKinds = [".cs", ".sh", ".py", ".c", ".h"];
    private static readonly string[] TextKinds = [.. SourceKinds, ".csproj", ".props", ".targets", ".md", ".toml", ".json", ".txt", ".yml"];

    // They make the bits. Two of their projects allow unsafe code, but only to leave scratch memory uncleared.
    private static readonly string[] SafeRooms =
        ["SensorSim.Signals", "SensorSim.Body", "SensorSim.Sensing", "SensorSim.Scenarios", "SensorSim.FixedPoint", "SensorSim.Detection"];

    [Test]
    public void SourceFiles_InTheTree_AreFound()
        => Assert.That(Files(SourceKinds).Select(SourceTree.Relative), Does.Contain("tests/SensorSim.Architecture.Tests/SourceTreeTests.cs"));

    [Test]
    public void SourceFiles_FirstLines_NameTheLicence()
        => ExpectNone(Files(SourceKinds).Where(file => !NamesLicence(file)), $"say {Licence} in the first line (second after #!)");

    [Test]
    public void TextFiles_Bytes_AreUtf8WithoutMarkAndWithLineFeeds()
        => ExpectNone(Files(TextKinds).Where(file => HasMarkOrReturn(File.ReadAllBytes(file))), "UTF-8 without byte order mark, LF only");

    [Test]
    public void SourceFiles_InSrc_AreShort()
        => ExpectNone(
            Files([".cs", ".c", ".h"]).Where(file => SourceTree.Relative(file).StartsWith("src/", StringComparison.Ordinal))
                .Where(file => !IsGenerated(file) && File.ReadLines(file).Count() > LongestFile),
            $"over {LongestFile} lines: one idea per file");

    [Test]
    public void SourceFiles_OfTheMakingAndIntegerRooms_AreSafe()
        => ExpectNone(CodeOfSafeRooms().Where(file => SaysUnsafe(File.ReadAllText(file))), "unsafe: pointers prove nothing about what they read");

    [Test]
    public void SafeRooms_EachOfThem_HasCode()
        => Assert.That(
            CodeOfSafeRooms().Select(file => SourceTree.Relative(file).Split('/')[1]).Distinct(StringComparer.Ordinal), Is.EquivalentTo(SafeRooms));

    [Test]
    public void TextFiles_Paths_BelongToNoMachine()
        => ExpectNone(Files(TextKinds).Where(file => NamesMachinePath(File.ReadAllText(file))), "names a folder of one machine");

    [Test]
    public void ProjectFiles_InTheTree_AreAllInTheSolution()
    {
        string solution = File.ReadAllText(Path.Combine(SourceTree.Root, "SensorSim.sln")).Replace('\\', '/');
        ExpectNone(
            Folders.SelectMany(SourceTree.ProjectFiles)
                .Where(file => !solution.Contains($"\"{SourceTree.Relative(file)}\"", StringComparison.Ordinal)),
            "not in SensorSim.sln, so neither built nor tested: dotnet sln add");
    }

    [TestCase("var file = \"/" + "home/someone/data.csv\";", ExpectedResult = true)]
    [TestCase("cd /" + "tmp/x", ExpectedResult = true)]
    [TestCase("C:\\" + "Users\\someone", ExpectedResult = true)]
    [TestCase("https://example.org/home/page", ExpectedResult = false)]
    [TestCase("src/work/notes.md", ExpectedResult = false)]
    [TestCase("/dev/ttyUSB0", ExpectedResult = false)]
    public bool NamesMachinePath_OfText_FindsAbsoluteOnes(string text) => NamesMachinePath(text);

    [TestCase("private static unsafe void Read(int* from)", ExpectedResult = true)]
    [TestCase("unsafe { }", ExpectedResult = true)]
    [TestCase("Unsafe.Add(ref first, 1); <AllowUnsafeBlocks>", ExpectedResult = false)]
    public bool SaysUnsafe_OfText_FindsTheKeyword(string text) => SaysUnsafe(text);

    [TestCase("a\r\n", ExpectedResult = true)]
    [TestCase("\uFEFFa\n", ExpectedResult = true)]
    [TestCase("a\n", ExpectedResult = false)]
    public bool HasMarkOrReturn_OfText_FindsBoth(string text) => HasMarkOrReturn(Encoding.UTF8.GetBytes(text));

    private static IEnumerable<string> Files(IReadOnlyCollection<string> kinds)
        => Folders.SelectMany(SourceTree.FilesBelow)
            .Concat(Directory.EnumerateFiles(SourceTree.Root))
            .Where(file => kinds.Contains(Kind(file)));

    /// <summary>The extension; a script without one counts as .sh.</summary>
    private static string Kind(string file)
        => Path.GetExtension(file) is { Length: > 0 } extension ? extension : IsScript(file) ? ".sh" : "";

    private static bool IsScript(string file)
    {
        using FileStream stream = File.OpenRead(file);
        return stream.ReadByte() == '#' && stream.ReadByte() == '!';
    }

    private static bool NamesLicence(string file)
    {
        string[] head = File.ReadLines(file).Take(2).ToArray();
        int line = head.Length > 0 && head[0].StartsWith("#!", StringComparison.Ordinal) ? 1 : 0;
        return head.Length > line && head[line].Contains(Licence, StringComparison.Ordinal);
    }

    private static bool HasMarkOrReturn(byte[] bytes)
        => bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) || bytes.AsSpan().Contains((byte)'\r');

    private static bool IsGenerated(string file)
        => file.EndsWith(".g.cs", StringComparison.Ordinal)
            || File.ReadLines(file).Take(3).Any(line => line.Contains("<auto-generated", StringComparison.Ordinal));

    private static IEnumerable<string> CodeOfSafeRooms()
        => SafeRooms.SelectMany(room => SourceTree.FilesBelow($"src/{room}")).Where(file => Kind(file) == ".cs");

    private static bool SaysUnsafe(string text) => UnsafeKeyword().IsMatch(text);

    [GeneratedRegex(@"\bunsafe\b", RegexOptions.CultureInvariant)]
    private static partial Regex UnsafeKeyword();

    private static bool NamesMachinePath(string text) => MachinePath().IsMatch(text);

    /// <summary>An absolute path into a personal, temporary or mounted folder; not the same word inside an address or a relative path.</summary>
    [GeneratedRegex(@"(?<![\w.:/~*}>)-])/(home|root|work|tmp|mnt|Users)/\w|\b[A-Za-z]:\\+Users\\", RegexOptions.CultureInvariant)]
    private static partial Regex MachinePath();

    private static void ExpectNone(IEnumerable<string> files, string what)
        => Assert.That(files.Select(SourceTree.Relative), Is.Empty, what);
}
