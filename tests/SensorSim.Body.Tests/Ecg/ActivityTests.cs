// SPDX-License-Identifier: MIT
using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>Waves of fibrillation and flutter: level, frequency, smoothness, and that what is drawn is what the R peak is solved on.</summary>
public sealed class ActivityTests
{
    private const ulong Seed = 61;
    private const double RateHz = 250;

    private static KeyValues Values(string rhythm) => new KeyValues().Set(HeartKeys.Rhythm, rhythm);

    private static KeyValues Changing() => new KeyValues().SetChanges(
        HeartKeys.Rhythm,
        [
            (3, "atrial_fibrillation"), (8, "atrial_flutter"), (13, "sinus"), (14, "ventricular_fibrillation"), (19.123, "atrial_fibrillation"),
            (19.5, "sinus"), (21.4, "atrial_flutter"), (21.7, "atrial_fibrillation"),
        ]);

    [Test]
    public void OtherRhythms_HaveNoWaves()
    {
        KeyValues values = new KeyValues().SetChanges(HeartKeys.Rhythm, [(5, "paced"), (9, "third_degree_block"), (12, "asystole")]);
        Assert.That(new EcgActivity(values, Seed).Waves.Length, Is.Zero);
    }

    // Dominant frequency: the highest line of the mean spectrum over 16 s pieces. f-waves 4 to 9 Hz (Alcaraz et al. 2008 measured 6.51 ± 0.80 Hz
    // the same way); ventricular fibrillation 3 to 9 Hz (from memory).
    [TestCase("atrial_fibrillation", 6.5, 4, 9)]
    [TestCase("atrial_fibrillation", 4, 3.2, 4.8)]
    [TestCase("atrial_fibrillation", 9, 8.2, 9.8)]
    [TestCase("ventricular_fibrillation", 5, 3, 9)]
    [TestCase("ventricular_fibrillation", 4, 3, 5.2)]
    [TestCase("ventricular_fibrillation", 9, 5.5, 12.5)]
    public void Fibrillation_DominantFrequency_LiesInItsBand(string rhythm, double hz, double fromHz, double toHz)
    {
        KeyValues values = Values(rhythm);
        _ = rhythm == "atrial_fibrillation" ? values.Set(AtrialKeys.FibrillationHz, hz) : values.Set(VentricularFibrillationKeys.WaveHz, hz);
        foreach (ulong seed in new ulong[] { 1, 2, 3, 4, 5 })
        {
            double[] power = Spectrum(new EcgActivity(values, seed));
            double dominant = Array.IndexOf(power, power.Max()) / 16.0;
            Assert.That(dominant, Is.InRange(fromHz, toHz));

            // And the rest of the power is there too: 99 % within three widths and the window's own.
            double reach = rhythm == "atrial_fibrillation" ? 2.2 : 1 + (3 * 0.16 * hz);
            double near = power.Where((_, k) => Math.Abs((k / 16.0) - hz) < reach).Sum();
            Assert.That(near / power.Sum(), Is.GreaterThan(0.99));
        }
    }

    [TestCase("atrial_fibrillation", 0.1)]
    [TestCase("ventricular_fibrillation", 0.8)]
    public void Fibrillation_Level_IsThatOfASineOfTheKnobsHeight(string rhythm, double peakToPeakMv)
    {
        // Power of a sine of height h: h²/8. Eight lines some tenths of a Hz apart: over 2000 s the cross terms average out to about 1 %.
        KeyValues values = Values(rhythm).Set(VentricularFibrillationKeys.DecaySeconds, 3600);
        double sum = 0;
        var activity = new EcgActivity(values, Seed);
        for (int i = 0; i < 100_000; i++)
        {
            double t = i * 0.02;
            double v = Value(activity, t);

            // Undo the decay.
            v *= rhythm == "ventricular_fibrillation" ? Math.Exp(t / 3600) : 1;
            sum += v * v;
        }

        Assert.That(Math.Sqrt(8 * sum / 100_000), Is.EqualTo(peakToPeakMv).Within(0.02 * peakToPeakMv));
    }

