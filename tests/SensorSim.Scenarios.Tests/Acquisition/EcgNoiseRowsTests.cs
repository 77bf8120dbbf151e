// SPDX-License-Identifier: MIT
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Acquisition;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.Tests.Acquisition;

/// <summary>
/// Ratios of the ECG's noise: S = (QRS peak to peak)²/8 (Moody, Muldrow and Mark 1984), 1 mV: 0.125 mV²; white noise has 12 of 125 Hz between
/// 8 and 20 Hz, 10.177 dB less.
/// </summary>
public sealed class EcgNoiseRowsTests
{
    private const string OneMillivolt = "[ecg]\nq_mv = 0\nr_mv = 1\ns_mv = 0\n";

    // 0 dB is a level like any other: only the ratio of no noise has no row.
    [TestCase(12)]
    [TestCase(0)]
    [TestCase(-6)]
    public void Write_WhiteNoise_TellsBothRatiosOfTheSourceAndOfAll(double decibel)
    {
        AcquisitionRow[] rows = Ratios(FormattableString.Invariant($"[ecg_noise]\nwhite_noise_snr_db = {decibel}\n"));
        Assert.That(rows.Select(r => r.Item), Is.EqualTo(new[]
        {
            "level_white_noise_snr_db", "level_white_noise_snr_8_to_20_hz_db", "level_ecg_snr_db", "level_ecg_snr_8_to_20_hz_db",
        }));
        Assert.That(rows.Select(r => r.Value), Is.EqualTo(new[] { decibel, decibel + 10.177, decibel, decibel + 10.177 }).Within(1e-3));
        Assert.That(rows.Select(r => (r.Channel, r.BeginNs, r.EndNs)), Has.All.EqualTo((ChannelName.Ecg, 0L, (long?)60_000_000_000)));
    }

    [Test]
    public void Write_CleanEcg_TellsNoRatio() => Assert.That(Ratios(""), Is.Empty);

    // 0.3 and 0.4 mV rms give 0.5 mV: 10 log10(0.125/0.25) = −3.010 dB.
    [Test]
    public void Write_TwoSources_AddInPower()
    {
        AcquisitionRow[] rows = Ratios("[ecg_amplifier]\nwhite_noise_uv_rms = 300\n[ecg_noise]\nmuscle_uv_rms = 400\n");
        Assert.That(rows.Single(r => r.Item == "level_ecg_snr_db").Value, Is.EqualTo(-3.0103).Within(1e-4));
        Assert.That(rows.Single(r => r.Item == "level_white_noise_snr_db").Value, Is.EqualTo(1.4267).Within(1e-4));
    }

    // Walking from 30 s on: 7,500 samples, the next 64th is 7,552 at 30.208 s. Before it no motion, so no row.
    [Test]
    public void Write_MotionOfAWalk_BeginsWithIt()
    {
        AcquisitionRow[] rows = Ratios(
            "[ecg_noise]\nsharp_motion_snr_db = 6\n[[change]]\nat_s = 30\nkey = \"movement.activity\"\nstep_to = \"walking\"\n");
        AcquisitionRow[] sharp = [.. rows.Where(r => r.Item == "level_sharp_motion_snr_db")];
        Assert.That(sharp[0].BeginNs, Is.EqualTo(30_208_000_000));
        Assert.That(sharp[0].Value, Is.GreaterThan(8), "still beginning");
        Assert.That(sharp[^1].Value, Is.EqualTo(6).Within(1e-9));
        Assert.That(sharp[^1].EndNs, Is.EqualTo(60_000_000_000));
    }

    [Test]
    public void Write_Motion_TellsItsLevelInMicrovolts()
    {
        AcquisitionRow[] rows = [.. All("[movement]\nactivity = \"walking\"\n[ecg_noise]\nslow_motion_uv_rms = 80\nmuscle_uv_rms = 25\n")
            .Where(r => r.Unit == "uV")];
        Assert.That(rows.Select(r => (r.Item, Math.Round(r.Value, 9))), Is.EqualTo(new[] { ("level_muscle_uv_rms", 25.0), ("level_slow_motion_uv_rms", 80.0) }));
    }

    // Clean, then 0 dB from 20 s on and 6 dB from 40 s on: at its worst at 20 s, whatever the start is.
    [TestCase("", 20.0)]
    [TestCase("[ecg_noise]\nmuscle_snr_db = 3\n", 20.0)]
    [TestCase("[ecg_noise]\nmuscle_snr_db = -3\n", null)]
    public void Worst_OfNoiseThatChanges_IsWhereItIsStrongest(string start, double? at)
    {
        Scenario scenario = Read(start + "[[change]]\nat_s = 20\nkey = \"ecg_noise.muscle_snr_db\"\nstep_to = 0\n[[change]]\nat_s = 40\nkey = \"ecg_noise.muscle_snr_db\"\nstep_to = 6\n");
        EcgNoiseFigures? worst = EcgNoiseFigures.Worst(scenario.Values, 60);
        Assert.That(worst?.AtSeconds, Is.EqualTo(at));
        if (at is not null)
        {
            Assert.That(worst!.All.SnrDb, Is.EqualTo(0).Within(1e-9));
        }
    }

    [Test]
    public void Worst_AfterTheEndOrOfARamp_IsInsideTheScenario()
    {
        Scenario ramp = Read("[[change]]\nat_s = 20\nkey = \"ecg_amplifier.white_noise_uv_rms\"\nramp_to = 300\nover_s = 20\n");
        Assert.That(EcgNoiseFigures.Worst(ramp.Values, 60)!.AtSeconds, Is.EqualTo(40));
        Assert.That(EcgNoiseFigures.Worst(ramp.Values, 15), Is.Null);
    }

    [Test]
    public void At_TheStartOfScenarios_IsWhatStandsThere()
    {
        Assert.That(EcgNoiseFigures.At(Read("").Values, 0), Is.Null);
        EcgNoiseFigures noise = EcgNoiseFigures.At(Read("[ecg_amplifier]\nwhite_noise_uv_rms = 300\nbreathing_baseline_mv = 1\n").Values, 0)!;
        Assert.That(noise.Sources.Select(s => s.Source), Is.EqualTo(new[] { "white_noise", "breathing" }));
        Assert.That(noise.All.RmsUv, Is.EqualTo(1000 * Math.Sqrt(0.59)).Within(1e-9));
        Assert.That(noise.All.BandSnrDb, Is.EqualTo(1.4267 + 10.177).Within(1e-3), "breathing has nothing there");
        Assert.That(noise.Sources[0].BandSnrDb, Is.EqualTo(noise.All.BandSnrDb).Within(1e-9));
        Assert.That(noise.Sources[1].BandSnrDb, Is.Null);
    }

    private static Scenario Read(string text) => ScenarioReader.ReadText("[scenario]\nduration_s = 60\n" + OneMillivolt + text, "a.toml");

    private static AcquisitionRow[] Ratios(string text) => [.. All(text).Where(r => r.Unit == "dB" && r.Channel == ChannelName.Ecg)];

    private static AcquisitionRow[] All(string text)
    {
        Scenario scenario = Read(text);
        using var written = new MemoryStream();
        AcquisitionRows.Write(scenario, scenario.CreateStream().Format, written);
        using var reader = new AcquisitionCsvReader(new MemoryStream(written.ToArray()), "acquisition.csv");
        List<AcquisitionRow> rows = [];
        while (reader.TryRead(out AcquisitionRow row))
        {
            rows.Add(row);
        }

        return [.. rows.Where(r => r.Channel == ChannelName.Ecg)];
    }
}
