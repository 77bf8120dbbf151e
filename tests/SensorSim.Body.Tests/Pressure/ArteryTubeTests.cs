// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Body.Pressure;
using SensorSim.Body.Site;
using SensorSim.Body.Subject;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Pressure;

/// <summary>Wave speed in an elastic tube against published formulas and worked figures.</summary>
public sealed class ArteryTubeTests
{
    // Worked by hand from the formula of Moens and Korteweg with the exponential modulus of Hughes et al. 1979:
    // E0 100 kPa, wall 0.5 mm, diameter 4 mm, 1060 kg/m³, path 0.8 m, zeta 0.017 per mmHg.
    [TestCase(80, 6.7783, 118.023)]
    [TestCase(100, 8.0344, 99.572)]
    [TestCase(120, 9.5232, 84.005)]
    [TestCase(140, 11.2879, 70.872)]
    [TestCase(160, 13.3796, 59.793)]
    public void SpeedAndTransit_FullExample_AreTheWorkedFigures(double mmhg, double speed, double transitMs)
    {
        ArteryTube tube = Tube(0.8);
        Assert.That(tube.SpeedMPerS(mmhg, 100), Is.EqualTo(speed).Within(0.00005));
        Assert.That(tube.TransitSeconds(mmhg, 100) * 1e3, Is.EqualTo(transitMs).Within(0.0005));
    }

    // Aorta without stiffening: E 400 kPa, wall 2 mm, diameter 25 mm -> 5.4944 m/s (formula as in Ma et al., PNAS 115:11144, 2018).
    [Test]
    public void Speed_AortaWithoutPressure_IsTheWorkedFigure()
    {
        var tube = new ArteryTube(new KeyValues().Set(ArteryKeys.WallMm, 2).Set(ArteryKeys.DiameterMm, 25));
        Assert.That(tube.SpeedMPerS(0, 400), Is.EqualTo(5.4944).Within(0.00005));
    }

    // Bramwell and Hill 1922: speed = √(area / density · dP/dA). Worked: (1/A) dA/dP of 2e-3, 4e-3, 8e-3 per mmHg -> 7.930, 5.607, 3.965 m/s.
    [TestCase(2e-3, 7.930)]
    [TestCase(4e-3, 5.607)]
    [TestCase(8e-3, 3.965)]
    public void BramwellHill_WorkedFigures_AreThoseOfTheCheckItself(double distensibility, double speed) =>
        Assert.That(BramwellHill(distensibility), Is.EqualTo(speed).Within(0.0005));

    // The same speed from the compliance of the tube: a step of pressure widens it until the extra hoop stress balances (P r = stress · wall,
    // stress = E · strain, thin wall: Laplace), area by numbers, speed by Bramwell and Hill.
    [TestCase(60, 100, 0.5, 4)]
    [TestCase(93.3, 100, 0.5, 4)]
    [TestCase(140, 250, 0.7, 6)]
    public void Speed_AnyPressure_AgreesWithTheComplianceOfTheTube(double mmhg, double e0Kpa, double wallMm, double diameterMm)
    {
        const double StepMmhg = 1e-4;
        const double PaPerMmhg = 133.322;
        double modulusPa = e0Kpa * 1e3 * Math.Exp(0.017 * mmhg);
        double r = diameterMm * 0.5e-3;
        double widened = r + (r * StepMmhg * PaPerMmhg * r / (wallMm * 1e-3) / modulusPa);
        double area = Math.PI * r * r;
        double distensibility = ((Math.PI * widened * widened) - area) / area / StepMmhg;
        var tube = new ArteryTube(new KeyValues().Set(ArteryKeys.WallMm, wallMm).Set(ArteryKeys.DiameterMm, diameterMm));
        Assert.That(tube.SpeedMPerS(mmhg, e0Kpa), Is.EqualTo(BramwellHill(distensibility)).Within(1e-4));
    }

    // +10 mmHg: speed x 1.08872, transit x 0.91851; +20: transit x 0.84366 (exp of half of 0.017 x 10 and 20).
    [Test]
    public void Transit_TenAndTwentyMmhgMore_ShrinksByThePublishedFactor()
    {
        ArteryTube tube = Tube(0.8);
        Assert.That(tube.SpeedMPerS(95, 100) / tube.SpeedMPerS(85, 100), Is.EqualTo(1.08872).Within(5e-6));
        Assert.That(tube.TransitSeconds(95, 100) / tube.TransitSeconds(85, 100), Is.EqualTo(0.91851).Within(5e-6));
        Assert.That(tube.TransitSeconds(105, 100) / tube.TransitSeconds(85, 100), Is.EqualTo(0.84366).Within(5e-6));
    }

