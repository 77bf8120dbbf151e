// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>Lamps that flicker come out of the sampling as slow waves: what the light then says of the heart must be right, or nothing.</summary>
[TestFixture]
public sealed class LampTests
{
    // What heart-rate meters may be off by: 5 bpm or a tenth, whichever is more (standards of such meters, from memory).
    private const double LargestErrorBpm = 5;
    private const double RateBpm = 66;
    private const int RoomLight = 6;

    private const string Bright = "level_lux = 4000\nflicker_percent = 100";

    // Flicker of twice the mains frequency at 100 Hz, and a lamp that is switched at 513.3 Hz at 128 Hz: both as a wave of 1.3 Hz. No ECG to lean on.
    [TestCase(100, Bright, 50.65)]
    [TestCase(100, Bright, 50.45)]
    [TestCase(128, "pulse_width_hz = 513.3\npulse_width_duty_percent = 40\npulse_width_lamp_na = 1000", 50)]
    [TestCase(128, "pulse_width_hz = 513.3\npulse_width_duty_percent = 40\npulse_width_lamp_na = 100", 50)]
    [TestCase(100, "pulse_width_hz = 2000.8\npulse_width_duty_percent = 15\npulse_width_lamp_na = 250", 50)]
    public void Process_LampAsSlowAsAPulse_LightGivesNothingWrongAndSaysWhy(int lightHz, string room, double mainsHz)
    {
        for (int seed = 5000; seed < 5004; seed++)
        {
            List<Mark> marks = Run(seed, lightHz, room, mainsHz, out StreamFormat format);
            Assert.That(Of(marks, format, MarkKind.Spo2Percent), Is.Empty, "saturation");
            Assert.That(Of(marks, format, MarkKind.PerfusionIndexPercent), Is.Empty, "perfusion");
            foreach (Mark rate in Of(marks, format, MarkKind.HeartRateBpm))
            {
                Assert.That(rate.Value, Is.EqualTo(RateBpm).Within(LargestErrorBpm + 3), "the heart's own variability is 3 bpm");
            }

            Assert.That(Of(marks, format, MarkKind.GateShut).Select(m => m.Value), Has.Member(RoomLight), "room light told");
        }
    }

    // The same lamps where they fold to nothing slow, and dim ones: every reading is there as without a lamp, but for a few.
    [TestCase(100, "level_lux = 500\nflicker_percent = 10", 50.03)]
    [TestCase(100, "level_lux = 300\nflicker_percent = 10", 60.02)]
    [TestCase(100, "level_lux = 1000\nflicker_percent = 3", 50.65)]
    [TestCase(128, "pulse_width_hz = 513.3\npulse_width_duty_percent = 40\npulse_width_lamp_na = 2", 50)]
    [TestCase(100, "level_lux = 300\nflicker_percent = 10\nlamp_switch_per_min = 12", 50)]
    [TestCase(100, "daylight_lux = 300\nhand_per_min = 10\nhand_depth_percent = 30", 50)]
    public void Process_RoomThatDoesNoHarm_LightGivesItsReadings(int lightHz, string room, double mainsHz)
    {
        foreach (MarkKind kind in new[] { MarkKind.HeartRateBpm, MarkKind.Spo2Percent })
        {
            List<Mark> still = Of(Run(5000, lightHz, "level_na = 0", mainsHz, out StreamFormat format), format, kind);
            List<Mark> with = Of(Run(5000, lightHz, room, mainsHz, out format), format, kind);
            Assert.That(still, Has.Count.GreaterThan(50), kind.ToString());
            Assert.That(with, Has.Count.GreaterThan(still.Count * 9 / 10), kind.ToString());
        }
    }

    // With so much of the light of the slot before it the dark slot pulsates with the heart: no lamp.
    [TestCase(35)]
    [TestCase(45)]
    public void Process_DarkSlotThatSeesTheHeart_LightGivesItsReadings(int crosstalkPercent)
    {
        foreach (MarkKind kind in new[] { MarkKind.HeartRateBpm, MarkKind.PerfusionIndexPercent })
        {
            List<Mark> none = Of(Run(5000, 100, "level_na = 0", 50, out StreamFormat format), format, kind);
            List<Mark> with = Of(Run(5000, 100, "level_na = 0", 50, out format, crosstalkPercent), format, kind);
            Assert.That(none, Has.Count.GreaterThan(50), kind.ToString());
            Assert.That(with, Has.Count.GreaterThan(none.Count * 9 / 10), kind.ToString());
        }
    }

    private static List<Mark> Of(List<Mark> marks, StreamFormat format, MarkKind kind) =>
        [.. marks.Where(m => m.Kind == kind && format.Channels[m.Channel].Name == ChannelName.Infrared)];

    private static List<Mark> Run(int seed, int lightHz, string room, double mainsHz, out StreamFormat format, int crosstalkPercent = 0)
    {
        string toml = $"""
            [scenario]
            duration_s = 70
            seed = {seed}
            [heart]
            rate_bpm = {RateBpm}
            respiratory_variability_ms = 25
            slow_variability_ms = 20
            [electrodes]
            off = "positive"
            [mains]
            frequency_hz = {mainsHz.ToString(System.Globalization.CultureInfo.InvariantCulture)}
            [optics]
            rate_hz = {lightHz}
            full_scale_na = 16384
            white_noise_snr_db = 40
            crosstalk_percent = {crosstalkPercent}
            [ambient]
            {room.Replace("\n", "\n            ", StringComparison.Ordinal)}
            """;
        SensorStream stream = ScenarioReader.ReadText(toml, "lamp.toml").CreateStream();
        var marks = new List<Mark>();
        using var detector = new LibraryDetector();
        format = stream.Format;
        var block = new SampleBlock(format, format.Clock.TicksPerSecond);
        var output = new DetectorOutput();
        detector.Start(format);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, stream.PositionTick + format.Clock.TicksPerSecond);
            stream.Truth.Clear();
            stream.Acquisition.Clear();
            detector.Process(block, output);
            while (output.Marks.TryTake(out Mark mark))
            {
                marks.Add(mark);
            }
        }

        return marks;
    }
}
