// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Files that cannot be read, or only almost.</summary>
[TestFixture]
public sealed class FileMistakeTests
{
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("scenarios-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void ReadFile_Missing_SaysSo() => AssertOnly(
        Path.Combine(_folder, "none.toml"), "there is no such file; give the path of a scenario (TOML)");

    [Test]
    public void ReadFile_FolderOfFileMissing_SaysSo() => AssertOnly(
        Path.Combine(_folder, "none", "none.toml"), "there is no such file; give the path of a scenario (TOML)");

    [Test]
    public void ReadFile_Folder_SaysSo() => AssertOnly(_folder, "is a folder; give the path of a scenario (TOML)");

    [TestCase("")]
    [TestCase("a\0b")]
    public void ReadFile_ImpossiblePath_IsAScenarioException(string path) =>
        Assert.That(() => ScenarioReader.ReadFile(path), Throws.TypeOf<ScenarioException>().With.Message.Contains("no such file"));

    [Test]
    public void ReadFile_AlreadyOpenedByAnotherAlone_IsAScenarioException()
    {
        string path = Write("held.toml", "[heart]\n"u8.ToArray());
        using var held = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);

        Assert.That(() => ScenarioReader.ReadFile(path), Throws.TypeOf<ScenarioException>().With.Message.Contains("cannot be read"));
    }

    [TestCase(1 << 20, true)]
    [TestCase((1 << 20) + 1, false)]
    public void ReadFile_Size_IsLimited(int bytes, bool isRead)
    {
        byte[] text = Enumerable.Repeat((byte)'#', bytes).ToArray();
        string path = Write("large.toml", text);

        Assert.That(
            () => ScenarioReader.ReadFile(path),
            isRead ? Throws.Nothing : Throws.TypeOf<ScenarioException>().With.Message.Contains("larger than 1 MiB"));
    }

    [Test]
    [Platform("Unix", Reason = "/dev/zero is the endless device.")]
    public void ReadFile_EndlessDevice_IsRefused()
    {
        Assert.That(() => ScenarioReader.ReadFile("/dev/zero"), Throws.TypeOf<ScenarioException>().With.Message.Contains("larger than 1 MiB"));
    }

    [Test]
    public void ReadFile_ByteOrderMark_DoesNotCount()
    {
        string path = Write("mark.toml", [.. Encoding.UTF8.GetPreamble(), .. "[heart]\nrate = 1\n"u8]);

        Assert.That(
            () => ScenarioReader.ReadFile(path),
            Throws.TypeOf<ScenarioException>().With.Message.EqualTo($"{path}, line 2, column 1: heart.rate is no key; the nearest is heart.rate_bpm"));
    }

    [Test]
    public void ReadFile_RandomBytes_NeverThrowsAnythingElse()
    {
        var random = new Random(4711);
        for (int i = 0; i < 300; i++)
        {
            var bytes = new byte[random.Next(1, 400)];
            random.NextBytes(bytes);
            string path = Write("noise.toml", bytes);

            AssertReadOrRefused(() => ScenarioReader.ReadFile(path), i);
        }
    }

    [Test]
    public void ReadText_ShippedScenarioWithDamage_NeverThrowsAnythingElse()
    {
        string text = File.ReadAllText(Repository.ShippedScenarios[0]);
        const string Pieces = "[]{}=\"'#.,\n\r\t-+e_0\\\0é";
        var random = new Random(12);
        for (int i = 0; i < 1000; i++)
        {
            var damaged = new StringBuilder(text);
            for (int k = random.Next(1, 4); k > 0; k--)
            {
                damaged[random.Next(damaged.Length)] = Pieces[random.Next(Pieces.Length)];
            }

            AssertReadOrRefused(() => ScenarioReader.ReadText(damaged.ToString(), "a"), i);
        }
    }

    [Test]
    public void ReadText_TimeLineWithDamage_NeverThrowsAnythingElse()
    {
        const string Text = "[scenario]\nduration_s = 90\n[subject]\nseed = 3\n[[activity]]\nat_s = 60\nname = \"walking\"\nfor_s = 20\nintensity = 0.7\n"
            + "[[change]]\nat_s = 4\nkey = \"heart.rate_bpm\"\nramp_to = 90\nover_s = 15\n[[change]]\nat_s = 1\nkey = \"heart.rate_bpm\"\nswing_by = 3\n"
            + "period_s = 2\nfor_s = 3\n[[change]]\nat_s = 0\nkey = \"breathing.rate_per_min\"\nfollow = [[0, 15], [20, 8], [80, 15]]\n";
        const string Pieces = "[]{}=\"'#.,\n\r\t-+e_0\\\0é9";
        _ = ScenarioReader.ReadText(Text, "a");
        var random = new Random(13);
        int read = 0;
        for (int i = 0; i < 3000; i++)
        {
            var damaged = new StringBuilder(Text);
            for (int k = random.Next(1, 3); k > 0; k--)
            {
                damaged[random.Next(damaged.Length)] = Pieces[random.Next(Pieces.Length)];
            }

            read += AssertReadOrRefused(() => ScenarioReader.ReadText(damaged.ToString(), "a"), i) ? 1 : 0;
        }

        Assert.That(read, Is.InRange(10, 2000), "damage that does not matter, and damage that does");
    }

    private string Write(string name, byte[] bytes)
    {
        string path = Path.Combine(_folder, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    private static bool AssertReadOrRefused(Func<Scenario> read, int number)
    {
        try
        {
            _ = read();
            return true;
        }
        catch (ScenarioException e)
        {
            Assert.That(e.Mistakes, Is.Not.Empty);
        }
        catch (Exception e)
        {
            Assert.Fail($"text {number}: {e}");
        }

        return false;
    }

    private static void AssertOnly(string path, string message) => Assert.That(
        () => ScenarioReader.ReadFile(path), Throws.TypeOf<ScenarioException>().With.Message.EqualTo($"{path}: {message}"));
}
