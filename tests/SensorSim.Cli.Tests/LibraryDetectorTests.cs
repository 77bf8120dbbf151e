// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Cli.Tests;

/// <summary>What the library under test must reach through the command; these need its answers.</summary>
[TestFixture]
[Category("LibraryDetector")]
public sealed class LibraryDetectorTests : CommandTest
{
    private static string Shipped(string name) => Path.Combine(Root, "waveforms", "scenarios", name + ".toml");

    [TestCase("rest-finger")]
    [TestCase("rest-finger-10min")]
    [TestCase("walking-wrist")]
    [TestCase("noisy-room")]
    public void LibraryDetector_ShippedScenario_MeetsItsRequirements(string name)
    {
        Answer answer = Command.Run("run", Shipped(name));

        Assert.That(answer.Code, Is.Zero, answer.Out);
        Assert.That(answer.Out, Does.Contain("\nrequirements met\n"));
    }

    [Test]
    public void LibraryDetector_AnotherSeed_GivesOtherDetections()
    {
        Command.Run("run", Shipped("rest-finger"), "--out", At("a"));
        Command.Run("run", Shipped("rest-finger"), "--out", At("b"), "--seed", "2");

        Assert.That(File.ReadAllBytes(At("b", "detections.csv")), Is.Not.EqualTo(File.ReadAllBytes(At("a", "detections.csv"))));
    }

    [Test]
    public void LibraryDetector_Table_ShowsTheFiguresOfTheJson()
    {
        Answer table = Command.Run("run", Shipped("rest-finger"));
        using JsonDocument json = JsonDocument.Parse(Command.Run("run", Shipped("rest-finger"), "--json").Out);
        JsonElement row = json.RootElement.GetProperty("scores")[0];
        string line = table.Out.Split('\n').First(l => l.Contains("r_peak", StringComparison.Ordinal));

        Assert.That(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[2], Is.EqualTo(row.GetProperty("reference_count").GetRawText()));
        Assert.That(line, Does.Contain(FormattableString.Invariant($"{row.GetProperty("timing_bias_ms").GetDouble():0.00}")));
        Assert.That(line, Does.Contain(FormattableString.Invariant($"{row.GetProperty("timing_sd_ms").GetDouble():0.00}")));
    }
}