    [Test]
    public void AtrialFibrillation_Height_WaxesAndWanes()
    {
        // A band has an envelope: peak to peak per half second changes by more than a factor of two within a minute.
        var activity = new EcgActivity(Values("atrial_fibrillation"), Seed);
        double[] heights = [.. Enumerable.Range(0, 120).Select(w =>
        {
            double[] v = [.. Enumerable.Range(0, 100).Select(i => Value(activity, (0.5 * w) + (i * 0.005)))];
            return v.Max() - v.Min();
        })];
        Assert.That(heights.Max() / heights.Min(), Is.GreaterThan(2));
    }

    [TestCase(250)]
    [TestCase(300)]
    [TestCase(350)]
    public void Flutter_Sawtooth_HasItsRateHeightAndSteepSide(double perMin)
    {
        var activity = new EcgActivity(Values("atrial_flutter").Set(AtrialKeys.FlutterRatePerMin, perMin).Set(AtrialKeys.FlutterMv, 0.2), Seed);
        double[] v = [.. Enumerable.Range(0, 60_000).Select(i => Value(activity, 100 + (i * 1e-3)))];
        Assert.That(v.Max() - v.Min(), Is.EqualTo(0.2).Within(0.002));
        double rises = v.Zip(v.Skip(1)).Count(p => p.First < 0 && p.Second >= 0);
        Assert.That(rises, Is.EqualTo(perMin).Within(0.02 * perMin));
        double rising = v.Zip(v.Skip(1)).Count(p => p.Second > p.First) / (double)v.Length;
        Assert.That(rising, Is.LessThan(0.4), "falls slowly, rises fast");
    }

    [Test]
    public void SecondsOfFlutterWave_EveryWave_IsAWholePhaseOnARisingZero()
    {
        var atrial = new AtrialActivity(Values("atrial_flutter"), Seed);
        double before = double.NegativeInfinity;
        for (long n = -40; n < 20_000; n += 7)
        {
            double t = atrial.SecondsOfFlutterWave(n);
            Assert.That(atrial.FlutterPhase.Turns(t), Is.EqualTo((double)n).Within(1e-8));
            Assert.That(t, Is.GreaterThan(before));
            before = t;
            double value = 0;
            double slope = 0;
            double ignored = 0;
            atrial.Flutter!.Accumulate(t, ref value, ref slope, ref ignored);
            Assert.That(value, Is.Zero.Within(1e-7));
            Assert.That(slope, Is.Positive);
        }
    }

    [Test]
    public void VentricularFibrillation_AfterItsOnset_DecaysWithItsTimeConstant()
    {
        KeyValues values = new KeyValues().Set(VentricularFibrillationKeys.DecaySeconds, 20)
            .SetChanges(HeartKeys.Rhythm, [(100, "ventricular_fibrillation")]);
        var activity = new EcgActivity(values, Seed);
        double Rms(double from) => Math.Sqrt(Enumerable.Range(0, 4000).Average(i => Math.Pow(Value(activity, from + (i * 0.005)), 2)));
        double Expected(double from) => Math.Sqrt(Enumerable.Range(0, 4000).Average(i => Math.Exp(-2 * (from - 100 + (i * 0.005)) / 20)));
        Assert.That(Value(activity, 99.9), Is.Zero);

        // Two stretches of 20 s; the band's own waxing and waning leaves some percent.
        Assert.That(Rms(140) / Rms(101), Is.EqualTo(Expected(140) / Expected(101)).Within(0.25 * Expected(140) / Expected(101)));
        Assert.That(Expected(140) / Expected(101), Is.EqualTo(Math.Exp(-39 / 20.0)).Within(1e-6));
    }

