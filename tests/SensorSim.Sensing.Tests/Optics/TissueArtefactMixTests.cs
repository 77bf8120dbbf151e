// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Optics;

/// <summary>
/// How much of the artefact the acceleration explains: magnitude-squared coherence |Sxy|²/(Sxx Syy), estimated by Welch's method from K
/// independent segments under a Hann window. Its standard error is √2 γ (1 − γ²)/√K, its bias (1 − γ²)²/K (Bendat and Piersol, Random
/// Data, chapter 9; from memory).
/// </summary>
public sealed class TissueArtefactMixTests
{
    private const double Rate = 100;
    private static readonly SampleGrid s_grid = new(0, 1 / Rate);

    // Vibration of a vehicle is Gaussian and broad: 1500 segments of 2 s, bins 2 Hz apart, which a Hann window of 2 s keeps apart.
    [TestCase(0)]
    [TestCase(30)]
    [TestCase(60)]
    [TestCase(90)]
    public void Coherence_OfBroadMovement_IsTheKnob(double percent)
    {
        const int Segments = 1500;
        KeyValues values = new KeyValues().Set(HandMovementKeys.VehicleGRms, 0.1).Set(TissueArtefactKeys.CoherencePercent, percent);
        (double[] drive, double[] artefact) = Record(values, 7, 2 * Segments);
        double[] hertz = [2, 4, 6, 8, 10, 12];
        double mean = hertz.Average(f => Coherence(Cut(drive, 200), Cut(artefact, 200), f));
        double c = percent / 100;
        double bias = (1 - c) * (1 - c) / Segments;
        double error = Math.Max(Math.Sqrt(2 * c) * (1 - c) / Math.Sqrt(Segments), 1.0 / Segments) / Math.Sqrt(hertz.Length);
        Assert.That(mean, Is.EqualTo(c + bias).Within(4 * error));
    }

