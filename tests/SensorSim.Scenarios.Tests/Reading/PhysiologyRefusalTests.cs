// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;

namespace SensorSim.Scenarios.Tests.Reading;

/// <summary>
/// Bodies that nobody has are refused in one sentence each; what the sentence offers must be accepted, and one step beyond it must not.
/// </summary>
[TestFixture]
public sealed class PhysiologyRefusalTests
{
    private const string Still = "respiratory_variability_ms = 0\nslow_variability_ms = 0\n";
    private const string Running = "[movement]\nactivity = \"running\"\n";
    private const string Triple = "[heart]\nrate_bpm = 60\nsdnn_ms = 50\n";
    private const string Block = "[heart]\nrhythm = \"second_degree_block_type_1\"\nrate_bpm = 110\n[block]\n";
    private const string Tube = "[arrival]\nfrom = \"pressure\"\n[artery]\nelastic_modulus_kpa = 20\n";

    // Fridericia 1920: QT = 400 (60/220)^(1/3) = 259.4 ms, nine tenths of 272.7 ms are 245.5 ms; 245.5 / 0.6485 = 378.5 ms; with 400 ms
    // 0.9 RR = 0.4 RR^(1/3) at RR = (0.4/0.9)^1.5 = 0.2963 s, 202.5 bpm.
    [TestCase(
        "[heart]\nrate_bpm = 220\n" + Still,
        "2, column 12: at heart.rate_bpm = 220 a QT of 259 ms (ecg.qtc_ms = 400) is more than nine tenths of the RR interval; ecg.qtc_ms at most 378, or heart.rate_bpm at most 202")]

    // (0.6/0.9)^1.5 = 0.5443 s, 110.2 bpm; at 180 bpm 0.3 / 0.6934 = 432.7 ms.
    [TestCase(
        "[heart]\nrhythm = \"paced\"\n[pacing]\nrate_bpm = 180\n[ecg]\nqtc_ms = 600\n",
        "6, column 10: at pacing.rate_bpm = 180 a QT of 416 ms (ecg.qtc_ms = 600) is more than nine tenths of the RR interval; ecg.qtc_ms at most 432, or pacing.rate_bpm at most 110")]

    // Reached on the way: the place is that of the change.
    [TestCase(
        "[heart]\n" + Still + "[[change]]\nkey = \"heart.rate_bpm\"\nat_s = 20\nstep_to = 220\n",
        "7, column 11: at heart.rate_bpm = 220 a QT of 259 ms (ecg.qtc_ms = 400) is more than nine tenths of the RR interval; ecg.qtc_ms at most 378, or heart.rate_bpm at most 202")]

    // PEP 107 - 0.4 x (65 - 60) - 90 / 2 = 60 ms from R; + 10 ms of transit + 4 x sqrt(4^2 + 2^2) = 87.9 ms. 107 - 7.9 = 99.1 ms.
    [TestCase(
        "[pulse]\narrival_ms = 80\n",
        "2, column 14: pulse.arrival_ms = 80 leaves no transit time after a pre-ejection period of up to 60 ms; at least 88 ms, or ejection.pep_ms at most 99 ms")]

    // Spectral arithmetic at 60 bpm, breathing 15 a minute (spread 0.6), slow band 0.1 Hz: RMSSD² = 4 Σ σ² sin²(πfT), sin² = 0.5 and 0.0963
    // (both with their widths), so at most 2 x 50 sqrt((0.5 + 1.5 x 0.0963) / 2.5) = 50.77 ms.
    [TestCase(
        Triple + "rmssd_ms = 60\nlf_hf = 1.5\n",
        "4, column 12: heart.rmssd_ms = 60 with heart.sdnn_ms = 50 and heart.lf_hf = 1.5 would need negative power below 0.04 Hz; at most 50.7 ms")]

