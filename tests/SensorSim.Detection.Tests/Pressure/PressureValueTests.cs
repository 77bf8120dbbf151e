// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>Values of the published forms: computed from their equations (Moens-Korteweg with Hughes 1979; Bramwell-Hill; Poon and Zhang 2005).</summary>
[TestFixture]
public sealed class PressureValueTests
{
    private static readonly int[] s_times = [160, 180, 190, 210, 220, 240];

    // 120 mmHg at 200 ms, ζ 0.017: a and b of each form and its values at 160 to 240 ms.
    [TestCase(PressureModel.Linear, 237.647, -0.588235, new[] { 143.53, 131.76, 125.88, 114.12, 108.24, 96.47 })]
    [TestCase(PressureModel.Logarithmic, 743.331, -117.647, new[] { 146.25, 132.40, 126.03, 114.26, 108.79, 98.55 })]
    [TestCase(PressureModel.Inverse, 2.35294, 23_529.41, new[] { 149.41, 133.07, 126.19, 114.40, 109.30, 100.39 })]
    [TestCase(PressureModel.InverseSquare, 61.17647, 2_352_941.0, new[] { 153.09, 133.80, 126.35, 114.53, 109.79, 102.03 })]
    public void Shape_OfEachForm_GivesTheTable(PressureModel model, double a, double b, double[] expected)
    {
        for (int i = 0; i < s_times.Length; i++)
        {
            double mmHg = 120 + (ArrivalShape.Times(-117_647, ArrivalShape.Q24(model, s_times[i] * 1000, 200_000)) / 1000.0);
            Assert.That(mmHg, Is.EqualTo(expected[i]).Within(0.0061), $"{model} at {s_times[i]} ms, rounded to 0.01");
            Assert.That(mmHg, Is.EqualTo(a + (b * PressureForms.Basis(model, s_times[i]))).Within(0.003), "by a and b, which are rounded too");
        }
    }

    [TestCase(PressureModel.Linear)]
    [TestCase(PressureModel.Logarithmic)]
    [TestCase(PressureModel.Inverse)]
    [TestCase(PressureModel.InverseSquare)]
    public void Shape_AnyTimes_IsWithinItsStatedError(PressureModel model) =>
        Gen.Select(Gen.Int[80_000, 450_000], Gen.Int[80_000, 450_000]).Sample((us, reference) =>
        {
            double ratio = (double)us / reference;
            double exact = model switch
            {
                PressureModel.Linear => ratio - 1,
                PressureModel.Inverse => 1 - (1 / ratio),
                PressureModel.InverseSquare => (1 - (1 / (ratio * ratio))) / 2,
                _ => Math.Log(ratio),
            };
            double steps = Math.Abs((ArrivalShape.Q24(model, us, reference) / (double)ArrivalShape.One) - exact) * ArrivalShape.One;
            return steps <= (model == PressureModel.InverseSquare ? 5 : 2);
        });

    // 120/80 at 220 ms and 150/92 at 190 ms; systolic at 205 ms from the table.
    [TestCase(PressureModel.Linear, 135.000)]
    [TestCase(PressureModel.Logarithmic, 134.451)]
    [TestCase(PressureModel.Inverse, 133.902)]
    [TestCase(PressureModel.InverseSquare, 133.357)]
    public void Estimate_TwoPoints_GivesTheTableAndBothEnds(PressureModel model, double expected)
    {
        PressureEstimator estimator = Calibrated(
            PressureCalibration.TwoPoint(model, PressureForms.Cuff(120, 80, 220), PressureForms.Cuff(150, 92, 190)));

        (double systolic, double diastolic) = At(estimator, 205);
        Assert.That(systolic, Is.EqualTo(expected).Within(0.0016));
        Assert.That(diastolic, Is.EqualTo(80 + ((expected - 120) * 12 / 30)).Within(0.002), "same curve, other height");
        Assert.That(At(estimator, 220), Is.EqualTo((120.0, 80.0)));
        Assert.That(At(estimator, 190).Systolic, Is.EqualTo(150).Within(0.0011));
        Assert.That(At(estimator, 190).Diastolic, Is.EqualTo(92).Within(0.0011));
    }

    // −2 / (ζ T); ζ 0.017 at 100 to 300 ms, 0.016 and 0.018 at 200 ms.
    [TestCase(17_000, 100, -1.176)]
    [TestCase(17_000, 150, -0.784)]
    [TestCase(17_000, 200, -0.588)]
    [TestCase(17_000, 250, -0.471)]
    [TestCase(17_000, 300, -0.392)]
    [TestCase(16_000, 200, -0.625)]
    [TestCase(18_000, 200, -0.556)]
    public void Slope_OnePoint_IsThePublishedSensitivity(int zetaMicro, double ms, double expected)
    {
        foreach (PressureModel model in Enum.GetValues<PressureModel>())
        {
            PressureEstimator estimator = Calibrated(
                PressureCalibration.OnePoint(model, PressureForms.Cuff(120, 80, ms)) with { ZetaMicroPerMmHg = zetaMicro });
            Assert.That(estimator.SlopeMilliMmHgPerMs / 1000.0, Is.EqualTo(expected).Within(0.00051), $"{model}");
        }
    }

    [Test]
    public void Slope_Given_IsTaken()
    {
        PressureEstimator estimator = Calibrated(
            PressureCalibration.OnePoint(PressureModel.Linear, PressureForms.Cuff(120, 80, 250)) with { SlopeMilliMmHgPerMs = -900, DiastolicSharePermille = 500 });
        Assert.That(At(estimator, 240), Is.EqualTo((129.0, 84.5)));
    }

