// SPDX-License-Identifier: MIT
using System.Numerics;
using SensorSim.Body.Breathing;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Sensing.Tests.Support;
using SensorSim.Signals.Keys;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Mains on the body, against the figures of the literature: Metting van Rijn et al. 1990; Webster, Medical Instrumentation (from memory).</summary>
public sealed class MainsNetworkTests
{
    private const double Earthed = 1e-5;
    private const double Nowhere = 1e18;

    private static MainsNetwork Network(double thirdOhm, double inputOhm = Nowhere, double deviceF = Earthed, double positive = 0, double negative = 0, double rejection = 1e12) => new()
    {
        BodyCouplingF = 3e-12,
        BodyEarthF = 300e-12,
        DeviceEarthF = deviceF,
        LeadCouplingF = 0,
        PositiveOhm = positive,
        NegativeOhm = negative,
        GroundOhm = thirdOhm,
        InputOhm = inputOhm,
        Rejection = rejection,
    };

    // Floating body: 220 V × 3 / (3 + 300) = 2.18 V rms.
    [Test]
    public void CommonMode_OfAFloatingBody_Is2Point18Volt() =>
        Assert.That(220 * Network(MainsNetwork.OpenOhm).CommonMode(50).Magnitude, Is.EqualTo(2.18).Within(0.003));

    // ωCV = 0.207 µA rms through 1, 10, 100 kΩ: 0.2, 2, 20 mV rms.
    [TestCase(1e3, 0.207e-3)]
    [TestCase(10e3, 2.07e-3)]
    [TestCase(100e3, 20.7e-3)]
    public void CommonMode_OnAPassiveThirdElectrode_IsCurrentTimesImpedance(double ohm, double volt) =>
        Assert.That(220 * Network(ohm).CommonMode(50).Magnitude, Is.EqualTo(volt).Within(0.5).Percent);

    // 100 kΩ driven with 2 Rf/Ra = 2 × 5 MΩ / 25 kΩ = 400: 249 Ω, 0.2 µA → 50 µV.
    [Test]
    public void CommonMode_OnADrivenElectrode_IsThatOf249Ohm()
    {
        double ohm = MainsNetwork.ThirdOhm(100e3, 400);
        Assert.That(ohm, Is.EqualTo(249).Within(0.5));
        Assert.That(0.2e-6 * ohm, Is.EqualTo(50e-6).Within(0.2e-6));
        Assert.That(220 * Network(ohm).CommonMode(50).Magnitude, Is.EqualTo(0.207e-6 * 249).Within(0.5).Percent);
    }

    // 10 mV of common mode, 5 MΩ, 20 kΩ of difference: 40 µV (rounded in the source; with 20 kΩ against 0 the divider gives 39.84).
    [Test]
    public void Differential_OfUnequalElectrodes_Is40MicrovoltOf10Millivolt()
    {
        MainsNetwork network = Network(10e3, 5e6, positive: 20e3);
        double ratio = network.Differential(50).Magnitude / network.CommonMode(50).Magnitude;
        Assert.That(10e-3 * ratio, Is.EqualTo(40e-6).Within(0.5).Percent);
        Assert.That(ratio, Is.EqualTo(1 - (5e6 / 5.02e6)).Within(1e-9), "divider");
    }

    // 20 V rms mains, 10 V rms on the body, 1 mV peak to peak of output: 28.28 V / 1 mV = 89.0 dB (AAMI TIR60 extract).
    [Test]
    public void Differential_OfTheRejectionTest_Is1MillivoltAt89Decibel()
    {
        MainsNetwork network = Network(MainsNetwork.OpenOhm, rejection: Math.Pow(10, 89.03 / 20)) with { BodyCouplingF = 100e-12, BodyEarthF = 100e-12 };
        Assert.That(20 * network.CommonMode(50).Magnitude, Is.EqualTo(10).Within(0.01).Percent);
        Assert.That(20 * network.Differential(50).Magnitude * 2 * Math.Sqrt(2), Is.EqualTo(1e-3).Within(0.1).Percent);
    }

    // An open input shows the common mode itself.
    [Test]
    public void Differential_OfAnOpenInput_IsTheWholeCommonMode()
    {
        MainsNetwork network = Network(10e3, 10e6, positive: MainsNetwork.OpenOhm, negative: 20e3);
        Assert.That(network.Differential(50).Magnitude / network.CommonMode(50).Magnitude, Is.EqualTo(1).Within(0.003));
    }

    // 0.1 pF × 230 V × 2π 50 Hz = 7.2 nA: across 20 kΩ of difference 145 µV rms, on an open input of 10 MΩ 72 mV.
    [Test]
    public void Differential_OfCurrentInTheLeads_IsCurrentTimesDifference()
    {
        MainsNetwork network = Network(10e3, 10e6, positive: 40e3, negative: 20e3) with { BodyCouplingF = 0, LeadCouplingF = 0.1e-12 };
        Assert.That(230 * network.Differential(50).Magnitude, Is.EqualTo(7.226e-9 * 20e3).Within(1).Percent);
        Assert.That(230 * (network with { PositiveOhm = MainsNetwork.OpenOhm }).Differential(50).Magnitude, Is.EqualTo(72e-3).Within(1).Percent);
    }

