// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>Values that are each allowed but not together; the limit that the message names must itself be accepted.</summary>
[TestFixture]
public sealed class ContradictionTests
{
    // Arithmetic: three slots of w µs, s µs apart, must fit into a sample: 2 s + w <= 1e6 / rate; with green four: 3 s + w.
    [TestCase("[optics]\nslot_spacing_us = 5000\n", 2, "slot_spacing_us", 4950)]
    [TestCase("[optics]\nintegration_us = 300\n", 2, "integration_us", 250)]
    [TestCase("[optics]\nrate_hz = 1000\nslot_spacing_us = 460\n", 3, "slot_spacing_us", 450)]
    [TestCase("[optics]\ngreen_na = 500\nrate_hz = 1000\nslot_spacing_us = 310\n", 4, "slot_spacing_us", 300)]
    public void ReadText_SlotsDoNotFit_NamesALimitThatFits(string text, int line, string key, double limit)
    {
        ScenarioMistake mistake = Mistaken.In(text)[0];

        Assert.That(mistake.Line, Is.EqualTo(line));
        Assert.That(mistake.Message, Does.StartWith($"optics.{key} = ").And.Contain($"at most {limit.ToString(CultureInfo.InvariantCulture)} µs"));
        string[] lines = text.Split('\n');
        lines[line - 1] = $"{key} = {limit.ToString(CultureInfo.InvariantCulture)}";
        Assert.That(() => ScenarioReader.ReadText(string.Join('\n', lines), "a"), Throws.Nothing);
    }

    [Test]
    public void ReadText_IntegrationTooLongForAnySpacing_NamesALimitThatFitsWithSlotsSideBySide()
    {
        Assert.That(
            Mistaken.Line("[optics]\nrate_hz = 1000\nslot_spacing_us = 900\nintegration_us = 900\n"),
            Is.EqualTo("a.toml, line 4, column 18: optics.integration_us = 900: three slots do not fit into one sample of 1000 µs; at most 333 µs"));
        Assert.That(() => ScenarioReader.ReadText("[optics]\nrate_hz = 1000\nslot_spacing_us = 333\nintegration_us = 333\n", "a"), Throws.Nothing);
    }

    [Test]
    public void ReadText_SpacingShorterThanTheUsualIntegration_NamesTheSpacing() => Assert.That(
        Mistaken.Line("[optics]\nslot_spacing_us = 10\n"),
        Is.EqualTo("a.toml, line 2, column 19: optics.slot_spacing_us = 10 is shorter than the integration time; at least 100 µs fit"));

    // Three standard deviations above 240 ms: at 150 bpm the mean is 400 ms, so at most (400 - 240) / 3 = 53.3 ms.
    [TestCase("respiratory_variability_ms = 54\nslow_variability_ms = 0\n", false)]
    [TestCase("respiratory_variability_ms = 53\nslow_variability_ms = 0\n", true)]
    [TestCase("respiratory_variability_ms = 40\nslow_variability_ms = 40\n", false)]
    [TestCase("respiratory_variability_ms = 37\nslow_variability_ms = 37\n", true)]
    public void ReadText_Variability_MustLeaveAnInterval(string variability, bool isAccepted)
    {
        string text = "[heart]\nrate_bpm = 150\n" + variability;

        if (isAccepted)
        {
            Assert.That(() => ScenarioReader.ReadText(text, "a"), Throws.Nothing);
        }
        else
        {
            Assert.That(Mistaken.Line(text), Does.StartWith("a.toml, line 3, column 30: RR variability of ").And.Contain("at most 53 ms"));
        }
    }

    [Test]
    public void ReadText_RateAloneLeavesNoRoomForVariability_NamesTheRate() =>
        Assert.That(Mistaken.Line("[heart]\nrate_bpm = 250\n[ecg]\nqtc_ms = 340\n"), Does.StartWith("a.toml, line 2, column 12: RR variability of 28 ms"));

    // 1999, 997 and 991 are primes: their lowest common multiple is their product, 1.975e9.
    [Test]
    public void ReadText_RatesWithoutCommonMultiple_NamesThem()
    {
        string line = Mistaken.Line("[ecg_amplifier]\nrate_hz = 1999\n[optics]\nrate_hz = 997\n[accelerometer]\nrate_hz = 991\n");

        Assert.That(line, Does.StartWith("a.toml, line 2, column 11: the rates 1999, 997 and 991 Hz have a common multiple above 1 GHz"));
    }
}