    [Test]
    public void Derivatives_EverywhereAndAtEdges_AreThoseOfTheValue()
    {
        // Central differences with h = 0.1 ms: error h²/6 of the next derivative but one, relative (2π·25 Hz·h)²/6 = 4e-5.
        var activity = new EcgActivity(Changing(), Seed);
        const double H = 1e-4;
        for (double t = 2.95; t < 20; t += 0.0137)
        {
            double value = 0;
            double slope = 0;
            double curvature = 0;
            activity.Accumulate(t, ref value, ref slope, ref curvature);
            double before = Value(activity, t - H);
            double after = Value(activity, t + H);
            Assert.That(slope, Is.EqualTo((after - before) / (2 * H)).Within(2e-3), $"{t}");
            Assert.That(curvature, Is.EqualTo((after - (2 * value) + before) / (H * H)).Within(2), $"{t}");
        }
    }

    [Test]
    public void Edges_OfAStretch_AreInsideItAndSmooth()
    {
        var envelope = new ActivityEnvelope(Changing().Course(HeartKeys.Rhythm), "atrial_fibrillation");
        Assert.That(envelope.Count, Is.EqualTo(3));
        Assert.That(envelope.Value(3, out _, out _), Is.Zero);
        Assert.That(envelope.Value(3.15, out _, out _), Is.EqualTo(0.5).Within(1e-9));
        Assert.That(envelope.Value(3.3, out _, out _), Is.EqualTo(1));
        Assert.That(envelope.Value(7.85, out _, out _), Is.EqualTo(0.5).Within(1e-9));
        Assert.That(envelope.Value(8, out _, out _), Is.Zero);
        double last = 0;
        double lastCurvature = 0;
        for (double t = 2.9; t < 8.2; t += 1e-4)
        {
            double value = envelope.Value(t, out _, out double curvature);
            Assert.That(Math.Abs(value - last), Is.LessThan(1e-3));

            // The third derivative of 10u³ − 15u⁴ + 6u⁵ is at most 60 over the cube of the edge: 0.222 per step of 0.1 ms.
            Assert.That(Math.Abs(curvature - lastCurvature), Is.LessThan(0.23), "the second derivative has no step");
            last = value;
            lastCurvature = curvature;
        }
    }

    [TestCase(50)]
    [TestCase(250)]
    [TestCase(2000)]
    public void Drawn_AnyRate_IsTheClosedForm(double rateHz)
    {
        var activity = new EcgActivity(Changing(), Seed);
        var grid = new SampleGrid(0.0017, 1 / rateHz);
        double[] drawn = Draw(activity, grid, (int)(22 * rateHz), 97);
        double flutter = 0;
        double others = 0;
        for (int i = 0; i < drawn.Length; i++)
        {
            double t = grid.Seconds(i);
            double difference = Math.Abs(drawn[i] - Value(activity, t));
            bool isFlutter = t is (>= 8 and < 13) or (>= 21.4 and < 21.7);
            (flutter, others) = (Math.Max(flutter, isFlutter ? difference : 0), Math.Max(others, isFlutter ? 0 : difference));
        }

        // Lines of fixed frequency are exact but for rounding; flutter wanders between anchors.
        TestContext.Out.WriteLine($"{rateHz} Hz: largest difference {flutter:E1} mV in flutter, {others:E1} mV else");
        Assert.That(others, Is.LessThan(1e-10));
        Assert.That(flutter, Is.LessThan(5e-5));
    }

    [TestCase(1)]
    [TestCase(7)]
    [TestCase(64)]
    [TestCase(1000)]
    public void Drawn_AnyCut_GivesTheSameBits(int cut)
    {
        var activity = new EcgActivity(Changing(), Seed);
        var grid = new SampleGrid(0.0017, 1 / RateHz);
        Assert.That(Draw(activity, grid, 5500, cut), Is.EqualTo(Draw(activity, grid, 5500, 250)));
    }

