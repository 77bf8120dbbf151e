// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Acquisition;

/// <summary>What the file of acquisition says of levels that change: counted out by hand from the rates.</summary>
public sealed class AcquisitionRowsTests
{
    // ECG at 250 Hz: 64 samples are 256 ms; the first latch at or after 10 s is sample 2560 at 10.24 s, after 20 s sample 5056 at 20.224 s.
    [Test]
    public void Write_Steps_GivesOneRowForEachStretch() =>
        Assert.That(
            Rows(60, EcgAmplifierKeys.WhiteNoiseUvRms, 5, Step(10, 40), Step(20, 15)),
            Is.EqualTo(new[]
            {
                Row(ChannelName.Ecg, "white_noise_uv_rms", 0, 10_240_000_000, 5, "uV"),
                Row(ChannelName.Ecg, "white_noise_uv_rms", 10_240_000_000, 20_224_000_000, 40, "uV"),
                Row(ChannelName.Ecg, "white_noise_uv_rms", 20_224_000_000, 60_000_000_000, 15, "uV"),
            }));

    [Test]
    public void Write_LevelThatIsOffForAWhile_HasNoRowThere() =>
        Assert.That(
            Rows(60, EcgAmplifierKeys.WhiteNoiseUvRms, 0, Step(10, 40), Step(20, 0)),
            Is.EqualTo(new[] { Row(ChannelName.Ecg, "white_noise_uv_rms", 10_240_000_000, 20_224_000_000, 40, "uV") }));

    // Red at 100 Hz, sampled at the nominal instants: 0.64 s between latches. A ramp from 10 to 14 s has rows from the latches at or after
    // 10, 11, 12, 13 and 14 s: samples 1024, 1152, 1216, 1344, 1408, each with the line at its own instant.
    [Test]
    public void Write_Ramp_GivesARowForEachSecondOfIt()
    {
        AcquisitionRow[] rows = Rows(60, OpticsKeys.RedNa, 1000, new CourseChange(10, ChangeKind.Ramp, 1400, 4));
        AcquisitionRow[] levels = [.. rows.Where(r => r.Item == "level_light_at_foot_na")];
        Assert.That(levels.Select(r => r.BeginNs / 10_000_000), Is.EqualTo(new[] { 0, 1024, 1152, 1216, 1344, 1408 }));
        Assert.That(levels.Select(r => r.EndNs!.Value / 10_000_000), Is.EqualTo(new[] { 1024, 1152, 1216, 1344, 1408, 6000 }));
        Assert.That(levels.Select(r => r.Value), Is.EqualTo(new[] { 1000.0, 1024, 1152, 1216, 1344, 1400 }).Within(1e-9));
    }

    [Test]
    public void Write_LongSine_GivesOneRowWithTheExtremes()
    {
        AcquisitionRow[] rows = Rows(
            3600, AccelerometerKeys.NoiseUgPerRthz, 200, [], [new Oscillation(0, 3600, 150, 400)]);
        Assert.That(rows, Has.Length.EqualTo(3));
        Assert.That(rows[0], Is.EqualTo(Row(ChannelName.AccelX, "noise_ug_per_rthz", 0, 3600_000_000_000, 200, "ug/sqrt(Hz)") with { Label = rows[0].Label }));
        string[] words = rows[0].Label.Split(' ');
        Assert.That(double.Parse(words[1], System.Globalization.CultureInfo.InvariantCulture), Is.EqualTo(50).Within(0.1));
        Assert.That(double.Parse(words[3], System.Globalization.CultureInfo.InvariantCulture), Is.EqualTo(350).Within(0.1));
    }

    [Test]
    public void Write_ConstantScenario_HasOneRowForEachLevelAndNoneForWhatIsOff()
    {
        AcquisitionRow[] all = All(ScenarioReader.ReadText("[scenario]\nduration_s = 60\n[optics]\ngreen_na = 800\n", "a.toml"));
        AcquisitionRow[] levels = [.. all.Where(r => r.Item.StartsWith("level_", StringComparison.Ordinal))];
        Assert.That(levels.Select(r => (r.Channel, r.Item)), Is.EqualTo(
            from channel in new[] { ChannelName.Red, ChannelName.Infrared, ChannelName.Green }
            from item in new[] { "level_light_at_foot_na", "level_foot_to_peak_na", "level_breathing_baseline_percent" }
            select (channel, item)));
        Assert.That(levels.Select(r => (r.BeginNs, r.EndNs)), Has.All.EqualTo((0L, (long?)60_000_000_000)));
    }

    // The light lies on a second device: 250 ms off, stamped 40 ms late, of which the maker declares 60 ms; the slot declares its own place.
    [Test]
    public void Write_TwoDevices_GivesTheClockOfEachChannel()
    {
        AcquisitionRow[] rows = All(ScenarioReader.ReadText(
            "[scenario]\nduration_s = 60\n[optics]\nslot_spacing_us = 500\n[device]\nclock_ppm = -12.5\n"
            + "[second_device]\ncarries = \"light\"\nclock_offset_ms = 250\nradio_delay_ms = 40\ndeclared_delay_ms = 60\nclock_ppm = 20\n",
            "a.toml"));

        (string Item, double Value)[] Of(ChannelName channel) =>
        [
            .. rows.Where(r => r.Channel == channel && (r.Item is "clock_segment_ppm" or "clock_offset_ns" or "declared_delay_ns"))
                .Select(r => (r.Item, r.Value)),
        ];

        Assert.That(Of(ChannelName.Ecg), Is.EquivalentTo(new[] { ("declared_delay_ns", 0.0), ("clock_segment_ppm", -12.5), ("clock_offset_ns", 0.0) }));
        Assert.That(
            Of(ChannelName.Infrared),
            Is.EquivalentTo(new[] { ("declared_delay_ns", 59_500_000.0), ("clock_segment_ppm", 20.0), ("clock_offset_ns", 230_000_000.0) }));
        Assert.That(
            rows.Where(r => r.Item is "clock_offset_ns" or "clock_segment_ppm").Select(r => (r.BeginNs, r.EndNs)),
            Has.All.EqualTo((0L, (long?)60_000_000_000)));
    }

