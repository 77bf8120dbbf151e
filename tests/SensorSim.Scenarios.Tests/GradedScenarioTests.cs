// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Security.Cryptography;
using System.Text.RegularExpressions;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Acquisition;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Streams;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests;

/// <summary>The scenarios that detection is graded on: they hold what their names say, and nobody changes them.</summary>
[TestFixture]
public sealed partial class GradedScenarioTests
{
    private const string Frozen = "waveforms/frozen.sha256";

    private static string Folder => Path.Combine(Repository.Root, "waveforms", "scenarios", "graded");

    private static IEnumerable<string> Names => Directory.GetFiles(Folder, "*.toml").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal);

    [TestCaseSource(nameof(Names))]
    public void Stream_IsTenMinutesOfSinusRhythm(string name)
    {
        Scenario scenario = Read(name);
        var classes = new HashSet<BeatClass>();
        var lost = 0.0;
        var told = new HashSet<AcquisitionKind>();
        StreamCheck.ReadAll(
            scenario.CreateStream(),
            truth =>
            {
                if (truth.Kind == MarkKind.RPeak)
                {
                    classes.Add(truth.Label);
                }
            },
            told: e =>
            {
                told.Add(e.Kind);
                lost += e.Kind == AcquisitionKind.Gap && e.Channel == ChannelName.Ecg ? e.Value : 0;
            });

        Assert.That((scenario.DurationS, scenario.Seed), Is.EqualTo((600.0, 1UL)));
        Assert.That(scenario.Values.IsSet(ScenarioKeys.Title));
        Assert.That(scenario.Text, Does.StartWith("# "));
        Assert.That(scenario.Requirements, Is.Empty);
        Assert.That(classes, Is.EqualTo(new[] { BeatClass.Normal }));
        switch (name)
        {
            case "packet-loss-5-percent":
                // 6000 packets in bursts of 3: s (1 - s) (1 + r) / (1 - r) / n with r = 1 - 1/3 - 0.05/(3 · 0.95) = 0.649 for Gilbert's chain;
                // its root is 0.61 %, four of which are allowed.
                Assert.That(lost / (600 * 250), Is.EqualTo(0.05).Within(4 * 0.0061));
                break;
            case "level-jump-light":
                Assert.That(told, Is.EquivalentTo(new[] { AcquisitionKind.Setting }));
                break;
            default:
                Assert.That(told, Is.Empty, "nothing saturates");
                break;
        }
    }

    // SNR of the noise-stress protocol (Moody, Muldrow and Mark, Computers in Cardiology 11:381, 1984): (QRS peak to peak)²/8 over the power.
    [TestCaseSource(nameof(Names))]
    public void Noise_OfTheEcg_IsThatOfTheName(string name)
    {
        Match ratio = EcgRatio().Match(name);
        EcgNoiseFigures? noise = EcgNoiseFigures.At(Read(name).Values, 0);
        if (ratio.Success)
        {
            double expected = double.Parse(ratio.Groups[1].Value, CultureInfo.InvariantCulture);
            Assert.That(noise!.All.SnrDb, Is.EqualTo(expected).Within(1e-9));
            Assert.That(noise.Sources, Has.Count.EqualTo(1));
        }
        else
        {
            // Of the rest only the mains and the white noise that are named.
            Assert.That(noise is null, Is.EqualTo(name is not ("drift-and-mains" or "level-jump-ecg")));
        }
    }

    // 20 log10 of (A/2√2)/rms, A from foot to peak; against the mean light of 2000 nA.
    [TestCase("pulse-noise-48db", 48.0)]
    [TestCase("pulse-noise-36db", 36.0)]
    [TestCase("pulse-noise-30db", 30.0)]
    [TestCase("low-perfusion-1-percent", 26.9)]
    [TestCase("low-perfusion-0-3-percent", 16.5)]
    public void Noise_OfTheLight_IsThatOfTheName(string name, double snrDb)
    {
        Dictionary<string, double> levels = Levels(Read(name), ChannelName.Infrared);
        double rms = levels["level_white_noise_na_rms"];

        Assert.That(20 * Math.Log10(levels["level_foot_to_peak_na"] / (2 * Math.Sqrt(2)) / rms), Is.EqualTo(snrDb).Within(name.StartsWith("pulse", StringComparison.Ordinal) ? 1e-9 : 0.05));
        if (name.StartsWith("low", StringComparison.Ordinal))
        {
            Assert.That(20 * Math.Log10(rms / levels["level_light_at_foot_na"]), Is.EqualTo(-76).Within(0.01));
        }
    }

    [Test]
    public void FrozenFiles_AreAsTheyWere()
    {
        foreach ((string sum, string path) in FrozenRows())
        {
            byte[] bytes = File.ReadAllBytes(Path.Combine(Repository.Root, path));
            Assert.That(
                Convert.ToHexStringLower(SHA256.HashData(bytes)), Is.EqualTo(sum),
                $"{path} was frozen before anybody tuned a detector on it: do not change it, add a new file instead.");
        }
    }

    [Test]
    public void FrozenFiles_AreAllOnAndEveryGradedOneWithWhatTheyName()
    {
        string[] scenarios =
        [
            .. Directory.GetFiles(Folder), .. Directory.GetFiles(Path.Combine(Repository.Root, "waveforms", "scenarios", "grading-sets")),
            Path.Combine(Repository.Root, "waveforms", "scenarios", "all-on.toml"),
        ];
        IEnumerable<string> named = scenarios.SelectMany(f => ScenarioReader.ReadFile(f).ReferencedFiles.Select(r => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(f)!, r.Path))));

        Assert.That(
            FrozenRows().Select(r => r.Path),
            Is.EquivalentTo(scenarios.Concat(named).Distinct().Select(f => Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))),
            $"{Frozen} must list every graded scenario and set, all-on.toml and every file that they name, and nothing else.");
    }

    private static List<(string Sum, string Path)> FrozenRows()
    {
        string text = File.ReadAllText(Path.Combine(Repository.Root, Frozen));
        Assert.That(text, Does.Not.Contain("\r"));
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => (line[..64], line[66..]))];
    }

    private static Dictionary<string, double> Levels(Scenario scenario, ChannelName channel)
    {
        using var written = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, written);
        using var reader = new AcquisitionCsvReader(new MemoryStream(written.ToArray()), "acquisition.csv");
        Dictionary<string, double> levels = new(StringComparer.Ordinal);
        while (reader.TryRead(out AcquisitionRow row))
        {
            if (row.Channel == channel)
            {
                levels[row.Item] = row.Value;
            }
        }

        return levels;
    }

    private static Scenario Read(string name) => ScenarioReader.ReadFile(Path.Combine(Folder, name + ".toml"));

    [GeneratedRegex("^(?:muscle-noise|slow-motion|sharp-motion)-(\\d+)db$")]
    private static partial Regex EcgRatio();
}