    // M0 93.33, PP0 40, T0 200, ζ 0.017. The table rounds M0, which is 93.3333 here: 0.0033 mmHg more.
    [TestCase(180, 138.647, 89.264)]
    [TestCase(220, 104.156, 71.098)]
    [TestCase(200, 120, 80)]
    public void Estimate_PulsePressure_GivesTheTable(double ms, double systolic, double diastolic)
    {
        PressureEstimator estimator = Calibrated(PressureCalibration.OnePoint(PressureModel.PulsePressure, PressureForms.Cuff(120, 80, 200)));
        Assert.That(At(estimator, ms).Systolic, Is.EqualTo(systolic).Within(0.0045));
        Assert.That(At(estimator, ms).Diastolic, Is.EqualTo(diastolic).Within(0.0045));
    }

    // The mean goes through both points, 93.333 and 111.333; the pulse pressure follows 1 / T² from the first: 40 x (220/190)² = 53.629.
    [Test]
    public void Estimate_PulsePressureByTwoPoints_FitsTheMean()
    {
        PressureEstimator estimator = Calibrated(
            PressureCalibration.TwoPoint(PressureModel.PulsePressure, PressureForms.Cuff(120, 80, 220), PressureForms.Cuff(150, 92, 190)));
        Assert.That(At(estimator, 190).Systolic, Is.EqualTo(111.333 + (53.629 * 2 / 3)).Within(0.003));
        Assert.That(At(estimator, 190).Diastolic, Is.EqualTo(111.333 - (53.629 / 3)).Within(0.003));
    }

    // Ten ms of pre-ejection period read as transit time at 240 ms: 5.0 mmHg by the logarithm, 4.9 by the line.
    [TestCase(PressureModel.Logarithmic, 5.007)]
    [TestCase(PressureModel.Linear, 4.902)]
    public void Estimate_TenMillisecondsLess_IsFiveMmHgMore(PressureModel model, double expected)
    {
        PressureEstimator estimator = Calibrated(PressureCalibration.OnePoint(model, PressureForms.Cuff(120, 80, 240)));
        Assert.That(At(estimator, 230).Systolic - 120, Is.EqualTo(expected).Within(0.0016));
    }

    [Test]
    public void Estimate_RateTerm_CountsFromTheCalibrationsRate()
    {
        PressureCalibration calibration = PressureCalibration.TwoPoint(
            PressureModel.Linear, PressureForms.Cuff(120, 80, 220, bpm: 60), PressureForms.Cuff(150, 92, 190, bpm: 90))
            with { SystolicPerBpmMilli = 300, DiastolicPerBpmMilli = -100 };
        PressureEstimator estimator = Calibrated(calibration);

        // Of the 30 mmHg nine are the rate's; 21 over 30 ms remain. Both points must come out again.
        Assert.That(At(estimator, 220, 60), Is.EqualTo((120.0, 80.0)));
        Assert.That(At(estimator, 190, 90).Systolic, Is.EqualTo(150).Within(0.0011));
        Assert.That(At(estimator, 190, 90).Diastolic, Is.EqualTo(92).Within(0.0011));
        Assert.That(At(estimator, 210, 75).Systolic, Is.EqualTo(120 + 7 + 4.5).Within(0.0011));
    }

    // Any calibration that holds, any form: the same as a and b in floating point.
    [Test]
    public void Estimate_AnyCalibration_MatchesFloatingPoint() =>
        Gen.Select(Gen.Int[0, 3], Gen.Double[150, 300], Gen.Double[11, 40], Gen.Double[0.3, 1.2], Gen.Double[0, 1]).Sample((form, ms, apart, slope, where) =>
        {
            var model = (PressureModel)form;
            CuffPoint first = PressureForms.Cuff(120, 80, ms);
            CuffPoint second = PressureForms.Cuff(120 + (slope * apart), 80 + (slope * apart / 2), ms - apart);
            PressureEstimator estimator = default;
            if (!estimator.Calibrate(PressureCalibration.TwoPoint(model, first, second)))
            {
                return estimator.Refusal == PressureRefusal.PointsTooClose && second.SystolicMilli - first.SystolicMilli < 5_000;
            }

            double g0 = PressureForms.Basis(model, first.ArrivalUs / 1000.0);
            double b = (second.SystolicMilli - first.SystolicMilli) / 1000.0 / (PressureForms.Basis(model, second.ArrivalUs / 1000.0) - g0);
            int us = second.ArrivalUs + (int)(where * (first.ArrivalUs - second.ArrivalUs));
            double expected = 120 + (b * (PressureForms.Basis(model, us / 1000.0) - g0));
            return Math.Abs(At(estimator, us / 1000.0).Systolic - expected) < 0.0025;
        });

    private static PressureEstimator Calibrated(PressureCalibration calibration)
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(calibration), Is.True, $"{estimator.Refusal}");
        return estimator;
    }

    private static (double Systolic, double Diastolic) At(PressureEstimator estimator, double ms, double bpm = 60)
    {
        bool isThere = estimator.Estimate(PressureForms.Spot(ms), PressureForms.Rate(bpm), 0, out Reading systolic, out Reading diastolic);
        Assert.That(isThere, Is.True, $"{estimator.Refusal} at {ms} ms");
        Assert.That(systolic.Kind, Is.EqualTo(ReadingKind.Systolic));
        Assert.That(diastolic.Kind, Is.EqualTo(ReadingKind.Diastolic));
        return (systolic.ValueMilli / 1000.0, diastolic.ValueMilli / 1000.0);
    }
}
