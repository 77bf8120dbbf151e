// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests;

/// <summary>An ectopic beat has a weak pulse or none: what the light alone would say of the heart is then another number.</summary>
[TestFixture]
public sealed class EctopicBeatTests
{
    // What heart-rate meters may be off by: 5 bpm or a tenth, whichever is more (standards of such meters, from memory).
    private const double LargestErrorBpm = 5;
    private const double LargestErrorShare = 0.1;
    private const double SecondsPerMinute = 60;

    // At these seeds R peaks lack hardly a beat, so the ECG has what the light lacks.
    [Test]
    public void Process_InterpolatedBeatsWithoutAPulse_LightGivesTheRateOfTheHeartOrNone([Values(5000, 5001, 5002)] int seed)
    {
        Record record = Run("ventricular_percent = 5\nventricular_pattern = \"random\"\nventricular_pause = \"interpolated\"", seed);
        double[] beats = [.. record.Beats];
        double[] feet = [.. record.Feet];
        int without = beats.Count(b => !feet.Any(f => f > b && f < b + 0.4));
        List<Mark> rates = record.Of(MarkKind.HeartRateBpm, ChannelName.Infrared);

        Assert.That(without, Is.GreaterThan(5), "beats without a pulse");
        Assert.That(record.Of(MarkKind.RPeak, ChannelName.Ecg), Has.Count.GreaterThan(0.96 * beats.Length), "R peaks");
        Assert.That(rates, Has.Count.GreaterThan(100));
        foreach (Mark rate in rates)
        {
            double end = record.Seconds(rate);
            double begin = end - ((double)rate.WindowSamples / record.Format.Channels[rate.Channel].RateHz);
            double truth = record.RateOfBeats(begin, end);
            Assert.That(rate.Value, Is.EqualTo(truth).Within(Math.Max(LargestErrorBpm, LargestErrorShare * truth)), $"{begin:0.0} to {end:0.0} s");
        }
    }

    // A usual beat of every two has a pulse: light gives what holds for each pulse, not what holds for the mean of all beats.
    [Test]
    public void Process_Bigeminy_LightGivesSaturationButNoPerfusion()
    {
        Record record = Run("ventricular_pattern = \"bigeminy\"\nventricular_coupling_percent = 55", 5001);

        Assert.That(record.Of(MarkKind.PulseFootTangent, ChannelName.Infrared), Has.Count.LessThan(0.6 * record.Beats.Count), "pulses");
        Assert.That(record.Of(MarkKind.Spo2Percent, ChannelName.Infrared), Has.Count.GreaterThan(50));
        Assert.That(record.Of(MarkKind.PerfusionIndexPercent, ChannelName.Infrared), Is.Empty);
    }

    // Every fourth beat lies on the T wave before (coupling 38 %), in muscle noise of 6 dB: some are missed, and each that is takes an eighth off a count of eight.
    [Test]
    public void Process_EarlyOnTheTWaveInNoise_EcgGivesTheRateOfTheHeartOrNone([Values(5000, 5001, 5002)] int seed)
    {
        Record record = Run("ventricular_pattern = \"quadrigeminy\"\nventricular_coupling_percent = 38", seed, "[ecg_noise]\nmuscle_snr_db = 6");
        double[] beats = [.. record.Beats];
        double[] found = [.. record.Of(MarkKind.RPeak, ChannelName.Ecg).Select(record.Seconds)];
        List<Mark> rates = record.Of(MarkKind.HeartRateBpm, ChannelName.Ecg);

        Assert.That(beats.Count(b => b > 10 && !found.Any(f => Math.Abs(f - b) < 0.15)), Is.GreaterThan(1), "missed beats");
        Assert.That(rates, Has.Count.GreaterThan(beats.Length / 3));
        foreach (Mark rate in rates)
        {
            double end = record.Seconds(rate);
            double begin = end - ((double)rate.WindowSamples / record.Format.Channels[rate.Channel].RateHz);
            double[] within = [.. beats.Where(b => b > begin - 0.1 && b < end + 0.1)];
            double truth = SecondsPerMinute * (within.Length - 1) / (within[^1] - within[0]);
            Assert.That(rate.Value, Is.EqualTo(truth).Within(Math.Max(LargestErrorBpm, LargestErrorShare * truth)), $"{begin:0.0} to {end:0.0} s");
        }
    }

