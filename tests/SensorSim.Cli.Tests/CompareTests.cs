// SPDX-License-Identifier: MIT
using System.Text.Json;
using System.Xml.Linq;

namespace SensorSim.Cli.Tests;

/// <summary><c>compare</c>, in this process, on sweeps that were really made.</summary>
[TestFixture]
public sealed class CompareTests : CommandTest
{
    private static readonly string[] s_files = ["compare.html", "compare.json", "compare.xml", "differences.csv"];

    [Test]
    public void Baseline_PlantedWorseDetector_FailsWithJUnit()
    {
        Sweep("usual", constants: "");
        Sweep("deaf", constants: "constants = { beat_threshold_percent = 400 }");
        Answer answer = Command.Run("compare", "--baseline", At("usual"), At("deaf"), "--out", At("out"));
        Assert.That(answer.Code, Is.EqualTo(ExitCodes.NotMet), answer.Error + answer.Out);
        Assert.That(answer.Out, Does.Contain("got worse (").And.Contain("r_peak_sensitivity, ecg"));
        Assert.That(answer.Out, Does.Match(@"r_peak_sensitivity, ecg +all +[0-9.]+ \([0-9]+ of [0-9]+\) +0 \(0 of [0-9]+\)").And.Match(@"r_peak_sensitivity, ecg +0\.99 +all +[0-9]+ of 16 +0 of 16"));
        Assert.That(answer.Out, Does.Contain("above 24 dB (met at no level)").And.Not.Contain("+inf").And.Not.Contain("-inf"));
        Assert.That(Contents(At("out")).Keys, Is.EquivalentTo(s_files));
        XElement suite = XDocument.Parse(File.ReadAllText(At("out", "compare.xml"))).Root!.Elements().Single();
        Assert.That(int.Parse(suite.Attribute("failures")!.Value, System.Globalization.CultureInfo.InvariantCulture), Is.Positive);
        Assert.That(suite.Descendants("failure").Select(f => f.Parent!.Attribute("classname")!.Value), Has.Some.EqualTo("pooled.r_peak_sensitivity_min"));
        JsonElement json = JsonDocument.Parse(File.ReadAllText(At("out", "compare.json"))).RootElement;
        Assert.That(json.GetProperty("gate").GetProperty("got_worse").GetBoolean(), Is.True);
        Assert.That(json.GetProperty("all_points")[0].GetProperty("verdict").GetString(), Is.EqualTo("worse"));
        Assert.That(XDocument.Parse(File.ReadAllText(At("out", "compare.html")).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal)).Descendants("figure"), Is.Not.Empty);

        Answer turned = Command.Run("compare", "--baseline", At("deaf", "summary.json"), At("usual"));
        Assert.That(turned.Code, Is.EqualTo(ExitCodes.Done), turned.Error + turned.Out);
        Assert.That(turned.Out, Does.Contain("nothing got worse"));
    }

    [Test]
    public void Compare_TheSameTwice_ShowsNoDifferenceInTheSameBytes()
    {
        Sweep("usual", constants: "");
        Answer first = Command.Run("compare", "--baseline", At("usual"), At("usual"), "--out", At("one"));
        Answer second = Command.Run("compare", "--baseline", At("usual"), At("usual"), "--out", At("two"));
        Assert.That((first.Code, second.Code), Is.EqualTo((ExitCodes.Done, ExitCodes.Done)), first.Error);
        Assert.That(Contents(At("one")), Is.EqualTo(Contents(At("two"))));
        Assert.That(first.Out, Does.Contain("no difference shown").And.Not.Contain("worse  ").And.Not.Contain("\n\n\n"));
    }

    [Test]
    public void Compare_OtherSeeds_IsRefused()
    {
        Sweep("usual", constants: "");
        Sweep("more", constants: "", seeds: 5);
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "compare", At("usual"), At("more")),
            Is.EqualTo(new[] { $"{At("more")}: cannot be paired with {At("usual")}: the seeds differ (8 from 1 to 8; 5 from 1 to 5)." }));
    }

    [TestCase("--margin x=1 needs", "compare", "a", "b", "--margin", "x=1")]
    [TestCase("--baseline takes the place", "compare", "a", "b", "--baseline", "c")]
    [TestCase("--margin x must be KEY=NUMBER", "compare", "a", "--baseline", "c", "--margin", "x")]
    [TestCase("none: there is no such folder", "compare", "none", "b")]
    public void Compare_WrongUse_IsRefused(string message, params string[] args) =>
        Assert.That(Command.Refused(ExitCodes.WrongInput, args)[0], Does.StartWith(message.Split(' ')[0]).And.Contain(message.Split(' ', 2)[1].Replace("x=1 needs", "needs", StringComparison.Ordinal)));

    [Test]
    public void Compare_UnknownMargin_NamesWhatIsJudged()
    {
        Sweep("usual", constants: "", seeds: 2);
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "compare", "--baseline", At("usual"), At("usual"), "--margin", "none=1")[0],
            Is.EqualTo("--margin none: nothing of that name is judged; what is: r_peak_sensitivity_min, ecg_noise.muscle_snr_db"));
    }

    private void Sweep(string name, string constants, int seeds = 8)
    {
        Scenario("[ecg_noise]\nmuscle_snr_db = 24\n", 14);
        string study = Write($"{name}.toml", SmallStudyText.Of("s.toml", seeds).Replace("adapter = \"library\"", $"adapter = \"library\"\n{constants}", StringComparison.Ordinal));
        Answer answer = Command.Run("sweep", study, "--out", At(name));
        Assert.That(answer.Code, Is.EqualTo(ExitCodes.Done), answer.Error + answer.Out);
    }
}
