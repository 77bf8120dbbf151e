// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Streams;

/// <summary>Clocks that are off for long: the body remembers 256 beats, 77 s at 200 bpm (arithmetic).</summary>
[TestFixture]
public sealed class FastClockTests
{
    private const int Minute = 60;

    // A thousand ppm for 80,000 s: the device's time is 80 s ahead of the body's.
    [Test]
    public void Read_FastClockForADay_ReachesTheEnd() => ReadToTheEnd(80_000, "[device]\nclock_ppm = 1000\n");

    // The furthest that two devices may come apart, the faster one ahead by as much again.
    [TestCase(1000, 500)]
    [TestCase(500, 1000)]
    [TestCase(250, -250)]
    public void Read_TwoDevicesAsFarApartAsTheyMay_ReachesTheEnd(int first, int second) =>
        ReadToTheEnd(40_000, $"[device]\nclock_ppm = {first}\n[second_device]\ncarries = \"light_and_movement\"\nclock_ppm = {second}\n");

    private static void ReadToTheEnd(int seconds, string devices)
    {
        SensorStream stream = ScenarioReader.ReadText(
            $"[scenario]\nduration_s = {seconds}\n[heart]\nrate_bpm = 200\nrespiratory_variability_ms = 0\nslow_variability_ms = 0\n"
            + $"[ecg_amplifier]\nrate_hz = 50\n[optics]\nrate_hz = 20\n[accelerometer]\nrate_hz = 10\n{devices}",
            "clock.toml").CreateStream();
        long minute = stream.Format.Clock.TicksPerSecond * Minute;
        var block = new SampleBlock(stream.Format, minute);
        long samples = 0;
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, Math.Min(stream.EndTick, stream.PositionTick + minute));
            samples += block.Channels[0].Count;
            stream.Truth.Clear();
            stream.Acquisition.Clear();
        }

        Assert.That(samples, Is.EqualTo(50L * seconds));
    }
}
