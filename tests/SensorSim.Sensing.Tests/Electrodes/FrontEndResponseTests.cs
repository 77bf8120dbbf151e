// SPDX-License-Identifier: MIT
using SensorSim.Body;
using SensorSim.Body.Ecg;
using SensorSim.Body.Rhythm;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Sudden events behind the analog low-pass: against scipy, and pacing spikes against the drawer of the body.</summary>
public sealed class FrontEndResponseTests
{
    private const double Omega = 976.2649804303566;

    // Corner 0.4 × 250 Hz = 100 Hz; scipy.signal.impulse of ω²/(s + ω)²/(s + α), scipy 1.10.1 (interpolated on a grid of 0.25 µs).
    [TestCase(0.1, 0.0005, 0.08647033291325688)]
    [TestCase(0.1, 0.002, 0.575764765214087)]
    [TestCase(0.1, 0.004, 0.8807593990362017)]
    [TestCase(0.1, 0.05, 0.6191497487510083)]
    [TestCase(0.002, 0.002, 0.3814711217841344)]
    [TestCase(0.002, 0.008, 0.06876124857530438)]
    [TestCase(0.002, 0.02, 0.00019061609600766854)]
    [TestCase(double.PositiveInfinity, 0.0005, 0.08662661646605213)]
    [TestCase(double.PositiveInfinity, 0.004, 0.9012133309842528)]
    [TestCase(double.PositiveInfinity, 0.05, 0.999999999999716)]
    public void AddTo_AtATime_IsTheResponseOfScipy(double decaySeconds, double seconds, double expected)
    {
        Assert.That(FrontEndResponse.Omega(250), Is.EqualTo(Omega).Within(1e-9));
        foreach (int samples in new[] { 1, 7, 40 })
        {
            // Begun somewhere between two samples: the last of the samples lies at the time.
            double step = seconds / (samples - 0.3);
            var response = new FrontEndResponse(Omega, decaySeconds, step);
            response.Begin(1, 0.7 * step);
            double[] x = new double[samples];
            response.AddTo(x);
            Assert.That(x[^1], Is.EqualTo(expected).Within(1e-8), $"{samples} samples");
        }
    }

    // scipy.integrate.quad of the squared response, scipy 1.10.1.
    [TestCase(0.1, 0.049242125393187945)]
    [TestCase(0.002, 0.0005493174579289438)]
    [TestCase(5.0, 2.499231975739103)]
    public void Energy_OfAnEvent_IsTheIntegralOfItsSquare(double decaySeconds, double expected) =>
        Assert.That(FrontEndResponse.Energy(Omega, decaySeconds), Is.EqualTo(expected).Within(1e-9).Percent);

    [Test]
    public void AddTo_WhenTheEventIsOver_IsExactlyNothing()
    {
        var response = new FrontEndResponse(Omega, 0.01, 0.004);
        response.Begin(3, 0.001);
        double[] x = new double[1000];
        response.AddTo(x);
        Assert.That(response.IsOver);
        Assert.That(x[200..], Has.All.EqualTo(0));
        Assert.That(x.Where(v => v != 0).Select(Math.Abs).Min(), Is.GreaterThan(1e-31), "never denormal");
    }

    // α = ω is 0/0 in the formula: the limit is ω²/(s + ω)³, (ωt)²/2 · e^(−ωt) (textbook).
    [Test]
    public void AddTo_DecayAsFastAsTheLowPass_IsTheTriplePole()
    {
        var response = new FrontEndResponse(Omega, 1 / Omega, 0.001);
        response.Begin(1, 0);
        double[] x = new double[10];
        response.AddTo(x);
        for (int i = 0; i < x.Length; i++)
        {
            double u = Omega * i * 0.001;
            Assert.That(x[i], Is.EqualTo(0.5 * u * u * Math.Exp(-u)).Within(3e-4));
        }
    }

    // Inside the range the input draws the spikes that the body's own drawer draws.
    [Test]
    public void InputRangeMv_AboveTheSpikes_ChangesNothing()
    {
        double[] without = EcgTap.Of(Paced(20), 20).Millivolts;
        EcgTap with = EcgTap.Of(Paced(20).Set(EcgAmplifierKeys.InputRangeMv, 300), 20);
        Assert.That(with.Millivolts, Is.EqualTo(without).Within(1e-11));
        Assert.That(with.Count(SampleStatus.Saturated), Is.Zero);
    }

    // A spike of 700 mV cut to 300 mV keeps three sevenths of its area (gain 1 at 0 Hz), and is flagged at its first sample.
    [Test]
    public void InputRangeMv_BelowTheSpikes_CutsThemBeforeTheLowPass()
    {
        double[] none = EcgTap.Of(Paced(0), 20).Millivolts;
        double[] whole = Measure.Less(EcgTap.Of(Paced(700), 20).Millivolts, none);
        EcgTap cut = EcgTap.Of(Paced(700).Set(EcgAmplifierKeys.InputRangeMv, 300), 20);
        double[] rest = Measure.Less(cut.Millivolts, none);
        Assert.That(whole.Max(), Is.InRange(50, 290), "filtered spikes stay inside the range, so no sample is cut again");
        Assert.That(rest.Sum() / whole.Sum(), Is.EqualTo(300.0 / 700).Within(1e-6));
        Assert.That(cut.Count(SampleStatus.Saturated), Is.EqualTo(Spikes(Paced(700), 20).Count));
    }

    // The flag stands at the first sample from the spike's begin on, and nowhere else; codes do not change by a bit.
    [TestCase(0)]
    [TestCase(300)]
    public void PacingFlag_On_StandsAtTheFirstSampleAfterEachSpike(double rangeMv)
    {
        // 2 ms: every second spike ends after another sample than it began.
        KeyValues values = Paced(5).Set(PacingKeys.SpikeMs, 2).Set(EcgAmplifierKeys.InputRangeMv, rangeMv);
        Recording without = Recording.Of(values.Copy(), 20);
        Recording with = Recording.Of(values.Copy().Set(EcgAmplifierKeys.PacingFlag, "on"), 20);
        int[] expected = [.. Spikes(values, 20).Select(t => (int)Math.Ceiling(t * 250)).Order()];
        ushort[] status = with.Status(ChannelName.Ecg);
        Assert.That(expected, Has.Length.GreaterThan(15));
        Assert.That(
            Enumerable.Range(0, status.Length).Where(i => (status[i] & (int)SampleStatus.PacingSpike) != 0), Is.EqualTo(expected));
        Assert.That(with.Codes(ChannelName.Ecg), Is.EqualTo(without.Codes(ChannelName.Ecg)));
    }

    private static KeyValues Paced(double spikeMv) =>
        Settings.Fine().Set(EcgAmplifierKeys.FullScaleMv, 1000).Set(HeartKeys.Rhythm, "paced").Set(PacingKeys.SpikeMv, spikeMv);

    private static List<double> Spikes(KeyValues values, double seconds)
    {
        var body = new BodyModel(values, 7);
        List<double> spikes = [];
        for (long id = BodyModel.FirstBeatId; body.TryBeat(id, seconds + 2, out BeatView beat); id++)
        {
            foreach (PacingSpike spike in new[] { beat.Spikes[0], beat.Spikes[1] })
            {
                if (spike.WidthSeconds > 0 && spike.Seconds > 0 && spike.Seconds <= seconds - 0.004)
                {
                    spikes.Add(spike.Seconds);
                }
            }
        }

        return spikes;
    }
}