    // All below 0.04 Hz: sin²(π 0.01408) = 0.001955, 2 x 50 x 0.04422 = 4.42 ms.
    [TestCase(
        Triple + "rmssd_ms = 4\nlf_hf = 1.5\n",
        "4, column 12: heart.rmssd_ms = 4 is less than heart.sdnn_ms = 50 gives with all of its power below 0.04 Hz; at least 4.5 ms")]
    [TestCase(
        Triple + "rmssd_ms = 42\nlf_hf = 1.5\n[breathing]\nrate_per_min = 30\n",
        "5, column 9: heart.lf_hf needs breathing inside 0.15 to 0.40 Hz, 9 to 24 a minute, but breathing.rate_per_min = 30; the nearest is 24")]
    [TestCase(
        "[heart]\nsdnn_ms = 50\n",
        "2, column 11: heart.sdnn_ms stands without heart.rmssd_ms and heart.lf_hf; set all three, or the variabilities by themselves")]
    [TestCase(
        Triple + "rmssd_ms = 42\nlf_hf = 1.5\nslow_variability_ms = 20\n",
        "6, column 23: heart.slow_variability_ms and heart.sdnn_ms both set the variability; leave out one of them")]

    // (400 - 240) / 3 = 53.3 ms.
    [TestCase(
        "[heart]\nrate_bpm = 150\nsdnn_ms = 60\nrmssd_ms = 20\nlf_hf = 1.5\n",
        "3, column 11: heart.sdnn_ms = 60 is too much at 150 bpm; at most 53 ms leave every RR above 240 ms")]
    [TestCase(
        "[heart]\nrate_bpm = 150\ndrift_variability_ms = 60\nrespiratory_variability_ms = 5\nslow_variability_ms = 5\n",
        "3, column 24: RR variability of 60 ms in all is too much at 150 bpm; at most 53 ms (root of the sum of squares of all bands) leave every RR above 240 ms")]
    [TestCase(
        Running + "cadence_hz = 0\n",
        "3, column 14: movement.cadence_hz gives a cadence of 0 Hz while walking or running; movement.cadence_hz at least 0.5 Hz")]

    // At 65 bpm 4 steps a beat are 4.33 Hz; 3.5 x 60 / 65 = 3.23.
    [TestCase(
        Running + "cadence_per_beat = 4\n",
        "3, column 20: movement.cadence_per_beat gives a cadence of 4.33 Hz; movement.cadence_per_beat at most 3.23")]
    [TestCase(
        Running + "cadence_hz = 2.5\ncadence_per_beat = 2\n",
        "4, column 20: movement.cadence_per_beat and movement.cadence_hz both set the cadence; leave out one of them")]
    [TestCase(
        Running + "cadence_hz = 1\ncadence_spread_hz = 0.3\n",
        "4, column 21: movement.cadence_spread_hz = 0.3 is too wide for a cadence of 1 Hz; at most a fifth of it, 0.2 Hz")]

    // A quarter of 60000 / 110 = 545 ms.
    [TestCase(
        Block + "pr_increment_ms = 140\n",
        "5, column 19: block.pr_increment_ms = 140 is too much for P waves 545 ms apart; at most a quarter, 136 ms")]
    [TestCase(
        "[heart]\npause_s = 8\npause_every_s = 10\n",
        "2, column 11: heart.pause_s = 8 is more than half of heart.pause_every_s = 10; at most 5 s, or heart.pause_every_s at least 16 s")]

    // Moens and Korteweg with Hughes (1979, from memory): sqrt(20,000 x 0.5 / (1060 x 4) x exp(0.017 x 80)) = 3.031 m/s; 2.5 m take 825 ms.
    [TestCase(
        Tube + "path_m = 2.5\n",
        "5, column 10: pressure and artery give a transit time of 825 ms, outside of 20 to 400 ms; artery.path_m at most 1.21 m")]
    [TestCase(
        "[oxygen]\nsaturation_percent = 70\ntable = \"0.4:100, 1.0:85\"\n",
        "2, column 22: oxygen.saturation_percent = 70 lies outside of the calibration table; 85 to 100 %, or oxygen.law = \"extinction\"")]
    [TestCase(
        "[heart]\nrhythm = \"scripted\"\n",
        "2, column 10: heart.rhythm = \"scripted\" needs beats; set heart.beats or heart.beats_file")]
    [TestCase(
        "[heart]\nbeats = \"normal 800\"\n",
        "2, column 9: heart.beats is used by heart.rhythm = \"scripted\" only; set that rhythm, or leave out heart.beats")]
    public void ReadText_Impossible_IsRefusedWithThisSentence(string text, string expected) =>
        Assert.That(Mistaken.Line(text), Is.EqualTo("a.toml, line " + expected));