    [Test]
    public void Drawn_FromTheMiddleOrByACopy_GoesOnWithTheSameBits()
    {
        var activity = new EcgActivity(Changing(), Seed);
        var grid = new SampleGrid(0, 1 / RateHz);
        double[] all = Draw(activity, grid, 5500, 250);
        foreach (ActivityWave wave in activity.Waves)
        {
            double[] own = new double[5500];
            var drawer = new ActivityGrid(wave);
            drawer.Add(own, grid, 0);
            double[] middle = new double[4500];
            new ActivityGrid(wave).Add(middle, grid, 1000);
            Assert.That(middle, Is.EqualTo(own[1000..]));

            // Back inside the same anchor, too.
            double[] again = new double[100];
            drawer.Add(again, grid, 5380);
            Assert.That(again, Is.EqualTo(own[5380..5480]));
            var first = new ActivityGrid(wave);
            first.Add(new double[777], grid, 0);
            ActivityGrid copy = first.Copy();
            first.Add(new double[300], grid, 777);
            double[] rest = new double[5500 - 777];
            copy.Add(rest, grid, 777);
            Assert.That(rest, Is.EqualTo(own[777..]));
        }

        Assert.That(all.Any(v => v != 0));
    }

    // The whole of it: what is drawn at a million samples a second has its peak where truth says.
    [TestCase("atrial_fibrillation")]
    [TestCase("atrial_flutter")]
    public void RPeak_OfTheDrawnEcg_LiesWhereTruthSays(string rhythm)
    {
        KeyValues values = Values(rhythm).Set(EcgKeys.RMv, 0.5).Set(AtrialKeys.FibrillationMv, 0.3).Set(AtrialKeys.FlutterMv, 0.3);
        var body = new BodyModel(values, Seed);
        int checkedBeats = 0;
        for (long id = 20; id < 32; id++)
        {
            Assert.That(body.TryBeat(id, 1e3, out BeatView beat), Is.True);
            double[] buffer = new double[12_000];
            new EcgGrid(body.Copy(), new SampleGrid(beat.R.Seconds - 0.006, 1e-6)).Add(buffer, 0);

            // Where a fibrillation wave lifts the level, the largest deviation may be S.
            bool isUp = buffer[6000] > 0.5 * (buffer[3000] + buffer[9000]);
            int peak = Array.IndexOf(buffer, isUp ? buffer[3000..9000].Max() : buffer[3000..9000].Min());
            Assert.That(peak, Is.EqualTo(6000).Within(10), $"beat {id}");
            Assert.That(buffer[peak], Is.EqualTo(beat.R.Millivolts).Within(5e-5));
            checkedBeats++;
        }

        Assert.That(checkedBeats, Is.EqualTo(12));
    }

    [Test]
    public void Polarity_Swapped_TurnsTheWavesUpsideDown()
    {
        var up = new EcgActivity(Changing(), Seed);
        var down = new EcgActivity(Changing().Set(EcgKeys.Polarity, "swapped"), Seed);
        foreach (double t in new[] { 4.0, 9.5, 15.1 })
        {
            Assert.That(Value(up, t), Is.Not.Zero);
            Assert.That(Value(down, t), Is.EqualTo(-Value(up, t)));
        }
    }

    private static double Value(EcgActivity activity, double t)
    {
        double value = 0;
        double ignored = 0;
        activity.Accumulate(t, ref value, ref ignored, ref ignored);
        return value;
    }

    private static double[] Draw(EcgActivity activity, SampleGrid grid, int count, int cut)
    {
        double[] all = new double[count];
        foreach (ActivityWave wave in activity.Waves)
        {
            var drawer = new ActivityGrid(wave);
            for (int done = 0; done < count; done += cut)
            {
                drawer.Add(all.AsSpan(done, Math.Min(cut, count - done)), grid, done);
            }
        }

        return all;
    }

    // Mean power over pieces of 16 s, Hann window; bin k lies at k/16 Hz.
    private static double[] Spectrum(EcgActivity activity)
    {
        const int Size = 16 * 64;
        double[] window = Window.HannPeriodic(Size);
        double[] power = new double[Size / 2];
        for (int piece = 0; piece < 12; piece++)
        {
            Complex[] x = [.. Enumerable.Range(0, Size).Select(i => new Complex(window[i] * Value(activity, (piece * 16) + (i / 64.0)), 0))];
            Fourier.Forward(x, FourierOptions.NoScaling);
            for (int k = 0; k < power.Length; k++)
            {
                power[k] += x[k].MagnitudeSquared();
            }
        }

        return power;
    }
}
