// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Acquisition;

/// <summary>What the file of acquisition says of the light chain.</summary>
public sealed class SlotLevelTests
{
    // 1800 and 300 nA over 100 µs: I/√N, N = I T / q electrons; 500 kΩ at 30 °C: √(4 k T 5 kHz / R) (scipy.constants 1.10).
    [Test]
    public void Write_NoiseOfCurrents_TellsItForEachSlot()
    {
        AcquisitionRow[] rows = Rows("shot_noise = \"on\"\nfeedback_kohm = 500\n[ambient]\nlevel_na = 300\n");
        Assert.That(Value(rows, ChannelName.Red, "shot_noise_na_rms"), Is.EqualTo(0.053702122315603125).Within(1e-9));
        Assert.That(Value(rows, ChannelName.Dark, "shot_noise_na_rms"), Is.EqualTo(0.021923799629626244).Within(1e-9));
        Assert.That(Value(rows, ChannelName.Infrared, "thermal_noise_na_rms"), Is.EqualTo(0.012938991372591607).Within(1e-9));
        Assert.That(Value(rows, ChannelName.Dark, "thermal_noise_na_rms"), Is.EqualTo(0.012938991372591607).Within(1e-9));

        // 20 log10((A / 2√2) / rms) of both together, with the A that the file tells.
        double a = Value(rows, ChannelName.Red, "foot_to_peak_na");
        double rms = Math.Sqrt((0.053702122315603125 * 0.053702122315603125) + (0.012938991372591607 * 0.012938991372591607));
        Assert.That(Value(rows, ChannelName.Red, "snr_db"), Is.EqualTo(20 * Math.Log10(a / (2 * Math.Sqrt(2)) / rms)).Within(1e-9));
    }

    [Test]
    public void Write_CurrentAndContact_TellsLightAndWhatIsLost()
    {
        AcquisitionRow[] rows = Rows("red_ma = 20\ncontact_percent = 75\ncrosstalk_percent = 2\namplifier_full_na = 4000\nlift_offs_per_h = 12\n");
        Assert.That(Value(rows, ChannelName.Red, "light_at_foot_na"), Is.EqualTo(1500 * 2 * 0.75).Within(1e-9));
        Assert.That(Value(rows, ChannelName.Infrared, "light_at_foot_na"), Is.EqualTo(2000 * 0.75).Within(1e-9));
        Assert.That(Value(rows, ChannelName.Red, "led_current_ma"), Is.EqualTo(20));
        foreach (ChannelName name in new[] { ChannelName.Infrared, ChannelName.Dark })
        {
            Assert.That(Value(rows, name, "crosstalk_percent"), Is.EqualTo(2));
            Assert.That(Value(rows, name, "contact_lost_percent"), Is.EqualTo(25));
            Assert.That(Value(rows, name, "amplifier_full_na"), Is.EqualTo(4000));
            Assert.That(Value(rows, name, "lift_offs_per_h"), Is.EqualTo(12));
            Assert.That(Value(rows, name, "lift_off_s"), Is.EqualTo(3));
        }

        Assert.That(rows.Count(r => r.Channel == ChannelName.Red && r.Item == "level_crosstalk_percent"), Is.Zero);
    }

    // Twice the reference pressure: u (1 − u)³ over its top, and the light beside it, as the sensor's page says.
    [Test]
    public void Write_ContactPressure_TellsThePulseThatIsLeft()
    {
        AcquisitionRow[] free = Rows("");
        AcquisitionRow[] pressed = Rows("contact_pressure_mmhg = 70\n");
        double factor = 0.5 * 0.125 / 0.10546875;
        double level = 1.15 / 1.0875;

        // A = level · (1 − e^(−H)): the factor takes the logarithm of what is left.
        double before = 1 - (Value(free, ChannelName.Infrared, "foot_to_peak_na") / 2000);
        Assert.That(Value(pressed, ChannelName.Infrared, "light_at_foot_na"), Is.EqualTo(2000 * level).Within(1e-9));
        Assert.That(Value(pressed, ChannelName.Infrared, "foot_to_peak_na"), Is.EqualTo(2000 * level * (1 - Math.Pow(before, factor))).Within(1e-9));
    }

    private static double Value(AcquisitionRow[] rows, ChannelName channel, string item) =>
        rows.Single(r => r.Channel == channel && r.Item == "level_" + item).Value;

    private static AcquisitionRow[] Rows(string optics)
    {
        Scenario scenario = ScenarioReader.ReadText("[scenario]\nduration_s = 60\n[optics]\n" + optics, "a.toml");
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