    // 100 Hz are enough, by a clock that is a little slow as well: else it would be drawn twice as often.
    [TestCase(100, 0, 1)]
    [TestCase(100, -20, 1)]
    [TestCase(100, -1000, 1)]
    [TestCase(100, 1000, 1)]
    [TestCase(50, -1000, 2)]
    [TestCase(99, 1000, 2)]
    public void Movement_OfAClockThatIsOff_IsDrawnAsOftenAsOfAGoodOne(double rateHz, double ppm, int perSample)
    {
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, "walking");
        var slot = new SampleGrid(0, 1 / rateHz / (1 + (ppm * 1e-6)));
        var mix = new TissueArtefactMix(values, 7, new MovementModel(values, 7), slot);
        Assert.That(mix.Movement.Grid.StepSeconds, Is.EqualTo(slot.StepSeconds / perSample));
    }

    // All of it: the acceleration explains everything, but for what leaks between the bins.
    [Test]
    public void Coherence_Of100Percent_IsComplete()
    {
        KeyValues values = new KeyValues().Set(HandMovementKeys.VehicleGRms, 0.1);
        (double[] drive, double[] artefact) = Record(values, 7, 600);
        Assert.That(Coherence(Cut(drive, 400), Cut(artefact, 400), 4), Is.GreaterThan(0.99));
    }

    // Gait has lines: one segment of 8 s from each of many walks, whose phases are independent.
    [TestCase("walking", 1.9)]
    [TestCase("running", 2.7)]
    public void Coherence_OfGait_IsTheKnobAtTheCadence(string activity, double cadence)
    {
        const int Walks = 1200;
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, activity).Set(TissueArtefactKeys.CoherencePercent, 50);
        var drives = new List<double[]>();
        var artefacts = new List<double[]>();
        for (int i = 0; i < Walks; i++)
        {
            (double[] drive, double[] artefact) = Record(values, (ulong)i, 8);
            drives.Add(drive);
            artefacts.Add(artefact);
        }

        double error = Math.Sqrt(2 * 0.5) * 0.5 / Math.Sqrt(Walks);
        Assert.That(Coherence(drives, artefacts, cadence), Is.EqualTo(0.5).Within(4 * error));
        Assert.That(Coherence(drives, artefacts, cadence / 2), Is.EqualTo(0.5).Within(4 * error));

        // Power does not depend on the coherence: of both parts alike, and of their product, whose mean is 0 and whose spread in one walk
        // is at most that of a sine's phase, √½ of the power.
        double power = artefacts.Average(a => a.Average(v => v * v));
        Assert.That(power, Is.EqualTo(1).Within(4 * Math.Sqrt(0.5) / Math.Sqrt(Walks)));
    }

    // A gait as steady as a clock still explains nothing of a movement that is not its own.
    [Test]
    public void Coherence_OfAPerfectlySteadyGait_IsTheKnobToo()
    {
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, "walking").Set(MovementKeys.CadenceSpreadHz, 0)
            .Set(MovementKeys.StepVariationPercent, 0).Set(TissueArtefactKeys.CoherencePercent, 0);
        (double[] drive, double[] artefact) = Record(values, 3, 3200);

        // 400 segments; their phases drift apart by 2π × 0.05 Hz × 8 s, more than a radian: at the very least 100 are independent.
        Assert.That(Coherence(Cut(drive, 800), Cut(artefact, 800), 1.9), Is.LessThan(4.0 / 100));
    }

    // One knob, one change: the measured part shrinks by the root, what comes on top is the same whatever the ratio.
    [Test]
    public void CoherencePercent_AtTwoValues_AddsTheSameParts()
    {
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, "walking");
        double[] all = Record(values.Copy().Set(TissueArtefactKeys.CoherencePercent, 100), 7, 20).Artefact;
        double[] none = Record(values.Copy().Set(TissueArtefactKeys.CoherencePercent, 0), 7, 20).Artefact;
        double[] some = Record(values.Copy().Set(TissueArtefactKeys.CoherencePercent, 64), 7, 20).Artefact;
        for (int i = 0; i < all.Length; i++)
        {
            Assert.That(some[i], Is.EqualTo((0.8 * all[i]) + (0.6 * none[i])).Within(1e-12));
        }
    }

    // In the stream: light changes, acceleration and dark slot do not; nothing at rest.
    [Test]
    public void CoherencePercent_Lower_ChangesLitSlotsOnly()
    {
        KeyValues values = Settings.Everything();
        Recording before = Recording.Of(values, 20);
        Recording after = Recording.Of(values.Copy().Set(TissueArtefactKeys.CoherencePercent, 50), 20);
        foreach (ChannelFormat channel in before.Format.Channels)
        {
            bool isLit = channel.Name is ChannelName.Red or ChannelName.Infrared;
            Assert.That(after.Codes(channel.Name).SequenceEqual(before.Codes(channel.Name)), Is.EqualTo(!isLit), channel.Name.ToString());
        }

        KeyValues still = values.Copy().Set(MovementKeys.Activity, "rest");
        Recording.Of(still.Copy().Set(TissueArtefactKeys.CoherencePercent, 50), 20).AssertSameAs(Recording.Of(still, 20), "at rest");
    }

    // Each axis by itself: the artefact is that axis through the low-pass 1 / (1 + jf / 2 Hz) (textbook), with the knob's rms in steady gait.
    [TestCase(100, 0, 0)]
    [TestCase(0, 100, 0)]
    [TestCase(0, 0, 100)]
    [TestCase(-30, 80, 50)]
    public void Shares_OfTheAxes_DriveTheArtefact(double forward, double sideways, double upward)
    {
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, "walking").Set(MovementKeys.CadenceSpreadHz, 0).Set(MovementKeys.StepVariationPercent, 0)
            .Set(TissueArtefactKeys.ForwardPercent, forward).Set(TissueArtefactKeys.SidewaysPercent, sideways).Set(TissueArtefactKeys.UpwardPercent, upward);
        var model = new MovementModel(values, 7);
        double[] artefact = Record(values, 7, 200).Artefact;
        double[] x = new double[artefact.Length];
        double[] y = new double[artefact.Length];
        double[] z = new double[artefact.Length];
        new MovementGrid(model, s_grid, hasGravity: false).Add(x, y, z, 0);

        // 200 s are 190 strides of 1.9 steps a second.
        Assert.That(Measure.Rms(artefact), Is.EqualTo(1).Within(0.2).Percent);
        Complex Gain(double hz)
        {
            Complex drive = (forward * Measure.Line(x, hz, Rate)) + (sideways * Measure.Line(y, hz, Rate)) + (upward * Measure.Line(z, hz, Rate));
            return Measure.Line(artefact, hz, Rate) / drive * new Complex(1, hz / 2);
        }

        // Sideways swings with the stride, up and down with the step: at each line only what is there can be compared.
        Complex reference = Gain(0.95);
        foreach (double hz in (double[])(sideways != 0 && forward == 0 ? [0.95] : [0.95, 1.9, 3.8]))
        {
            Assert.That((Gain(hz) / reference).Real, Is.EqualTo(1).Within(2e-3), $"{hz} Hz");
            Assert.That((Gain(hz) / reference).Imaginary, Is.EqualTo(0).Within(2e-3), $"{hz} Hz");
        }
    }

    [Test]
    public void Shares_AllZero_GiveNoArtefact()
    {
        KeyValues values = new KeyValues().Set(MovementKeys.Activity, "walking")
            .Set(TissueArtefactKeys.ForwardPercent, 0).Set(TissueArtefactKeys.SidewaysPercent, 0).Set(TissueArtefactKeys.UpwardPercent, 0);
        Assert.That(Record(values, 7, 5).Artefact, Has.All.Zero);
    }

    private static (double[] Drive, double[] Artefact) Record(KeyValues values, ulong seed, int seconds)
    {
        var model = new MovementModel(values, seed);
        var mix = new TissueArtefactMix(values.Copy().Set(OpticsKeys.MovementArtefactRatio, 1), seed, model, s_grid);
        mix.Latch(0);
        double[] artefact = new double[(int)(seconds * Rate)];
        mix.Add(artefact, 0, 1);
        double[] x = new double[artefact.Length];
        double[] y = new double[artefact.Length];
        double[] z = new double[artefact.Length];
        new MovementGrid(model, s_grid, hasGravity: false).Add(x, y, z, 0);
        return ([.. x.Zip(z, (a, b) => (0.6 * a) + b)], artefact);
    }

    private static List<double[]> Cut(double[] x, int length) => [.. x.Chunk(length).Where(s => s.Length == length)];

    private static double Coherence(List<double[]> x, List<double[]> y, double hz)
    {
        Complex cross = 0;
        double ofX = 0;
        double ofY = 0;
        for (int i = 0; i < x.Count; i++)
        {
            Complex a = Measure.Line(Measure.WithoutMean(x[i]), hz, Rate);
            Complex b = Measure.Line(Measure.WithoutMean(y[i]), hz, Rate);
            cross += a * Complex.Conjugate(b);
            ofX += (a * Complex.Conjugate(a)).Real;
            ofY += (b * Complex.Conjugate(b)).Real;
        }

        return (cross * Complex.Conjugate(cross)).Real / (ofX * ofY);
    }
}
