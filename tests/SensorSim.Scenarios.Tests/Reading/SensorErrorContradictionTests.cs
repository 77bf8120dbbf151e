// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Converter errors and data paths that contradict themselves; the limit that the message names must itself be accepted.</summary>
[TestFixture]
public sealed class SensorErrorContradictionTests
{
    // A tenth of the time between samples: 1e5 / rate [µs] (arithmetic).
    [TestCase("ecg_amplifier", 500, 201, 200)]
    [TestCase("optics", 300, 334, 333)]
    [TestCase("accelerometer", 1000, 150, 100)]
    public void ReadText_JitterTooWide_NamesALimitThatFits(string section, int rate, int jitter, int limit)
    {
        Assert.That(
            Mistaken.Line($"[{section}]\nrate_hz = {rate}\nsampling_jitter_us_rms = {jitter}\n"),
            Does.StartWith("a.toml, line 3, column ").And.EndsWith(
                $"{section}.sampling_jitter_us_rms = {jitter} is more than a tenth of the time between samples at {section}.rate_hz = {rate}; at most {limit} µs"));
        Assert.That(() => ScenarioReader.ReadText($"[{section}]\nrate_hz = {rate}\nsampling_jitter_us_rms = {limit}\n", "a"), Throws.Nothing);
    }

    [TestCase("device")]
    [TestCase("second_device")]
    public void ReadText_PatienceShorterThanLate_NamesALimitThatFits(string section)
    {
        Assert.That(
            Mistaken.Line($"[{section}]\nlate_ms = 300\npatience_ms = 200\n"),
            Does.StartWith("a.toml, line 3, column ").And.EndsWith($"{section}.patience_ms at least 300 ms"));
        Assert.That(
            Mistaken.Line($"[{section}]\nlate_ms = 3000\n"),
            Does.StartWith("a.toml, line 2, column ").And.EndsWith($"{section}.late_ms at most 1000 ms"));
        Assert.That(() => ScenarioReader.ReadText($"[{section}]\nlate_ms = 300\npatience_ms = 300\n", "a"), Throws.Nothing);
    }

    // Half of a minute is 30,000 ms: 15 stalls of 2 s.
    [Test]
    public void ReadText_ProcessorBusyForMoreThanHalfOfTheTime_NamesALimitThatFits()
    {
        Assert.That(
            Mistaken.Line("[device]\nstall_ms = 2000\nstalls_per_min = 20\n"),
            Does.StartWith("a.toml, line 3, column ").And.Contain("67 % of the time").And.EndsWith("at most 15 a minute"));
        Assert.That(() => ScenarioReader.ReadText("[device]\nstall_ms = 2000\nstalls_per_min = 15\n", "a"), Throws.Nothing);
    }

    // 2000 ppm are 2 ms a second: 20 s after 10,000 s (arithmetic).
    [Test]
    public void ReadText_ClocksThatComeApart_NamesALimitThatFits()
    {
        const string Text = "[scenario]\nduration_s = {0}\n[device]\nclock_ppm = 1000\n[second_device]\ncarries = \"{1}\"\nclock_ppm = {2}\n";
        Assert.That(
            Mistaken.Line(Of(20_000, "light", -1000)),
            Does.StartWith("a.toml, line 7, column ").And.Contain("come 40 s apart in 20000 s").And.EndsWith("at most 20 s, so no more than 1000 ppm between them"));
        Assert.That(() => ScenarioReader.ReadText(Of(20_000, "light", 0), "a"), Throws.Nothing);
        Assert.That(() => ScenarioReader.ReadText(Of(10_000, "light", -1000), "a"), Throws.Nothing);
        Assert.That(() => ScenarioReader.ReadText(Of(20_000, "nothing", -1000), "a"), Throws.Nothing);

        static string Of(int seconds, string carries, int ppm) => string.Format(System.Globalization.CultureInfo.InvariantCulture, Text, seconds, carries, ppm);
    }

    [Test]
    public void ReadText_StampThatWrapsWithEveryPacket_NamesALimitThatFits()
    {
        Assert.That(
            Mistaken.Line("[device]\npacket_ms = 500\nstamp_wrap_s = 0.7\n"),
            Does.StartWith("a.toml, line 3, column ").And.EndsWith("at least 1 s, or 0 for never"));
        Assert.That(() => ScenarioReader.ReadText("[device]\npacket_ms = 500\nstamp_wrap_s = 1\n", "a"), Throws.Nothing);
    }
}
