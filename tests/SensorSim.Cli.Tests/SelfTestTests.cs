// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>The installation check: passes where nothing was touched, and fails, naming it, where something was.</summary>
[TestFixture]
public sealed class SelfTestTests : CommandTest
{
    private static string Shipped { get; } = Path.Combine(Root, "waveforms", "vectors");

    [Test]
    public void Run_OfThisBuild_PassesAndLeavesAReport()
    {
        Answer answer = Command.Run("selftest", "--json", "--out", At("report"));

        Assert.That(answer.Code, Is.Zero, answer.Out);
        using JsonDocument json = JsonDocument.Parse(answer.Out);
        Assert.That(json.RootElement.GetProperty("passed").GetBoolean());
        Assert.That(json.RootElement.GetProperty("checks").EnumerateArray().Select(c => c.GetProperty("result").GetString()), Is.All.EqualTo("passed"));
        Assert.That(json.RootElement.GetProperty("checks").GetArrayLength(), Is.EqualTo(12));
        JsonElement[] anomalies = [.. json.RootElement.GetProperty("known_anomalies").EnumerateArray()];
        string own = json.RootElement.GetProperty("checks").EnumerateArray().Single(c => c.GetProperty("check").GetString() == "own answers").GetProperty("found").GetString()!;
        Assert.That(own, Does.EndWith($" {anomalies.Length} known anomalies"));
        Assert.That(anomalies.Select(a => $"{a.GetProperty("case").GetString()} {a.GetProperty("requirement").GetString()}"), Does.Contain("two-devices-apart arrival-withheld"));
        Assert.That(File.ReadAllText(At("report", "selftest.md")), Does.Contain("| two-devices-apart | arrival-withheld |").And.Contain($"Checked on {json.RootElement.GetProperty("operating_system").GetString()}"));
        Assert.That(json.RootElement.GetProperty("runtime").GetString(), Does.StartWith(".NET 10"));
        Assert.That(json.RootElement.GetProperty("processor").GetString(), Is.AnyOf("x64", "arm64"));
        Assert.That(Contents(At("report")).Keys, Is.EquivalentTo(new[] { "selftest.json", "selftest.md" }));
        Assert.That(File.ReadAllText(At("report", "selftest.json")), Is.EqualTo(answer.Out));
    }

    [Test]
    public void Run_Table_FitsATerminal()
    {
        Answer answer = Command.Run("selftest");

        Assert.That(answer.Code, Is.Zero, answer.Out);
        Assert.That(answer.Out.Split('\n').Max(l => l.Length), Is.InRange(60, 120));
        Assert.That(Line(answer, "own answers"), Does.Contain("passed").And.Contain("requirements met"));
        Assert.That(string.Join(' ', answer.Out.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), Does.Contain("proves: this machine makes every stimulus, truth, window and answer of the set, to the bit own answers"));
    }

    [Test]
    public void Run_ProgramFiles_HaveTheirSums()
    {
        using JsonDocument json = JsonDocument.Parse(Command.Run("selftest", "--json", "--vectors", Copy()).Out);
        Dictionary<string, string> sums = json.RootElement.GetProperty("program_files").EnumerateArray()
            .ToDictionary(f => f.GetProperty("file").GetString()!, f => f.GetProperty("sha256").GetString()!, StringComparer.Ordinal);

        Assert.That(sums["SensorSim.Detection.dll"], Is.EqualTo(Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "SensorSim.Detection.dll"))))));
    }

    // Whatever is spoilt, the check that looks at it fails and says where.
    [TestCase("codecs/crc32c.csv", "83 92 06 E3", "83 92 06 E4", "checks of frames", "line 2")]
    [TestCase("codecs/cobs.csv", "01 01 01", "01 01 02", "framing", "line 5")]
    [TestCase("codecs/sfloat.csv", "C5 F3", "C6 F3", "numbers on air", "96.5 %")]
    [TestCase("codecs/frames.csv", "9E 41", "9E 42", "frames", "ask with number 6")]
    public void Run_SpoiltExample_Fails(string file, string whole, string spoilt, string check, string where)
    {
        string folder = Copy();
        string path = Path.Combine(folder, file);
        string text = File.ReadAllText(path);
        Assert.That(text, Does.Contain(whole));
        File.WriteAllText(path, text.Replace(whole, spoilt, StringComparison.Ordinal));

        Answer answer = Command.Run("selftest", "--vectors", folder);

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(Line(answer, check), Does.Contain("FAILED").And.Contain(where));
        Assert.That(answer.Out, Does.Contain("do not use this installation"));
    }

    [Test]
    public void Run_OneBitOfAStimulus_IsNamed()
    {
        string folder = Copy();
        string path = Path.Combine(folder, "still-finger", "ecg.i32");
        byte[] bytes = File.ReadAllBytes(path);
        bytes[4000] ^= 1;
        File.WriteAllBytes(path, bytes);

        Answer answer = Command.Run("selftest", "--vectors", folder);

        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet));
        Assert.That(Line(answer, "vectors made again"), Does.Contain("FAILED").And.Contain("still-finger/ecg.i32"));
        Assert.That(Line(answer, "own answers"), Does.Contain("FAILED"));
    }

    [Test]
    public void Run_NoSuchSet_IsRefused() =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, "selftest", "--vectors", At("none"))[0], Does.StartWith($"--vectors {At("none")}: there is no such folder"));

    private static string Line(Answer answer, string check) =>
        answer.Out.Split('\n').Single(l => l.Trim().StartsWith(check + "  ", StringComparison.Ordinal));

    private string Copy()
    {
        string to = At("vectors");
        foreach (string file in Directory.EnumerateFiles(Shipped, "*", SearchOption.AllDirectories))
        {
            string target = Path.Combine(to, Path.GetRelativePath(Shipped, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target);
        }

        return to;
    }
}