    // The same arithmetic done with complex impedances of the framework, where no part is negligible.
    [TestCase(50)]
    [TestCase(150)]
    public void Differential_OfAnyNetwork_IsKirchhoffs(double hz)
    {
        var network = new MainsNetwork
        {
            BodyCouplingF = 7e-12, BodyEarthF = 90e-12, DeviceEarthF = 40e-12, LeadCouplingF = 0.3e-12,
            PositiveOhm = 400e3, NegativeOhm = 90e3, GroundOhm = 1.5e6, InputOhm = 8e6, Rejection = 700,
        };
        Complex jw = new(0, 2 * Math.PI * hz);
        Complex ground = 1 / ((1 / 1.5e6) + (2 / 8e6));
        Complex toEarth = 1 / ((jw * 90e-12) + (1 / (ground + (1 / (jw * 40e-12)))));
        Complex body = toEarth / (toEarth + (1 / (jw * 7e-12)));
        Complex common = body * ground / (ground + (1 / (jw * 40e-12)));
        Complex inputs = common * ((8e6 / 8.4e6) - (8e6 / 8.09e6));
        Complex leads = jw * 0.3e-12 * ((1 / ((1 / 400e3) + (1 / 8e6))) - (1 / ((1 / 90e3) + (1 / 8e6))));
        Complex expected = inputs + (common * Complex.ImaginaryOne / 700) + leads;
        Phasor got = network.Differential(hz);
        Assert.That((new Complex(got.Real, got.Imaginary) - expected).Magnitude, Is.LessThan(1e-12 * expected.Magnitude));
    }

    // In the stream, referred to the electrodes: fundamental and harmonics as the network says, at the mains' own frequency.
    [Test]
    public void BodyCouplingPf_InTheStream_GivesWhatTheNetworkSays()
    {
        KeyValues values = Coupled().Set(ElectrodeKeys.Third, "none").Set(MainsKeys.SupplySecondPercent, 5).Set(MainsKeys.SupplyThirdPercent, 10);
        double[] x = EcgTap.Of(values, 100).Millivolts;
        MainsNetwork network = Network(MainsNetwork.OpenOhm, 1e7, 20e-12, 30e3, 20e3, Math.Pow(10, 4.5));
        for (int n = 1; n <= 3; n++)
        {
            double volt = 230 * Math.Sqrt(2) * (n == 1 ? 1 : n == 2 ? 0.05 : 0.1);
            Assert.That(
                Measure.Line(x, n * 50.03, 1000).Magnitude,
                Is.EqualTo(1e3 * volt * network.Differential(n * 50.03).Magnitude).Within(0.01).Percent,
                $"harmonic {n}");
        }

        Assert.That(2e3 * Measure.Line(x, 50.03, 1000).Magnitude, Is.EqualTo(new MainsCoupling(values).PickupUvPp(0)).Within(0.01).Percent, "as told");
    }

    // Two-electrode devices have 10 to 40 dB more mains (common practice), and driving takes it down by about its loop gain.
    [Test]
    public void Third_TakenAway_RaisesTheMains()
    {
        double driven = Fundamental(Coupled());
        double passive = Fundamental(Coupled().Set(ElectrodeKeys.Third, "passive"));
        double none = Fundamental(Coupled().Set(ElectrodeKeys.Third, "none"));
        Assert.That(20 * Math.Log10(passive / driven), Is.EqualTo(20 * Math.Log10(101)).Within(0.1), "1 + loop gain of 40 dB");
        Assert.That(20 * Math.Log10(none / passive), Is.InRange(30, 50));
    }

    // Electrodes alike leave only the amplifier's own rejection.
    [Test]
    public void Impedances_Alike_LeaveTheRejection()
    {
        KeyValues values = Coupled().Set(ElectrodeKeys.Third, "none").Set(ElectrodeKeys.ImpedancePositiveKohm, 20).Set(EcgAmplifierKeys.CmrrDb, 80);
        Assert.That(Fundamental(values) * 1e4 / Math.Sqrt(2), Is.EqualTo(new MainsCoupling(values).CommonModeMvRms(0)).Within(0.01).Percent);
    }

    // (1 + m sin ψ) sin φ has side lines of m/2 at the mains frequency ± that of the modulation (textbook).
    [TestCase(true)]
    [TestCase(false)]
    public void ModulationPercent_OnTheMains_GivesSideLinesOfHalfTheDepth(bool isCoupled)
    {
        KeyValues values = (isCoupled ? Coupled().Set(ElectrodeKeys.Third, "none") : Silent().Set(EcgAmplifierKeys.MainsUvPp, 200))
            .Set(MainsKeys.ModulationPercent, 60).Set(MainsKeys.ModulationHz, 0.8);
        double[] x = EcgTap.Of(values, 100).Millivolts;
        double carrier = Measure.Line(x, 50.03, 1000).Magnitude;
        Assert.That(carrier, Is.EqualTo(Fundamental(values.Copy().Set(MainsKeys.ModulationPercent, 0))).Within(0.01).Percent);
        Assert.That(Measure.Line(x, 50.83, 1000).Magnitude / carrier, Is.EqualTo(0.3).Within(0.001));
        Assert.That(Measure.Line(x, 49.23, 1000).Magnitude / carrier, Is.EqualTo(0.3).Within(0.001));
    }

    private static KeyValues Silent() => Settings.Silent().Set(EcgAmplifierKeys.RateHz, 1000).Set(BreathingKeys.SpreadPerMin, 0);

    private static KeyValues Coupled() => Silent().Set(MainsKeys.BodyCouplingPf, 3);

    private static double Fundamental(KeyValues values) => Measure.Line(EcgTap.Of(values, 100).Millivolts, 50.03, 1000).Magnitude;
}
