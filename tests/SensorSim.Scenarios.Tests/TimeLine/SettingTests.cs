// SPDX-License-Identifier: MIT
using SensorSim.Files;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Tests.Reading;
using SensorSim.Scenarios.TimeLine;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.TimeLine;

/// <summary>Changes of the sensor's settings: in a scenario, and in a file that stands for them.</summary>
[TestFixture]
public sealed class SettingTests
{
    private const string Header = "channel,setting,value,effective_ns\n";
    private string _folder = "";

    [SetUp]
    public void MakeFolder() => _folder = Directory.CreateTempSubdirectory("settings-").FullName;

    [TearDown]
    public void RemoveFolder() => Directory.Delete(_folder, recursive: true);

    [Test]
    public void ReadText_Settings_AreRowsInOrderOfTime()
    {
        Scenario scenario = ScenarioReader.ReadText(
            Table("20", "\"ecg\"", "gain", "2.5") + Table("3.1415", "[\"red\", \"dark\"]", "pulse_width_us", "50.125") + Table("20", "\"ecg\"", "decimation", "0"), "a.toml");

        Assert.That(
            scenario.Settings,
            Is.EqualTo(new[]
            {
                new SettingChange(ChannelName.Red, SensorSetting.PulseWidthUs, 50_125, 3_141_500_000),
                new SettingChange(ChannelName.Dark, SensorSetting.PulseWidthUs, 50_125, 3_141_500_000),
                new SettingChange(ChannelName.Ecg, SensorSetting.Gain, 2500, 20_000_000_000),
                new SettingChange(ChannelName.Ecg, SensorSetting.Decimation, 0, 20_000_000_000),
            }));
        Assert.That(scenario.WithSeed(3).WithSubject(4).Settings, Is.EqualTo(scenario.Settings));
    }

    // What changes is told; more than a thousand in a second would find no room.
    [Test]
    public void Read_MoreChangesInASecondThanAreTold_AreRefused()
    {
        string Rows(int count, long stepNs) =>
            Header + string.Concat(Enumerable.Range(0, count).Select(i => FormattableString.Invariant($"ecg,gain,{1 + (i % 5)},{i * stepNs}\n")));
        string path = Path.Combine(_folder, "s.csv");
        Scenario scenario = ScenarioReader.ReadText("", "a.toml");

        File.WriteAllText(path, Rows(5000, 1_000_000));
        Assert.That(SettingsFile.Read(path, scenario.Values).Changes, Has.Count.EqualTo(5000));

        File.WriteAllText(path, Rows(5000, 999_000));
        Assert.That(
            () => SettingsFile.Read(path, scenario.Values),
            Throws.TypeOf<InputFileException>().With.Message.EqualTo($"{path}, line 1002, column 12: found \"999000000\"; effective_ns must leave at most 1000 changes in a second."));

        string crowd = string.Concat(Enumerable.Range(0, 1001).Select(i => Table("3", "\"ecg\"", "gain", (1 + (i % 5)).ToString(System.Globalization.CultureInfo.InvariantCulture))));
        Assert.That(
            () => ScenarioReader.ReadText(crowd, "a.toml"),
            Throws.TypeOf<ScenarioException>().With.Message.Contains("more than 1000 settings change within a second; at most so many"));
    }

    [Test]
    public void CreateStream_Settings_ActOnIt()
    {
        SensorStream stream = ScenarioReader.ReadText(Table("1", "\"infrared\"", "decimation", "0"), "a.toml").CreateStream();
        var block = new SampleBlock(stream.Format, 1000);
        stream.Read(block, 1000);

        Assert.That(block.Channels[stream.Format.IndexOf(ChannelName.Infrared)].Count, Is.EqualTo(100));
        Assert.That(block.Channels[stream.Format.IndexOf(ChannelName.Red)].Count, Is.EqualTo(200));
    }

    [TestCase("5", "\"ecg\"", "led_current_ma", "5", "3, column 11: ecg has no led_current_ma; red, infrared, green have one")]
    [TestCase("5", "[\"red\", \"accel_x\"]", "gain", "5", "3, column 19: accel_x has no gain; ecg, red, infrared, green, dark have one")]
    [TestCase("5", "\"ecgg\"", "gain", "5", "3, column 11: \"ecgg\" is no channel; the nearest is \"ecg\" of \"ecg\", \"red\", \"infrared\", \"green\", \"dark\", \"accel_x\", \"accel_y\", \"accel_z\"")]
    [TestCase("5", "3", "gain", "5", "3, column 11: channel = 3 must be a channel in quotation marks, or a list of such")]
    [TestCase("5", "[]", "gain", "5", "3, column 11: channel = [] names no channel; at least one is needed")]
    [TestCase("5", "\"green\"", "gain", "5", "3, column 11: this scenario has no green light; set optics.green_na, or leave out the channel green")]
    [TestCase("5", "\"red\"", "led_current", "5", "4, column 11: \"led_current\" is no setting; the nearest is \"led_current_ma\" of \"led_current_ma\", \"pulse_width_us\", \"gain\", \"decimation\"")]
    [TestCase("5", "\"red\"", "led_current_ma", "251", "5, column 9: led_current_ma of red = 251 must be a number of at most three decimals, 0 to 250 mA")]
    [TestCase("5", "\"red\"", "gain", "1e300", "5, column 9: gain of red = 1E+300 must be a number of at most three decimals, 0.01 to 1000")]
    [TestCase("5", "\"red\"", "gain", "1.0005", "5, column 9: gain of red = 1.0005 must be a number of at most three decimals, 0.01 to 1000")]
    [TestCase("5", "\"red\"", "gain", "nan", "5, column 9: value = nan must be a finite number")]
    [TestCase("5", "\"dark\"", "pulse_width_us", "251", "5, column 9: pulse_width_us of dark = 251 must be a number of at most three decimals, 5 to 250 µs")]
    [TestCase("5", "\"ecg\"", "decimation", "2.5", "5, column 9: decimation of ecg = 2.5 must be a whole number, 0 to 1000")]
    [TestCase("5", "\"ecg\"", "decimation", "-1", "5, column 9: decimation of ecg = -1 must be a whole number, 0 to 1000")]
    [TestCase("60", "\"ecg\"", "gain", "2", "2, column 8: at_s = 60 lies after the end of the scenario; below scenario.duration_s = 60")]
    public void ReadText_Mistake_HasPlaceAndWhatIsRight(string at, string channel, string setting, string value, string expected) =>
        Assert.That(Mistaken.Line(Table(at, channel, setting, value)), Is.EqualTo("a.toml, line " + expected));