    [Test]
    public void Process_NoEctopicBeats_LightGivesEveryReading()
    {
        Record record = Run("ventricular_pattern = \"none\"", 5000);
        int most = record.Beats.Count;

        foreach (MarkKind kind in new[] { MarkKind.HeartRateBpm, MarkKind.Spo2Percent, MarkKind.PerfusionIndexPercent })
        {
            Assert.That(record.Of(kind, ChannelName.Infrared), Has.Count.GreaterThan(most - 20), kind.ToString());
        }
    }

    // Noise that is taken for beats, now and then for a wide one, comes far faster than pulses: more than the wide ones explain.
    [Test]
    public void Process_MuscleNoiseInPlaceOfBeats_LightGivesNearlyEveryRate([Values(5000, 5001, 5002)] int seed)
    {
        string noise = string.Concat(Enumerable.Range(1, 5).Select(i => $"""

            [[change]]
            at_s = {i * 30}
            key = "ecg_noise.muscle_uv_rms"
            step_to = {(i % 2 == 1 ? 1500 : 0)}
            """));
        Record record = Run("ventricular_pattern = \"none\"", seed, "[ecg_noise]\nmuscle_uv_rms = 0\n" + noise);

        Assert.That(record.Of(MarkKind.RPeak, ChannelName.Ecg), Has.Count.GreaterThan(1.15 * record.Beats.Count), "R peaks and noise");
        Assert.That(record.Of(MarkKind.HeartRateBpm, ChannelName.Infrared), Has.Count.GreaterThan(0.83 * record.Beats.Count));
    }

    private static Record Run(string ectopy, int seed, string more = "")
    {
        string toml = $"""
            [scenario]
            duration_s = 180
            seed = {seed}
            [heart]
            rate_bpm = 75
            [ectopy]
            {ectopy}
            [ecg_amplifier]
            white_noise_uv_rms = 5
            [optics]
            white_noise_snr_db = 40
            {more}
            """;
        SensorStream stream = ScenarioReader.ReadText(toml, "ectopic.toml").CreateStream();
        var record = new Record(stream.Format);
        using var detector = new LibraryDetector();
        var block = new SampleBlock(stream.Format, stream.Format.Clock.TicksPerSecond);
        var output = new DetectorOutput();
        detector.Start(stream.Format);
        while (stream.PositionTick < stream.EndTick)
        {
            stream.Read(block, stream.PositionTick + stream.Format.Clock.TicksPerSecond);
            while (stream.Truth.TryTake(out TruthEvent truth))
            {
                record.Take(truth);
            }

            stream.Acquisition.Clear();
            detector.Process(block, output);
            while (output.Marks.TryTake(out Mark mark))
            {
                record.Marks.Add(mark);
            }
        }

        return record;
    }

    private sealed class Record(StreamFormat format)
    {
        private readonly List<(double At, long Beat)> _peaks = [];
        private readonly List<(double At, long Beat)> _truePulses = [];

        public StreamFormat Format { get; } = format;

        public List<Mark> Marks { get; } = [];

        /// <summary>True R peaks [s].</summary>
        public IReadOnlyCollection<double> Beats => [.. _peaks.Select(p => p.At)];

        /// <summary>Feet that were found [s].</summary>
        public IEnumerable<double> Feet => Of(MarkKind.PulseFootTangent, ChannelName.Infrared).Select(Seconds);

        public void Take(TruthEvent truth)
        {
            if (truth.Kind == MarkKind.RPeak)
            {
                _peaks.Add((truth.TimeNs * 1e-9, truth.BeatId));
            }
            else if (truth.Kind == MarkKind.PulseFootTangent && truth.Channel == ChannelName.Infrared)
            {
                _truePulses.Add((truth.TimeNs * 1e-9, truth.BeatId));
            }
        }

        public List<Mark> Of(MarkKind kind, ChannelName channel) => [.. Marks.Where(m => m.Kind == kind && Format.Channels[m.Channel].Name == channel)];

        public double Seconds(Mark mark) => Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256) * 1e-9;

        /// <summary>The heart's rate from the beat of one pulse to the beat of another, counting those without a pulse.</summary>
        public double RateOfBeats(double fromFoot, double toFoot)
        {
            long from = _truePulses.MinBy(p => Math.Abs(p.At - fromFoot)).Beat;
            long to = _truePulses.MinBy(p => Math.Abs(p.At - toFoot)).Beat;
            double[] between = [.. _peaks.Where(p => p.Beat >= from && p.Beat <= to).Select(p => p.At)];
            return SecondsPerMinute * (between.Length - 1) / (between[^1] - between[0]);
        }
    }
}