    // The limits of the sentences above, and the next value beyond them.
    [TestCase("[heart]\nrate_bpm = 220\n" + Still + "[ecg]\nqtc_ms = ", "378", "379")]
    [TestCase("[heart]\n" + Still + "rate_bpm = ", "202", "203")]
    [TestCase("[heart]\nrhythm = \"paced\"\n[pacing]\nrate_bpm = 180\n[ecg]\nqtc_ms = ", "432", "433")]
    [TestCase("[heart]\nrhythm = \"paced\"\n[ecg]\nqtc_ms = 600\n[pacing]\nrate_bpm = ", "110", "111")]
    [TestCase("[pulse]\narrival_ms = ", "88", "87")]
    [TestCase("[pulse]\narrival_ms = 80\n[ejection]\npep_ms = ", "99", "100")]
    [TestCase(Triple + "lf_hf = 1.5\nrmssd_ms = ", "50.7", "50.8")]
    [TestCase(Triple + "lf_hf = 1.5\nrmssd_ms = ", "4.5", "4.4")]
    [TestCase(Triple + "rmssd_ms = 42\nlf_hf = 1.5\n[breathing]\nrate_per_min = ", "24", "25")]
    [TestCase(Triple + "rmssd_ms = 42\nlf_hf = 1.5\n[[change]]\nat_s = 9\nkey = \"breathing.rate_per_min\"\nstep_to = ", "24", "25")]
    [TestCase("[arrival]\nfrom = \"knob\"\n[pulse]\narrival_ms = 115\narrival_spread_ms = ", "7", "20")]
    [TestCase("[pulse]\narrival_ms = 100\narrival_spread_ms = 20\n[arrival]\nfrom = ", "\"pressure\"", "\"knob\"")]
    [TestCase("[heart]\nrate_bpm = 150\nrmssd_ms = 20\nlf_hf = 1.5\nsdnn_ms = ", "53", "54")]
    [TestCase(Running + "cadence_hz = ", "0.5", "0.49")]
    [TestCase(Running + "cadence_per_beat = ", "3.23", "3.24")]
    [TestCase(Running + "cadence_hz = 1\ncadence_spread_hz = ", "0.2", "0.21")]
    [TestCase(Block + "pr_increment_ms = ", "136", "137")]
    [TestCase("[heart]\npause_every_s = 10\npause_s = ", "5", "5.1")]
    [TestCase("[heart]\npause_s = 8\npause_every_s = ", "16", "15.9")]
    [TestCase(Tube + "path_m = ", "1.21", "1.22")]
    public void ReadText_LimitThatASentenceNames_IsTheLastThatIsAccepted(string text, string accepted, string refused)
    {
        Assert.That(() => ScenarioReader.ReadText($"{text}{accepted}\n", "a.toml"), Throws.Nothing);
        Assert.That(() => ScenarioReader.ReadText($"{text}{refused}\n", "a.toml"), Throws.TypeOf<ScenarioException>());
    }

    [Test]
    public void ReadFile_BeatsTwice_AreRefused()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("refusals-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "beats.csv"), "rr_ms\n800\n");
            string path = Path.Combine(folder.FullName, "a.toml");
            File.WriteAllText(path, "[heart]\nrhythm = \"scripted\"\nbeats = \"normal 800\"\nbeats_file = \"beats.csv\"\n");

            Assert.That(
                () => ScenarioReader.ReadFile(path),
                Throws.TypeOf<ScenarioException>().With.Message.EqualTo(
                    $"{path}, line 4, column 14: heart.beats_file and heart.beats both give the beats; leave out one of them"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