    [TestCase("[[setting]]\nat_s = 5\nsetting = \"gain\"\nvalue = 3\n", "1, column 3: [[setting]] needs channel: ecg, red, infrared, green, dark, accel_x, accel_y, accel_z")]
    [TestCase("[[setting]]\nat_s = 5\nchannel = \"ecg\"\nvalue = 3\n", "1, column 3: [[setting]] needs setting: led_current_ma, pulse_width_us, gain, decimation")]
    [TestCase("[setting]\nat_s = 5\n", "1, column 2: [setting] may stand many times and has two brackets: [[setting]]")]
    public void ReadText_Incomplete_SaysWhatIsMissing(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo("a.toml, line " + expected));

    [Test]
    public void WithSettings_File_StandsForTheScenariosOwnAndEntersTheIdentity()
    {
        Scenario scenario = ScenarioReader.ReadText(Table("20", "\"ecg\"", "gain", "2.5"), "a.toml");
        string path = Write(Header + "red,led_current_ma,12.500,0\necg,decimation,4.000,1500000001\n");
        Scenario with = scenario.WithSettings(SettingsFile.Read(path, scenario.Values));

        Assert.That(
            with.Settings,
            Is.EqualTo(new[]
            {
                new SettingChange(ChannelName.Red, SensorSetting.LedCurrentMa, 12_500, 0),
                new SettingChange(ChannelName.Ecg, SensorSetting.Decimation, 4000, 1_500_000_001),
            }));

        // sha256sum of coreutils 9.1 over the same bytes.
        Assert.That(with.ReferencedFiles, Is.EqualTo(new[] { new ReferencedFile(path, "7f9e7b6a8c9ee03112ed9159eec01e1f09547ebc5037fe4cb3b0e3a760894447") }));
        Assert.That(with.WithSeed(9).WithSubject(3).ReferencedFiles, Is.EqualTo(with.ReferencedFiles));
    }

    [TestCase("ecg,led_current_ma,5.000,0\n", ", line 2, column 5: found \"led_current_ma\"; setting is nothing that channel ecg of this scenario has.")]
    [TestCase("green,gain,5.000,0\n", ", line 2, column 7: found \"gain\"; setting is nothing that channel green of this scenario has.")]
    [TestCase("ecg,gian,5.000,0\n", ", line 2, column 5: found \"gian\"; setting must be one of led_current_ma, pulse_width_us, gain, decimation.")]
    [TestCase("ecg,gain,5.0001,0\n", ", line 2, column 10: found \"5.0001\"; value must be a number of at most three decimals, 0.01 to 1000.")]
    [TestCase("ecg,gain,99999999999999999999999999999,0\n", ", line 2, column 10: found \"99999999999999999999999999999\"; value must be a number of at most three decimals, 0.01 to 1000.")]
    [TestCase("ecg,decimation,1.5,0\n", ", line 2, column 16: found \"1.5\"; value must be a whole number, 0 to 1000.")]
    [TestCase("ecg,gain,5,10\nred,gain,5,9\n", ", line 3, column 12: found \"9\"; effective_ns must not be before that of the row above, 10.")]
    [TestCase("ecg,gain,5,-1\n", ", line 2, column 12: found \"-1\"; effective_ns must be a whole number from 0 to 2305843009213693951.")]
    public void Read_FileWithAMistake_HasPlaceAndWhatIsRight(string rows, string expected)
    {
        string path = Write(Header + rows);

        Assert.That(
            () => SettingsFile.Read(path, new()),
            Throws.TypeOf<InputFileException>().With.Message.EqualTo(path + expected));
    }

    [Test]
    public void Read_NoFile_SaysSo() => Assert.That(
        () => SettingsFile.Read("nowhere.csv", new()),
        Throws.TypeOf<InputFileException>().With.Message.EqualTo("nowhere.csv: there is no such file; give the path of a settings.csv."));

    private string Write(string text)
    {
        string path = Path.Combine(_folder, "s.csv");
        File.WriteAllText(path, text);
        return path;
    }

    private static string Table(string at, string channel, string setting, string value) =>
        $"[[setting]]\nat_s = {at}\nchannel = {channel}\nsetting = \"{setting}\"\nvalue = {value}\n";
}
