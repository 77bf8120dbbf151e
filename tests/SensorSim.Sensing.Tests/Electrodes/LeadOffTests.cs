// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Movement;
using SensorSim.Sensing.Optics;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Lost contacts and overloads: closed forms of exponentials (textbook), and counts of a random process.</summary>
public sealed class LeadOffTests
{
    private const int Rate = 250;

    // 5 s at 250 Hz is sample 1250, the next multiple of 64 is 1280; 10 s is sample 2500, then 2560.
    private const int OffSample = 1280;
    private const int OnSample = 2560;

    [TestCase("positive", 1, SampleStatus.LeadOffPositive)]
    [TestCase("negative", -1, SampleStatus.LeadOffNegative)]
    public void Off_OneInput_GoesToTheRailAndComesBack(string electrode, int sign, SampleStatus flag)
    {
        KeyValues values = Settings.Fine().Set(EcgAmplifierKeys.FullScaleMv, 5);
        double[] clean = EcgTap.Of(values, 15).Millivolts;
        EcgTap tap = EcgTap.Of(WithOff(values, electrode), 15);

        // Without an input range the rail lies at twice the converter's full scale, 10 mV; 50 ms.
        for (int i = OffSample; i < OnSample; i++)
        {
            double left = Math.Exp(-(i + 1 - OffSample) / (Rate * 0.05));
            Assert.That(tap.Millivolts[i], Is.EqualTo((left * clean[i]) + (sign * 10 * (1 - left))).Within(1e-9), $"sample {i}");
        }

        Assert.That(tap.Millivolts[..OffSample], Is.EqualTo(clean[..OffSample]));
        Assert.That(tap.Millivolts[(OnSample + 15)..], Is.EqualTo(clean[(OnSample + 15)..]).Within(1e-9), "back within 15 samples");
        Assert.That(
            Enumerable.Range(0, tap.Status.Length).Where(i => tap.Has(i, flag)), Is.EqualTo(Enumerable.Range(OffSample, OnSample - OffSample)));
        Assert.That(tap.Status.Select(s => s & ~(int)flag & ~(int)SampleStatus.OverRange), Has.All.Zero, "no other flag");
    }

    // The rail lies 5 % beyond the input range: left after τ ln(1.05/0.05) = 3.045 τ; then the high-pass needs its own time after contact.
    [Test]
    public void Off_WithInputRangeAndHighPass_SaturatesAndRecoversThroughTheHighPass()
    {
        KeyValues values = Settings.Fine().Set(EcgAmplifierKeys.FullScaleMv, 400).Set(EcgAmplifierKeys.InputRangeMv, 300)
            .Set(EcgAmplifierKeys.HighPassHz, 0.5).Set(ElectrodeKeys.RailMs, 200);
        double[] clean = EcgTap.Of(values, 20).Millivolts;
        EcgTap tap = EcgTap.Of(WithOff(values, "positive"), 20);
        int[] saturated = [.. Enumerable.Range(0, tap.Status.Length).Where(i => tap.Has(i, SampleStatus.Saturated))];
        Assert.That(saturated[0], Is.EqualTo(OffSample + (int)Math.Round(Rate * 0.2 * Math.Log(21))).Within(2));
        Assert.That(saturated[^1], Is.EqualTo(OnSample - 1));
        Assert.That(saturated, Has.Length.EqualTo(saturated[^1] - saturated[0] + 1));

        // 4 s of rail at a corner of 0.5 Hz leave nothing: contact is a step of −300 mV there.
        double[] rest = Measure.Less(tap.Millivolts, clean);
        double a = 2 * Math.PI * 0.5;
        Assert.That(rest[OnSample + 25], Is.EqualTo(-300 * Math.Exp(-a * 0.1)).Within(3).Percent);
        Assert.That(Math.Log(rest[OnSample + 25] / rest[OnSample + 275]), Is.EqualTo(a).Within(1e-3));
    }