    // dP/dPTT = -2 / (zeta PTT), worked for five transit times and three zetas.
    [TestCase(0.017, 100, -1.176)]
    [TestCase(0.017, 150, -0.784)]
    [TestCase(0.017, 200, -0.588)]
    [TestCase(0.017, 250, -0.471)]
    [TestCase(0.017, 300, -0.392)]
    [TestCase(0.016, 200, -0.625)]
    [TestCase(0.018, 200, -0.556)]
    public void Pressure_OneMillisecondMore_FallsByTheWorkedSlope(double zeta, double transitMs, double slope)
    {
        var tube = new ArteryTube(new KeyValues().Set(ArteryKeys.ZetaPerMmhg, zeta));
        double difference = tube.PressureMmhg((transitMs + 0.5) * 1e-3, 100) - tube.PressureMmhg((transitMs - 0.5) * 1e-3, 100);
        Assert.That(difference, Is.EqualTo(slope).Within(0.0006));
    }

    // Logarithmic model calibrated at 120 mmHg and 200 ms, zeta 0.017: a + b ln T with b = -117.647 (worked).
    [TestCase(160, 146.25)]
    [TestCase(180, 132.40)]
    [TestCase(190, 126.03)]
    [TestCase(210, 114.26)]
    [TestCase(220, 108.79)]
    [TestCase(240, 98.55)]
    public void Pressure_CalibratedAt200Ms_IsTheLogarithmicModel(double transitMs, double mmhg)
    {
        ArteryTube tube = Tube(1);
        double modulus = 100 * Math.Pow(tube.TransitSeconds(120, 100) / 0.2, 2);
        Assert.That(tube.PressureMmhg(transitMs * 1e-3, modulus), Is.EqualTo(mmhg).Within(0.005));
    }

    // A pre-ejection period 10 ms shorter, read as transit at 240 ms, is 5.0 mmHg (logarithmic model, worked).
    [Test]
    public void Pressure_TenMillisecondsOfEjectionReadAsTransit_IsFiveMmhgWrong()
    {
        ArteryTube tube = Tube(1);
        Assert.That(tube.PressureMmhg(0.230, 100) - tube.PressureMmhg(0.240, 100), Is.EqualTo(5.0).Within(0.05));
    }

    [Test]
    public void Transit_AnyArtery_FallsWithPressureAndGivesThePressureBack() =>
        Gen.Select(Gen.Double[0.2, 2], Gen.Double[20, 500], Gen.Double[0.2, 2], Gen.Double[1, 10], Gen.Double[0.005, 0.03], Gen.Double[20, 200], Gen.Double[0.01, 40])
            .Sample(
                (path, modulus, wall, diameter, zeta, mmhg, more) =>
                {
                    var tube = new ArteryTube(new KeyValues().Set(ArteryKeys.PathM, path).Set(ArteryKeys.WallMm, wall)
                        .Set(ArteryKeys.DiameterMm, diameter).Set(ArteryKeys.ZetaPerMmhg, zeta));
                    double transit = tube.TransitSeconds(mmhg, modulus);
                    Assert.That(tube.TransitSeconds(mmhg + more, modulus), Is.LessThan(transit));
                    Assert.That(tube.TransitSeconds(mmhg, modulus * 1.01), Is.LessThan(transit));
                    Assert.That(tube.PressureMmhg(transit, modulus), Is.EqualTo(mmhg).Within(1e-9));
                },
                iter: 2000);

    [TestCase("finger", 0.57)]
    [TestCase("wrist", 0.46)]
    [TestCase("ear", 0.28)]
    [TestCase("chest", 0.15)]
    public void Path_NotSet_GrowsWithHeight(string site, double share)
    {
        KeyValues values = new KeyValues().Set(SiteKeys.Site, site).Set(SubjectKeys.HeightM, 2);
        Assert.That(ArterialPath.Metres(values), Is.EqualTo(2 * share).Within(1e-12));
        Assert.That(ArterialPath.Metres(values.Set(ArteryKeys.PathM, 0.7)), Is.EqualTo(0.7));
    }

    private static ArteryTube Tube(double pathM) => new(new KeyValues().Set(ArteryKeys.PathM, pathM));

    private static double BramwellHill(double distensibilityPerMmhg) => Math.Sqrt(133.322 / (1060 * distensibilityPerMmhg));
}