    // Each error of its converter, its axis and its device's way to the receiver, as the scenario says it; what is off has no row.
    [Test]
    public void Write_SensorErrors_GivesEachChannelItsOwn()
    {
        const string Text = "[optics]\nconverter_offset_codes = -40\nstuck_codes_per_h = 6\n"
            + "[accelerometer]\nbandwidth_hz = 20\noffset_y_mg = 35\nconverter_dither = \"triangular\"\n"
            + "[device]\npacket_loss_percent = 5\n[second_device]\ncarries = \"ecg\"\nstalls_per_min = 2\n";
        var levels = All(ScenarioReader.ReadText(Text, "a.toml"))
            .Except(All(ScenarioReader.ReadText("[second_device]\ncarries = \"ecg\"\n", "a.toml")))
            .ToLookup(r => r.Channel, r => (r.Item, r.Value, r.Unit));
        (string Item, double Value, string Unit)[] loss =
            [("level_packet_ms", 100, "ms"), ("level_packet_loss_percent", 5, "%"), ("level_loss_burst_packets", 3, "packets")];
        Assert.That(levels[ChannelName.Red], Is.EqualTo(
            new[] { ("level_converter_offset_codes", -40.0, "codes"), ("level_stuck_codes_per_h", 6, "1/h"), ("level_stuck_codes_s", 2, "s") }.Concat(loss)));
        Assert.That(levels[ChannelName.Dark], Is.EqualTo(levels[ChannelName.Red]));
        Assert.That(levels[ChannelName.AccelX], Is.EqualTo(
            new[] { ("level_bandwidth_hz", 20.0, "Hz"), ("level_converter_dither_codes_rms", Math.Sqrt(1.0 / 6), "codes") }.Concat(loss)));
        Assert.That(levels[ChannelName.AccelY].ElementAt(1), Is.EqualTo(("level_offset_mg", 35.0, "mg")));
        Assert.That(levels[ChannelName.Ecg], Is.EqualTo(
            new[] { ("level_stalls_per_min", 2.0, "1/min"), ("level_stall_ms", 500, "ms"), ("level_fifo_samples", 32, "samples") }));
    }

    // 300 nA and 500 lux of 0.2 nA each are 400 nA; daylight of 1000 lux and 0.7 nA each 700 nA. What happens by itself has its rates.
    [Test]
    public void Write_RestlessRoom_TellsLevelsRatesAndDepths()
    {
        AcquisitionRow[] all = All(ScenarioReader.ReadText(
            "[scenario]\nduration_s = 60\n[ambient]\nlevel_na = 300\nlevel_lux = 500\nflicker_second_percent = 20\nlamp_switch_per_min = 3\n"
            + "daylight_lux = 1000\nshade_per_min = 5\nhand_per_min = 2\n[optics]\nmovement_artefact_ratio = 1\nmovement_coherence_percent = 60\n",
            "a.toml"));
        Assert.That(
            all.Where(r => r.Channel == ChannelName.Dark && r.Item.StartsWith("level_", StringComparison.Ordinal)).Select(r => (r.Item[6..], r.Value, r.Unit)),
            Is.EqualTo(new[]
            {
                ("ambient_na", 400.0, "nA"), ("flicker_percent", 10, "%"), ("flicker_second_percent", 20, "%"), ("lamp_switch_per_min", 3, "1/min"),
                ("daylight_na", 700, "nA"), ("shade_per_min", 5, "1/min"), ("shade_depth_percent", 80, "%"),
                ("hand_per_min", 2, "1/min"), ("hand_depth_percent", 60, "%"),
            }));
        Assert.That(all.Single(r => r.Channel == ChannelName.Red && r.Item == "level_movement_coherence_percent").Value, Is.EqualTo(60));
    }

    private static CourseChange Step(double at, double to) => new(at, ChangeKind.Step, to, 0);

    private static AcquisitionRow Row(ChannelName channel, string item, long begin, long end, double value, string unit) =>
        new(channel, "level_" + item, begin, end, value, unit, "");

    private static AcquisitionRow[] Rows(int seconds, NumberKey key, double value, params CourseChange[] changes) =>
        Rows(seconds, key, value, changes, []);

    // Rows of levels that are not there in the same scenario without the knob; the ratios that follow have their own tests.
    private static AcquisitionRow[] Rows(int seconds, NumberKey key, double value, CourseChange[] changes, Oscillation[] oscillations)
    {
        string text = $"[scenario]\nduration_s = {seconds}\n";
        Scenario scenario = ScenarioReader.ReadText(text, "a.toml");
        AcquisitionRow[] without = All(scenario);
        scenario.Values.Set(key, value).SetChanges(key, changes, oscillations);
        return [.. All(scenario).Except(without).Where(r => r.Unit != "dB")];
    }

    private static AcquisitionRow[] All(Scenario scenario)
    {
        using var written = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, written);
        using var reader = new AcquisitionCsvReader(new MemoryStream(written.ToArray()), "acquisition.csv");
        List<AcquisitionRow> rows = [];
        while (reader.TryRead(out AcquisitionRow row))
        {
            rows.Add(row);
        }

        return [.. rows];
    }
}