    [Test]
    public void Off_TheThird_LeavesTheEcgAndRaisesTheMains()
    {
        KeyValues silent = Settings.Silent().Set(MainsKeys.BodyCouplingPf, 3);
        EcgTap tap = EcgTap.Of(WithOff(silent, "third"), 15);
        EcgTap none = EcgTap.Of(silent.Copy().Set(ElectrodeKeys.Third, "none"), 15);
        EcgTap driven = EcgTap.Of(silent, 15);
        Assert.That(tap.Millivolts[..OffSample], Is.EqualTo(driven.Millivolts[..OffSample]));
        Assert.That(tap.Millivolts[OffSample..OnSample], Is.EqualTo(none.Millivolts[OffSample..OnSample]).Within(1e-12));
        Assert.That(Measure.Rms(tap.Millivolts[OffSample..OnSample]), Is.GreaterThan(100 * Measure.Rms(driven.Millivolts)));
        Assert.That(tap.Count(SampleStatus.LeadOffThird), Is.EqualTo(OnSample - OffSample));

        KeyValues beating = Settings.Fine();
        Assert.That(EcgTap.Of(WithOff(beating, "third"), 15).Millivolts, Is.EqualTo(EcgTap.Of(beating, 15).Millivolts));
    }

    // On an open input stands the whole common mode, and the drive does nothing: 230 V at 50.03 Hz, 3, 300 and 20 pF, 30 kΩ
    // passive, 10 MΩ at each input make 0.4005 mV rms, of which the other electrode of 20 kΩ leaves 10/10.02 (Python's complex numbers).
    [Test]
    public void Off_OneInput_ShowsTheMainsInFull()
    {
        KeyValues values = Settings.Silent().Set(MainsKeys.BodyCouplingPf, 3).Set(EcgAmplifierKeys.FullScaleMv, 100);
        double[] x = EcgTap.Of(WithOff(values, "positive"), 15).Millivolts;
        double[] off = x[(OffSample + 250)..(OffSample + 1250)];
        Assert.That(Measure.Line(off, 50.03, Rate).Magnitude / Math.Sqrt(2), Is.EqualTo(0.3997).Within(0.1).Percent);
    }

    // An electrode that is off from the start has been so for long.
    [Test]
    public void Off_FromTheStart_StandsAtTheRail()
    {
        EcgTap tap = EcgTap.Of(Settings.Fine().Set(ElectrodeKeys.Off, "negative").Set(EcgAmplifierKeys.InputRangeMv, 200).Set(EcgAmplifierKeys.HighPassHz, 0.5), 5);
        Assert.That(tap.Millivolts, Has.All.EqualTo(0).Within(1e-9), "the high-pass has forgotten the rail");
        Assert.That(tap.Status.Select(s => s & (int)(SampleStatus.LeadOffNegative | SampleStatus.Saturated)), Has.All.EqualTo(10));
    }

    // Losses of a Poisson process of mean length m cover 1 − e^(−rate · m) of the time (Hall, Introduction to the Theory of Coverage Processes,
    // 1988); thinned candidates come a little more evenly, below 2 % of it here. n losses: relative error √(2/n) of the covered time.
    [Test]
    public void ContactLoss_OverADay_CoversTheTimeThatItSays()
    {
        const double Seconds = 86400;
        EcgTap tap = EcgTap.Of(Losing(120, 3), Seconds);
        double n = 120 / 3600.0 * Seconds;
        foreach (SampleStatus flag in new[] { SampleStatus.LeadOffPositive, SampleStatus.LeadOffNegative, SampleStatus.LeadOffThird })
        {
            double expected = 1 - Math.Exp(-120 / 3600.0 * 3);
            Assert.That(tap.Count(flag) / (double)tap.Status.Length, Is.EqualTo(expected).Within(expected * ((4 * Math.Sqrt(2 / n)) + 0.02)), $"{flag}");

            // Begins that no other loss covers; counts of thinned candidates vary less than Poisson's √n.
            double begins = n * (1 - expected);
            Assert.That(Begins(tap, flag).Length, Is.EqualTo(begins).Within((4 * Math.Sqrt(begins)) + (0.02 * begins)), $"{flag}");
        }
    }

