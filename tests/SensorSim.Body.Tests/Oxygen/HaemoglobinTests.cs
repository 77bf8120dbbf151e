// SPDX-License-Identifier: MIT
using SensorSim.Body.Oxygen;

namespace SensorSim.Body.Tests.Oxygen;

/// <summary>Tabulated extinction coefficients.</summary>
public sealed class HaemoglobinTests
{
    // Compilation by S. Prahl (Oregon Medical Laser Center; Gratzer, Kollias); 905 nm is the mean of 904 and 906.
    [TestCase(530, 39956.8, 39036.4)]
    [TestCase(656, 335.2, 3427.68)]
    [TestCase(660, 319.6, 3226.56)]
    [TestCase(664, 308.4, 3053.96)]
    [TestCase(800, 816, 761.72)]
    [TestCase(880, 1154, 726.44)]
    [TestCase(904, 1206, 767.44)]
    [TestCase(905, 1207.6, 768.62)]
    [TestCase(906, 1209.2, 769.80)]
    [TestCase(940, 1214, 693.44)]
    public void Extinction_WithAndWithoutOxygen_IsPrahls(double nm, double oxygenated, double deoxygenated)
    {
        Assert.That(Haemoglobin.Extinction(Species.Oxygenated, nm), Is.EqualTo(oxygenated).Within(1e-9));
        Assert.That(Haemoglobin.Extinction(Species.Deoxygenated, nm), Is.EqualTo(deoxygenated).Within(1e-9));
    }

    // ln 10 · extinction · 150 g/l / 64500 (worked).
    [TestCase(530, 213.96, 209.03)]
    [TestCase(660, 1.7114, 17.2777)]
    [TestCase(880, 6.1795, 3.8900)]
    [TestCase(905, 6.4665, 4.1158)]
    [TestCase(940, 6.5008, 3.7133)]
    public void Absorption_BloodOf150GramsPerLitre_IsTheWorkedFigure(double nm, double oxygenated, double deoxygenated)
    {
        double step = nm == 530 ? 0.005 : 0.00005;
        Assert.That(Haemoglobin.AbsorptionPerCm(Species.Oxygenated, nm, 150), Is.EqualTo(oxygenated).Within(step));
        Assert.That(Haemoglobin.AbsorptionPerCm(Species.Deoxygenated, nm, 150), Is.EqualTo(deoxygenated).Within(step));
    }

    // Human adult, per iron in 1/(mmol/l · cm) times 4000: Zijlstra, Buursma, van Assendelft, Visible and Near Infrared Absorption Spectra of
    // Human and Animal Haemoglobin, 2000. 845 and 960 are rows of the uneven end; 822.5 lies halfway between 805 and 840.
    [TestCase(500, 21116, 36424)]
    [TestCase(530, 49160, 27776)]
    [TestCase(632, 716, 15600)]
    [TestCase(660, 276, 3780)]
    [TestCase(800, 60, 1624)]
    [TestCase(822.5, 32, 1872)]
    [TestCase(845, 24, 2132)]
    [TestCase(940, 4, 2916)]
    [TestCase(960, 0, 2988)]
    [TestCase(1000, 0, 3040)]
    public void Extinction_CarboxyAndMet_IsZijlstras(double nm, double carboxy, double met)
    {
        Assert.That(Haemoglobin.Extinction(Species.Carboxy, nm), Is.EqualTo(carboxy).Within(1e-9));
        Assert.That(Haemoglobin.Extinction(Species.Met, nm), Is.EqualTo(met).Within(1e-9));
    }

    // Oxygenated and deoxygenated blood absorb alike just below 800 nm (textbook; Prahl's rows 796 and 798 are on either side).
    [Test]
    public void Extinction_IsosbesticPoint_LiesJustBelow800Nm()
    {
        double difference(double nm) => Haemoglobin.Extinction(Species.Oxygenated, nm) - Haemoglobin.Extinction(Species.Deoxygenated, nm);
        Assert.That(difference(790), Is.Negative);
        Assert.That(difference(800), Is.Positive);
    }

    [TestCase(499.9)]
    [TestCase(1000.1)]
    [TestCase(double.NaN)]
    public void Extinction_WavelengthNotTabulated_IsRefusedWithTheRange(double nm) =>
        Assert.That(() => Haemoglobin.Extinction(Species.Met, nm), Throws.InstanceOf<ArgumentOutOfRangeException>().With.Message.Contains("500 to 1000 nm"));

    [Test]
    public void Extinction_EverywhereInRange_IsThereAndPositiveOrZero()
    {
        foreach (Species species in Enum.GetValues<Species>())
        {
            for (double nm = 500; nm <= 1000; nm += 0.5)
            {
                Assert.That(Haemoglobin.Extinction(species, nm), Is.InRange(0, 70000));
            }
        }
    }
}
