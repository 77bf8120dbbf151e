// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>Our waves beside the published dynamical model of the ECG (McSharry et al. 2003).</summary>
/// <remarks>
/// What can be compared at 60 bpm: order, signs, times of the extremes, heights over the isoelectric level, width of R. What cannot: our P is
/// 18 ms wide whatever the scenario (the model's 0.25 rad: 40 ms), our T a tenth of QT (the model's 0.4 rad: 64 ms); the model's widths and
/// times stretch with the RR interval, ours follow PR, QRS and QT; its level leaks away with a time constant of 1 s.
/// </remarks>
public sealed class ThreeOdeModelTests
{
    // The model by itself, so that it can be trusted as a reference: rows computed from the published equations by another program
    // (double precision; 1 % of the range, 2 ms).
    [TestCase(60, -0.01625, 0.04198, 0.245, -0.267, 0.412, -168, -46, 45, 247)]
    [TestCase(40, -0.02468, 0.06297, 0.256, -0.254, 0.407, -252, -69, 67, 369)]
    [TestCase(80, -0.01207, 0.03151, 0.240, -0.273, 0.415, -126, -35, 34, 186)]
    [TestCase(120, -0.00788, 0.02112, 0.236, -0.280, 0.417, -84, -23, 22, 124)]
    public void Model_ByItself_HasItsPublishedExtremes(
        double rate, double zMin, double zMax, double p, double q, double t, double pMs, double qMs, double sMs, double tMs)
    {
        var model = new ThreeOdeModel(rate);
        double range = zMax - zMin;
        Assert.That(model.Z.Min(), Is.EqualTo(zMin).Within(0.01 * range));
        Assert.That(model.Z.Max(), Is.EqualTo(zMax).Within(0.01 * range));
        double beat = 60e3 / rate;
        Check(model.Extreme((int)(-0.3 * beat), (int)(-0.08 * beat), true), pMs, p);
        Check(model.Extreme((int)(-0.08 * beat), 0, false), qMs, q);
        Check(model.Extreme(0, (int)(0.08 * beat), false), sMs, -0.4);
        Check(model.Extreme((int)(0.1 * beat), (int)(0.4 * beat), true), tMs, t);
    }

    [Test]
    public void Waves_SetToTheModelsFigures_PeakWhereItsWavesPeak()
    {
        var model = new ThreeOdeModel(60);
        EcgBeat ours = Fitted(model);
        double level = model.Millivolts(model.Z[0]);
        (int From, int To, bool IsMaximum)[] spans = [(-300, -100, true), (-80, -10, false), (-10, 10, true), (10, 80, false), (100, 400, true)];

        // 5 ms and a twentieth of R's height: the model adds the leak, and its wider P and T reach into Q and S.
        foreach ((int from, int to, bool isMaximum) in spans)
        {
            (double ms, double mv) = model.Extreme(from, to, isMaximum);
            int found = Enumerable.Range(from, to - from).MaxBy(t => isMaximum ? Sum(ours, t) : -Sum(ours, t));
            TestContext.Out.WriteLine($"{from}..{to}: model {ms} ms {mv - level:F3} mV, ours {found} ms {Sum(ours, found):F3} mV");
            Assert.That(found, Is.EqualTo(ms).Within(5));
            Assert.That(Sum(ours, found), Is.EqualTo(mv - level).Within(0.06));
        }
    }

    [Test]
    public void WidthOfR_SetToTheModelsFigures_IsTheModels()
    {
        // Full width at half of the height over the isoelectric level; the model's 0.1 rad is 15.9 ms, ours 14.9 ms.
        var model = new ThreeOdeModel(60);
        EcgBeat ours = Fitted(model);
        double level = model.Millivolts(model.Z[0]);
        int theirs = Enumerable.Range(-60, 120).Count(t => model.Millivolts(model.Z[model.RIndex + t]) - level > 0.5 * (1.2 - level));
        int own = Enumerable.Range(-60, 120).Count(t => Sum(ours, t) > 0.5 * Sum(ours, 0));
        TestContext.Out.WriteLine($"{theirs} {own}");
        Assert.That(own, Is.EqualTo(theirs).Within(3));
    }

    private static void Check((double Ms, double Mv) found, double ms, double mv)
    {
        Assert.That(found.Ms, Is.EqualTo(ms).Within(2));
        Assert.That(found.Mv, Is.EqualTo(mv).Within(0.016));
    }

    // Our knobs from the model's angles, and the heights of its waves by themselves, factor × width² / ω.
    private static EcgBeat Fitted(ThreeOdeModel model)
    {
        const double Ms = 1000 / (2 * Math.PI);
        double Height(int wave) => ThreeOdeModel.TableOne[wave].Factor * Math.Pow(ThreeOdeModel.TableOne[wave].Width, 2) / (2 * Math.PI)
            * 1.6 / (model.Z.Max() - model.Z.Min());
        double edge = Math.Sqrt(2 * Math.Log(50));
        double qrs = 4 * ThreeOdeModel.TableOne[3].Angle * Ms;
        double pr = (-qrs / 2) - (ThreeOdeModel.TableOne[0].Angle * Ms) + (edge * 17.9);
        double qt = ((ThreeOdeModel.TableOne[4].Angle * Ms) + (qrs / 2)) / (1 - (0.1 * edge));
        KeyValues values = new KeyValues().Set(EcgKeys.QrsMs, qrs).Set(EcgKeys.PrMs, pr).Set(EcgKeys.QtcMs, qt)
            .Set(EcgKeys.PMv, Height(0)).Set(EcgKeys.QMv, Height(1)).Set(EcgKeys.RMv, Height(2)).Set(EcgKeys.SMv, Height(3)).Set(EcgKeys.TMv, Height(4));
        return new EcgShape(values).Lay(Plans.Normal(0, 1));
    }

    private static double Sum(in EcgBeat beat, double ms) => Plans.Voltage(beat, ms * 1e-3);
}