    [Test]
    public void ContactLoss_MoreOften_KeepsTheLossesThatWere()
    {
        EcgTap few = EcgTap.Of(Losing(30, 0.2), 7200);
        EcgTap many = EcgTap.Of(Losing(90, 0.2), 7200);
        int[] all = [.. Enumerable.Range(0, few.Status.Length).Where(i => few.Has(i, SampleStatus.LeadOffPositive))];
        Assert.That(all, Has.Length.GreaterThan(300));
        Assert.That(all.Where(i => !many.Has(i, SampleStatus.LeadOffPositive)), Is.Empty);
    }

    [Test]
    public void ContactLoss_WithoutAThirdElectrode_NeverFlagsIt() =>
        Assert.That(EcgTap.Of(Losing(300, 3).Set(ElectrodeKeys.Third, "none"), 600).Count(SampleStatus.LeadOffThird), Is.Zero);

    // 1 V that decays with 1 s stands above 300 mV for ln(1000/300) = 1.204 s. Before, the high-pass sees a step of 300 mV, then
    // 300 mV · e^(−t/τ): its answer is that of one pole to an exponential (textbook).
    [Test]
    public void Overload_OfOneVolt_BlocksAndRecoversThroughTheHighPass()
    {
        KeyValues values = Settings.Silent().Set(EcgAmplifierKeys.FullScaleMv, 400).Set(EcgAmplifierKeys.InputRangeMv, 300).Set(EcgAmplifierKeys.HighPassHz, 0.5);
        EcgTap tap = EcgTap.Of(values.Copy().Set(ElectrodeKeys.OverloadAtS, 5.0013), 15);
        double blocked = Math.Log(1000.0 / 300);
        Assert.That(tap.Count(SampleStatus.Saturated), Is.EqualTo(Rate * blocked).Within(2));
        double a = 2 * Math.PI * 0.5;
        for (int i = (int)(Rate * (5.01 + blocked)); i < tap.Millivolts.Length; i++)
        {
            double t = (i / (double)Rate) - 5.0013 - blocked;
            double expected = (300 * Math.Exp(-a * (t + blocked))) - (300 / (a - 1) * (Math.Exp(-t) - Math.Exp(-a * t)));
            Assert.That(tap.Millivolts[i], Is.EqualTo(expected).Within(1.5), $"sample {i}");
        }

        Assert.That(tap.Millivolts.Min(), Is.LessThan(-50), "undershoot");
    }

    // Blocked means that nothing of the ECG is left.
    [Test]
    public void Overload_WhileItBlocks_HidesTheEcg()
    {
        KeyValues values = Settings.Fine().Set(EcgAmplifierKeys.FullScaleMv, 400).Set(EcgAmplifierKeys.InputRangeMv, 300).Set(ElectrodeKeys.OverloadAtS, 5).Set(ElectrodeKeys.OverloadMv, -3000);
        double[] x = EcgTap.Of(values, 10).Millivolts;
        Assert.That(x[(5 * Rate + 3)..(7 * Rate)], Has.All.EqualTo(-300));
    }

    [Test]
    public void OverloadPerH_OverADay_IsTheMeanRate()
    {
        EcgTap tap = EcgTap.Of(Slow().Set(ElectrodeKeys.OverloadPerH, 20).Set(ElectrodeKeys.OverloadRecoveryS, 0.5).Set(EcgAmplifierKeys.InputRangeMv, 300), 86400);

        // Half a minute between candidates at most: two may come close together, and a handful do.
        Assert.That(Begins(tap, SampleStatus.Saturated).Length, Is.EqualTo(480).Within((4 * Math.Sqrt(480)) + 5));
    }

    private static KeyValues Slow() => Settings.Silent().Set(EcgAmplifierKeys.RateHz, 50).Set(OpticsKeys.RateHz, 20).Set(AccelerometerKeys.RateHz, 10);

    private static KeyValues Losing(double perHour, double seconds) =>
        Slow().Set(ElectrodeKeys.ContactLossPerH, perHour).Set(ElectrodeKeys.ContactLossS, seconds);

    private static KeyValues WithOff(KeyValues values, string electrode) =>
        values.Copy().SetChanges(ElectrodeKeys.Off, [(5, electrode), (10, "none")]);

    private static int[] Begins(EcgTap tap, SampleStatus flag) =>
        [.. Enumerable.Range(1, tap.Status.Length - 1).Where(i => tap.Has(i, flag) && !tap.Has(i - 1, flag))];
}
