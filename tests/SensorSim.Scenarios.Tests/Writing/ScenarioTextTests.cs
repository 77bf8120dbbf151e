// SPDX-License-Identifier: MIT
using System.Security.Cryptography;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Sensors;
using SensorSim.Scenarios.Subjects;
using SensorSim.Scenarios.Writing;
using SensorSim.Sensing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Writing;

[TestFixture]
public sealed class ScenarioTextTests
{
    private const double LongestS = 20;

    private string _folder = "";

    private static IEnumerable<string> Shipped() => Directory.GetFiles(Path.Combine(Repository.Root, "waveforms", "scenarios"), "*.toml", SearchOption.AllDirectories)
        .Select(f => Path.GetRelativePath(Repository.Root, f).Replace('\\', '/'))
        .Order(StringComparer.Ordinal);

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("text-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [TestCaseSource(nameof(Shipped))]
    public void Write_ShippedScenario_ReadsBackToTheSameStream(string name)
    {
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Repository.Root, name));
        Scenario again = WrittenAndRead(scenario);

        ExpectSame(scenario, again);
        Assert.That(again.ReferencedFiles.Select(f => f.Sha256), Is.EqualTo(scenario.ReferencedFiles.Select(f => f.Sha256)));
    }

    [Test]
    public void Write_PersonOtherSeedAndOwnValues_ReadsBackToTheSameStream()
    {
        Scenario scenario = Read("rest-finger.toml").WithSubject(17).WithSeed(9007199254740991).With(
        [
            new KeyValue((NumberKey)AllKeys.Find("heart.rate_bpm")!, 71.3),
            new KeyValue((NumberKey)AllKeys.Find("ecg_noise.muscle_uv_rms")!, 1e-5),
            new KeyValue((ChoiceKey)AllKeys.Find("movement.activity")!, "walking"),
        ]);
        Scenario again = WrittenAndRead(scenario);

        ExpectSame(scenario, again);
        Assert.That(again.Subject!.Values, Is.EqualTo(scenario.Subject!.Values));
        Assert.That(again.Seed, Is.EqualTo(9007199254740991));
    }

    [Test]
    public void Write_SensorOfTheCommandLine_NamesThatFileFromTheNewFolder()
    {
        SensorFile sensor = SensorReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "sensors", "wrist-watch.toml"));
        Scenario scenario = ScenarioReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "scenarios", "rest-finger.toml"), sensor);
        Scenario again = WrittenAndRead(scenario);

        ExpectSame(scenario, again);
        Assert.That(again.SensorTitle, Is.EqualTo(scenario.SensorTitle).And.Not.Empty);
    }

    [Test]
    public void Write_TimeLineAndTextInQuotes_StandAsTheyWere()
    {
        const string Text = """
            [scenario]
            title = 'a "quoted" \ title'
            duration_s = 30

            [[change]] # the rate
            key = "heart.rate_bpm" # beats
            at_s = 5
            follow = [[0, 70],
                      [10, 1_20.5]]

            [[activity]]
            name = "walking"
            at_s = 12.5

            [[setting]]
            at_s = 3.25
            channel = ["red", "infrared"]
            setting = "led_current_ma"
            value = 7
            """;
        Scenario scenario = ScenarioReader.ReadText(Text, "s.toml");
        Scenario again = WrittenAndRead(scenario);

        ExpectSame(scenario, again);
        Assert.That(again.Title, Is.EqualTo("a \"quoted\" \\ title"));
        Assert.That(again.ChangeCount, Is.EqualTo(1));
        Assert.That(again.ActivityCount, Is.EqualTo(1));
        Assert.That(again.Settings, Is.EqualTo(scenario.Settings).And.Count.EqualTo(2));
    }

    [Test]
    public void Write_SettingsOfAFile_StandInPlaceOfItsOwn()
    {
        const string Text = "[scenario]\nduration_s = 12\n\n[[setting]]\nat_s = 3\nchannel = \"red\"\nsetting = \"led_current_ma\"\nvalue = 7\n";
        Scenario scenario = ScenarioReader.ReadText(Text, "s.toml");
        string file = Path.Combine(_folder, "settings.csv");
        File.WriteAllText(file, "channel,setting,value,effective_ns\ninfrared,led_current_ma,4.125,2000000001\nred,gain,0.5,7123456789\n");
        scenario = scenario.WithSettings(SensorSim.Scenarios.TimeLine.SettingsFile.Read(file, scenario.Values));
        Scenario again = WrittenAndRead(scenario);

        Assert.That(again.Settings, Is.EqualTo(scenario.Settings).And.Count.EqualTo(2));
        ExpectSame(scenario, again);
    }

    [Test]
    public void Write_Comments_StandAtTheHeadOnALineEach()
    {
        string text = ScenarioText.Write(Read("rest-finger.toml"), _folder, ["what breaks", "", "a\nbreak"]);

        Assert.That(text, Does.StartWith("# what breaks\n#\n# a?break\n\n[scenario]\n"));
        Assert.That(text, Does.Not.Contain("\r").And.EndsWith("\n"));
    }

    private static Scenario Read(string name) => ScenarioReader.ReadFile(Path.Combine(Repository.Root, "waveforms", "scenarios", name));

    private Scenario WrittenAndRead(Scenario scenario)
    {
        string file = Path.Combine(_folder, "again.toml");
        File.WriteAllText(file, ScenarioText.Write(scenario, _folder));
        return ScenarioReader.ReadFile(file);
    }

    private static void ExpectSame(Scenario scenario, Scenario again)
    {
        // A value that differs shows at once, one that acts late too; the stream's start is the proof that it acts alike.
        foreach (KeyDefinition key in AllKeys.List())
        {
            // Seeds and sensor of the command line get into the text.
            bool mayCome = key == ScenarioKeys.Seed || key == ScenarioKeys.Sensor || key == SubjectDrawKeys.Seed;
            Assert.That(again.Values.IsSet(key), mayCome ? Is.True.Or.False : Is.EqualTo(scenario.Values.IsSet(key)), key.Name);
            Assert.That(again.Values.IsChanging(key), Is.EqualTo(scenario.Values.IsChanging(key)), key.Name);
            switch (key)
            {
                case NumberKey number when !mayCome:
                    Assert.That(again.Values[number], Is.EqualTo(scenario.Values[number]), key.Name);
                    break;
                case ChoiceKey choice:
                    Assert.That(again.Values[choice], Is.EqualTo(scenario.Values[choice]), key.Name);
                    break;
            }
        }

        Assert.That(again.Requirements, Is.EqualTo(scenario.Requirements));
        Assert.That(Start(again), Is.EqualTo(Start(scenario)));
    }

    // Codes and truth of the first seconds.
    private static string Start(Scenario scenario)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        SensorStream stream = scenario.CreateStream();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        long end = Math.Min(stream.EndTick, stream.Format.Clock.TickAtOrAfter(LongestS));
        while (stream.PositionTick < end)
        {
            stream.Read(block, Math.Min(end, stream.PositionTick + stream.Format.Clock.TicksPerSecond));
            foreach (ChannelBlock channel in block.Channels)
            {
                hash.AppendData(System.Runtime.InteropServices.MemoryMarshal.AsBytes(channel.Codes[..channel.Count]));
            }

            while (stream.Truth.TryTake(out TruthEvent truth))
            {
                hash.AppendData(System.Text.Encoding.UTF8.GetBytes(FormattableString.Invariant($"{truth.Channel} {truth.Kind} {truth.TimeNs} {truth.Value:R}\n")));
            }

            while (stream.Acquisition.TryTake(out _))
            {
                // Told, and not looked at here.
            }
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
