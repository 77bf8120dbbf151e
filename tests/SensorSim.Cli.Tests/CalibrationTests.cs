// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using SensorSim.Scenarios.Calibrations;

namespace SensorSim.Cli.Tests;

/// <summary><c>--calibration</c>: what comes of it, and what is refused.</summary>
[TestFixture]
public sealed partial class CalibrationTests : CommandTest
{
    private const string Cuff = "[[cuff]]\narrival_ms = 200\nsystolic_mmhg = 120\ndiastolic_mmhg = 80\n";

    private static readonly string s_rise = Path.Combine(Root, "waveforms", "scenarios", "pressure-rise.toml");

    private static string[] Shipped() => Directory.GetFiles(Path.Combine(Root, "waveforms", "calibrations"), "*.toml");

    [TestCaseSource(nameof(Shipped))]
    public void Run_Shipped_IsTakenAndCommentedAsInvented(string path)
    {
        Assert.That(File.ReadAllText(path), Does.StartWith("# An invented wearer").Or.StartWith("# An invented sensor"));
        Assert.That(Command.Run("run", Scenario(), "--calibration", path).Out, Does.Contain("\ncalibration: invented wearer, ").Or.Contain("\ncalibration: invented sensor, "));
    }

    // Without a calibration 17 mmHg of rise would be missed: a reading of 120 throughout has a bias of -8 and an SD of 8 mmHg. Arrival times
    // of 30 s are within 2 ms of the truth, the curve has 1.25 mmHg/ms: 3 mmHg.
    [Test]
    public void Run_PressureRise_TracksBothPressures()
    {
        string calibration = Path.Combine(Root, "waveforms", "calibrations", "finger-two-cuffs.toml");
        using JsonDocument json = JsonDocument.Parse(Command.Run("run", s_rise, "--seed", "5003", "--calibration", calibration, "--json").Out);

        foreach (string kind in new[] { "systolic_mmhg", "diastolic_mmhg" })
        {
            JsonElement row = json.RootElement.GetProperty("readings").EnumerateArray().Single(r => r.GetProperty("kind").GetString() == kind);
            Assert.That(row.GetProperty("count").GetInt64(), Is.GreaterThan(90), kind);
            Assert.That(Math.Abs(row.GetProperty("bias").GetDouble()), Is.LessThan(3), kind);
            Assert.That(row.GetProperty("sd").GetDouble(), Is.LessThan(3), kind);
            Assert.That(row.GetProperty("wrong").GetInt64(), Is.Zero, kind);
        }

        JsonElement told = json.RootElement.GetProperty("calibration");
        Assert.That(told.GetProperty("path").GetString(), Is.EqualTo(calibration));
        Assert.That(told.GetProperty("sha256").GetString(), Has.Length.EqualTo(64));
        Assert.That(told.GetProperty("no_pressure").ValueKind, Is.EqualTo(JsonValueKind.Null));
    }

    [Test]
    public void Run_NoCalibration_HasNoPressureAndSaysNothingOfIt()
    {
        Answer answer = Command.Run("run", Scenario(seconds: 60));

        Assert.That(answer.Out, Does.Not.Contain("mmhg").And.Not.Contain("calibration"));
    }

    [TestCase("age_days = 90", "the calibration is older than its valid days")]
    [TestCase("# ", "the pressure lies further from the measured ones than the reach allows")]
    public void Run_NoPressurePossible_SaysWhy(string line, string why)
    {
        string arrival = line == "# " ? "arrival_ms = 400" : "arrival_ms = 240";
        string path = Write("c.toml", Cuff.Replace("arrival_ms = 200", arrival, StringComparison.Ordinal) + line + "\n");

        Assert.That(Command.Run("run", Scenario(seconds: 60), "--calibration", path).Out, Does.Contain($"\nno pressure was given: {why}\n"));
    }

    [Test]
    public void Run_OxygenTable_IsUsed()
    {
        string path = Write("c.toml", "[oxygen]\nratio = [0.1, 3]\nsaturation_percent = [90, 30]\n");
        using JsonDocument json = JsonDocument.Parse(Command.Run("run", Scenario(seconds: 40), "--calibration", path, "--json").Out);
        JsonElement row = json.RootElement.GetProperty("readings").EnumerateArray().Single(r => r.GetProperty("kind").GetString() == "spo2_percent");

        // The scenario's 97 % is a ratio of 0.52 on the textbook line: 90 - 0.42 × 60 / 2.9.
        Assert.That(row.GetProperty("bias").GetDouble(), Is.EqualTo(90 - (0.42 * 60 / 2.9) - 97).Within(0.5));
    }

