// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scoring;
using SensorSim.Scoring.Report;
using SensorSim.Sensing;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Cli.Tests;

/// <summary>The library on streams of the generator that once broke it.</summary>
[TestFixture]
public sealed class FastRhythmTests
{
    // Short intervals with T waves as large as half the R wave leave little between beats to learn levels from.
    [TestCase("[heart]\nrate_bpm = 220\nrespiratory_variability_ms = 5\nslow_variability_ms = 5\n[ecg]\nqtc_ms = 370\n")]
    [TestCase("[heart]\nrate_bpm = 150\n[ecg]\nr_mv = 0.4\n")]
    [TestCase("[heart]\nrate_bpm = 170\n[ecg]\nr_mv = 0.5\n")]
    [TestCase("[heart]\nrate_bpm = 180\nrespiratory_variability_ms = 5\nslow_variability_ms = 5\n[ecg]\nr_mv = 0.6\n")]
    [TestCase("[heart]\nrate_bpm = 40\n[ecg]\nr_mv = -0.8\n")]
    public void Beats_CleanEcgOfTheGenerator_AreAllFound(string scenario)
    {
        EventScore r = Run($"[scenario]\nduration_s = 60\n{scenario}", new Latest()).Find(ChannelName.Ecg, MarkKind.RPeak)!;

        Assert.That(r.ReferenceCount, Is.GreaterThan(30));
        Assert.That((r.Missed, r.Extra), Is.EqualTo((0L, 0L)));
    }

    // A sixteenth of a sample at 250 Hz is 0.25 ms: the parabola must do better on a clean ECG, or it points beside the peak.
    [Test]
    public void Beats_CleanEcgAtRest_AreTimedToATenthOfAMillisecond()
    {
        EventScore r = Run("[scenario]\nduration_s = 120\n", new Latest()).Find(ChannelName.Ecg, MarkKind.RPeak)!;

        Assert.That(r.TimingBiasMs, Is.EqualTo(0).Within(0.1));
        Assert.That(r.TimingSdMs, Is.LessThan(0.1));
    }

    // A tangent that is almost level meets the minimum's level anywhere: such feet once lay minutes in the past.
    // Where the noise has three times the size of the pulse no level is learned from it, and no foot is told.
    [TestCase(-10, 0, 0)]
    [TestCase(5, 100, 1000)]
    public void Feet_InHeavyNoise_AreNeverOlderThanAnUpstrokeReachesBack(int snrDb, int least, int most)
    {
        var latest = new Latest();
        ScoreReport report = Run(
            FormattableString.Invariant($"[scenario]\nduration_s = 300\nseed = 2\n[optics]\nwhite_noise_snr_db = {snrDb}\n"), latest);

        Assert.That(latest.Feet, Is.InRange(least, most));
        Assert.That(latest.OldestFootSeconds, Is.LessThan(1.2));
        Assert.That(report.IsExact);
    }

    private static ScoreReport Run(string text, Latest latest)
    {
        Scenario scenario = ScenarioReader.ReadText(text, "test.toml");
        SensorStream stream = scenario.CreateStream();
        var scorer = new Scorer(stream.Format, stream.Format.Clock.Nanoseconds(stream.EndTick));
        latest.Format = stream.Format;
        using var detector = new LibraryDetector();
        return new Runner(stream, stream.Truth, detector, scorer, latest).Run().Report!;
    }

    private sealed class Latest : IRunSink
    {
        public StreamFormat? Format { get; set; }

        public int Feet { get; private set; }

        public double OldestFootSeconds { get; private set; }

        public void OnBlock(SampleBlock block)
        {
        }

        public void OnTruth(in TruthEvent truth)
        {
        }

        public void OnMark(in Mark mark)
        {
            if (mark.Kind == MarkKind.PulseFootTangent)
            {
                Feet++;
                long ageNs = Format!.Clock.Nanoseconds(mark.EmittedTick) - Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256);
                OldestFootSeconds = Math.Max(OldestFootSeconds, ageNs * 1e-9);
            }
        }
    }
}