    [Test]
    public void Detect_RecordingWithCalibration_GivesTheRunsPressures()
    {
        string calibration = Write("c.toml", Cuff.Replace("200", "240", StringComparison.Ordinal));
        string scenario = Scenario(seconds: 60);
        Command.Run("run", scenario, "--calibration", calibration, "--out", At("run"));
        Command.Run("record", scenario, "--out", At("record"));
        Command.Run("detect", At("record"), "--calibration", calibration, "--audit", "--out", At("detect"));

        Assert.That(File.ReadAllText(At("detect", "detections.csv")), Is.EqualTo(File.ReadAllText(At("run", "detections.csv"))).And.Contain(",systolic_mmhg,"));
    }

    [Test]
    public void Detect_CsvFileWithCalibration_IsRefused()
    {
        string csv = Write("ecg.csv", "mv\n0\n0\n");

        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "detect", csv, "--rate-hz", "250", "--calibration", Write("c.toml", Cuff)),
            Is.EqualTo(new[] { "--calibration is for a recording of the ECG and light; a CSV file holds one channel, and nothing there could be calibrated" }));
    }

    [TestCase("x = 1\n" + Cuff, ", line 1, column 1: x stands outside of every section; a calibration holds [calibration], [oxygen], [pressure], [trend] and one or two [[cuff]]")]
    [TestCase("[presure]\n" + Cuff, ", line 1, column 2: [presure] is no section of a calibration; the nearest is [pressure]")]
    [TestCase("[cuff]\n", ", line 1, column 2: [cuff] may stand twice and has two brackets: [[cuff]]")]
    [TestCase("[[oxygen]]\n", ", line 1, column 3: [[oxygen]] is a list of sections; a section stands once: [oxygen]")]
    [TestCase(Cuff + "[trend]\n[trend]\n", ", line 6, column 2: [trend] stands twice, first in line 5; put its keys there")]
    [TestCase("[pressure]\nmodle = \"linear\"\n" + Cuff, ", line 2, column 1: pressure.modle is no key of a calibration; the nearest is pressure.model")]
    [TestCase("[pressure]\nmodel = \"lin\"\n" + Cuff, ", line 2, column 9: pressure.model = \"lin\" must be one of \"linear\", \"logarithmic\", \"inverse\", \"inverse_square\", \"pulse_pressure\"; the nearest is \"linear\"")]
    [TestCase("[pressure]\nvalid_days = 0\n" + Cuff, ", line 2, column 14: pressure.valid_days = 0 is outside of 1 to 3650 days")]
    [TestCase("[pressure]\nvalid_days = 1.5\n" + Cuff, ", line 2, column 14: pressure.valid_days = 1.5 must be a whole number, 1 to 3650 days")]
    [TestCase("[pressure]\nreach_mmhg = \"far\"\n" + Cuff, ", line 2, column 14: pressure.reach_mmhg = \"far\" must be a number, 0 to 100 mmHg")]
    [TestCase("[pressure]\n", ", line 1, column 2: [pressure] needs a cuff measurement: add [[cuff]] with arrival_ms, systolic_mmhg and diastolic_mmhg")]
    [TestCase("# empty\n", ": nothing is calibrated here; a calibration holds [calibration], [oxygen], [pressure], [trend] and one or two [[cuff]]")]
    [TestCase("[[cuff]]\narrival_ms = 200\nsystolic_mmhg = 120\n", ", line 1, column 3: [[cuff]] needs diastolic_mmhg: 30 to 160 mmHg")]
    [TestCase(Cuff + "arrival_ms = 210\n", ", line 5, column 1: cuff.arrival_ms stands twice, first in line 2; keep one")]
    [TestCase("[[cuff]]\narrival_ms = 500\nsystolic_mmhg = 120\ndiastolic_mmhg = 80\n", ", line 2, column 14: cuff.arrival_ms = 500 is outside of 80 to 450 ms")]
    [TestCase("[[cuff]]\narrival_ms = 200\nsystolic_mmhg = 120\ndiastolic_mmhg = 112\n", ", line 4, column 18: cuff.diastolic_mmhg = 112 lies less than 10 mmHg below cuff.systolic_mmhg = 120; below 110 would do")]
    [TestCase(Cuff + Cuff, ", line 5, column 3: the second [[cuff]] differs from the first by 0 ms and 0 mmHg systolic; 10 ms and 5 mmHg at least, as chance does less")]
    [TestCase("[pressure]\nsystolic_mmhg_per_bpm = 0.2\n" + Cuff, ", line 3, column 3: [[cuff]] needs rate_bpm, because the pressure changes with the rate: 20 to 400 bpm")]
    [TestCase("[pressure]\nslope_mmhg_per_ms = -0.5\nelasticity_per_mmhg = 0.02\n" + Cuff, ", line 3, column 23: pressure.elasticity_per_mmhg gives the slope that pressure.slope_mmhg_per_ms gives already; keep one")]
    [TestCase("[oxygen]\nratio = [0.4]\nsaturation_percent = [100, 90]\n", ", line 2, column 9: oxygen.ratio = [0.4] must be a list of 2 to 16 numbers, 0.05 to 6.5")]
    [TestCase("[oxygen]\nratio = [0.4, 0.8]\n", ", line 1, column 2: [oxygen] needs saturation_percent: a list of 2 to 16 numbers, 0 to 100 %")]
    [TestCase("[oxygen]\nratio = [0.4, 0.8]\nsaturation_percent = [90, 100]\n", ", line 3, column 27: oxygen.saturation_percent: 100 after 90; the numbers must fall by 0.01 at least")]
    [TestCase("[oxygen]\nratio = [0.4, 0.8, 1]\nsaturation_percent = [100, 90]\n", ", line 3, column 22: oxygen.saturation_percent has 2 numbers and oxygen.ratio 3; both must have as many")]
    [TestCase("[oxygen]\nratio = [0.4, 9]\nsaturation_percent = [100, 90]\n", ", line 2, column 15: oxygen.ratio = 9 is outside of 0.05 to 6.5")]
    [TestCase("[calibration]\ntime_of_day_h = 25\n" + Cuff, ", line 2, column 17: calibration.time_of_day_h = 25 is outside of 0 to 24 h")]
    [TestCase("[trend]\nlearning_days = 3\n" + Cuff, ", line 2, column 17: trend.learning_days = 3 is outside of 5 to 250 days")]
    public void Run_Mistake_NamesPlaceAndWhatIsRight(string text, string message)
    {
        string path = Write("c.toml", text);

        Assert.That(Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--calibration", path), Is.EqualTo(new[] { path + message }));
    }

    [Test]
    public void Run_WithTwoCuffs_RefusesWhatIsForOneAndASlopeThatRises()
    {
        string other = Cuff.Replace("200", "220", StringComparison.Ordinal).Replace("120", "135", StringComparison.Ordinal);

        string twice = Write("twice.toml", $"[pressure]\ndiastolic_share = 0.5\n{Cuff}{other.Replace("135", "110", StringComparison.Ordinal)}");
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--calibration", twice),
            Is.EqualTo(new[] { $"{twice}, line 2, column 19: pressure.diastolic_share is for one [[cuff]]; two give both slopes themselves" }));

        string rising = Write("rising.toml", Cuff + other);
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--calibration", rising)[0],
            Does.StartWith($"{rising}, line 5, column 3: the curve would be too flat, too steep or rising; systolic pressure must fall by 0.15 to 2.4 mmHg"));

        string third = Write("third.toml", $"{Cuff}{other.Replace("135", "110", StringComparison.Ordinal)}{Cuff}");
        Assert.That(
            Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--calibration", third),
            Is.EqualTo(new[] { $"{third}, line 9, column 3: [[cuff]] stands more than twice; one or two measurements make the curve" }));
    }

    [Test]
    public void Run_NoSuchCalibration_SaysWhatToGive() => Assert.That(
        Command.Refused(ExitCodes.WrongInput, "run", Scenario(), "--calibration", At("none.toml")),
        Is.EqualTo(new[] { $"{At("none.toml")}: there is no such file; give the path of a calibration (TOML)" }));

    // Whatever single number the reader takes at the ends of its range, the library must not call out of range.
    [Test]
    public void Run_EndsOfEveryRange_AreTakenByTheLibraryToo()
    {
        foreach (SensorSim.Signals.Keys.NumberKey key in CalibrationKeys.All.OfType<SensorSim.Signals.Keys.NumberKey>().Where(k => k.Section is "pressure" or "trend"))
        {
            foreach (double end in new[] { key.Minimum, key.Maximum })
            {
                string cuff = Cuff.Replace("200", "350", StringComparison.Ordinal) + "rate_bpm = 60\n";
                string path = Write("c.toml", string.Create(CultureInfo.InvariantCulture, $"[{key.Section}]\n{key.Key} = {end}\n{cuff}"));
                Answer answer = Command.Run("run", Scenario(), "--calibration", path);
                Assert.That(answer.Error, Does.Not.Contain("outside of its range"), $"{key.Name} = {end}");
            }
        }
    }

    [Test]
    public void Docs_TableOfKeys_HoldsEveryOne()
    {
        string text = File.ReadAllText(Path.Combine(Root, "docs", "calibration.md"));
        var rows = KeyRow().Matches(text).Select(m => (m.Groups[1].Value, m.Groups[2].Value.Trim(), m.Groups[3].Value.Trim())).ToArray();

        Assert.That(rows, Is.EqualTo(CalibrationKeys.All.Select(k => (k.Name, k.Unit, k.RangeText.Replace("|", "\\|", StringComparison.Ordinal)))));
    }

    [GeneratedRegex(@"^\| `([a-z]+\.[a-z_]+)` \| ([^|]*) \| ([^|]*) \|", RegexOptions.Multiline)]
    private static partial Regex KeyRow();
}
