// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>When there is no pressure, and what trust there is else. Limits are choices of this project unless a source stands beside them.</summary>
[TestFixture]
public sealed class PressureRefusalTests
{
    private static readonly PressureCalibration s_one =
        PressureCalibration.OnePoint(PressureModel.Logarithmic, PressureForms.Cuff(120, 80, 200, spreadMs: 0.001, days: 10));

    private static readonly PressureCalibration s_two = PressureCalibration.TwoPoint(
        PressureModel.Logarithmic, PressureForms.Cuff(120, 80, 220, days: 10), PressureForms.Cuff(150, 92, 190, days: 10));

    private static IEnumerable<TestCaseData> Calibrations()
    {
        TestCaseData Case(string name, PressureCalibration c, PressureRefusal why) => new TestCaseData(c, why).SetArgDisplayNames(name);
        yield return Case("one point", s_one, PressureRefusal.None);
        yield return Case("two points", s_two, PressureRefusal.None);
        yield return Case("nothing", default, PressureRefusal.SettingOutOfRange);
        yield return Case("three points", s_one with { Points = 3 }, PressureRefusal.SettingOutOfRange);
        yield return Case("rising slope", s_one with { SlopeMilliMmHgPerMs = 500 }, PressureRefusal.SettingOutOfRange);
        yield return Case("no such form", s_one with { Model = (PressureModel)5 }, PressureRefusal.SettingOutOfRange);
        yield return Case("kPa", s_one with { First = PressureForms.Cuff(16, 10.7, 200) }, PressureRefusal.CuffImplausible);
        yield return Case("swapped", s_one with { First = PressureForms.Cuff(80, 120, 200) }, PressureRefusal.CuffImplausible);
        yield return Case("second swapped", s_two with { Second = PressureForms.Cuff(92, 150, 190) }, PressureRefusal.CuffImplausible);
        yield return Case("seconds", s_one with { First = PressureForms.Cuff(120, 80, 0.2) }, PressureRefusal.ArrivalImplausible);
        yield return Case("no rate", s_one with { SystolicPerBpmMilli = 100, First = PressureForms.Cuff(120, 80, 200, bpm: 0) }, PressureRefusal.HeartRateMissing);
        yield return Case("9 ms apart", s_two with { Second = PressureForms.Cuff(150, 92, 211.1) }, PressureRefusal.PointsTooClose);
        yield return Case("4 mmHg apart", s_two with { Second = PressureForms.Cuff(124, 92, 190) }, PressureRefusal.PointsTooClose);
        yield return Case("rises with the time", s_two with { Second = PressureForms.Cuff(105, 75, 190) }, PressureRefusal.SlopeImplausible);
        yield return Case("too steep", s_two with { Second = PressureForms.Cuff(160, 92, 205) }, PressureRefusal.SlopeImplausible);
        yield return Case("too flat", s_two with { Second = PressureForms.Cuff(126, 82, 160) }, PressureRefusal.SlopeImplausible);
        yield return Case("diastolic steeper", s_two with { Second = PressureForms.Cuff(135, 110, 190) }, PressureRefusal.SlopeImplausible);
        yield return Case("given slope too flat", s_one with { SlopeMilliMmHgPerMs = -149 }, PressureRefusal.SlopeImplausible);
    }

    [TestCaseSource(nameof(Calibrations))]
    public void Calibrate_OneThingWrong_SaysIt(PressureCalibration calibration, PressureRefusal why)
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(calibration), Is.EqualTo(why == PressureRefusal.None));
        Assert.That(estimator.Refusal, Is.EqualTo(why));
        if (why != PressureRefusal.None)
        {
            Assert.That(Refusal(estimator, PressureForms.Spot(200), days: 10), Is.EqualTo(PressureRefusal.NotCalibrated), "nothing is left of it");
        }
    }

    // Beyond the calibrated systolic pressures by up to 20 mmHg, diastolic by two thirds of that.
    [TestCase(200, 255, 10, PressureRefusal.None)]
    [TestCase(200, 0, 10, PressureRefusal.ArrivalMissing)]
    [TestCase(79.9, 255, 10, PressureRefusal.ArrivalImplausible)]
    [TestCase(450.1, 255, 10, PressureRefusal.ArrivalImplausible)]
    [TestCase(170, 255, 10, PressureRefusal.None)] // 19.1 mmHg more
    [TestCase(168, 255, 10, PressureRefusal.OutsideCalibratedRange)] // 20.5 mmHg more
    [TestCase(236, 255, 10, PressureRefusal.None)] // 19.5 mmHg less
    [TestCase(238, 255, 10, PressureRefusal.OutsideCalibratedRange)]
    [TestCase(200, 255, 9.99, PressureRefusal.TimeBeforeCalibration)]
    [TestCase(200, 255, 94, PressureRefusal.None)] // 84 days old
    [TestCase(200, 255, 94.01, PressureRefusal.CalibrationTooOld)]
    [TestCase(170, 255, 94, PressureRefusal.TooUncertain)] // old and far
    public void Estimate_OneThingWrong_SaysIt(double ms, int quality, double days, PressureRefusal why)
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one), Is.True);
        Assert.That(Refusal(estimator, PressureForms.Spot(ms, (byte)quality), days, spreadMs: 1), Is.EqualTo(why));
    }

    [Test]
    public void Estimate_OfASingleBeat_IsRefused()
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one), Is.True);
        Assert.That(Refusal(estimator, PressureForms.Spot(200) with { Kind = ReadingKind.Arrival }, 10), Is.EqualTo(PressureRefusal.ArrivalMissing));
    }

    [Test]
    public void Estimate_WithARateTerm_NeedsARateOfTheSameTime()
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one with { SystolicPerBpmMilli = 100 }), Is.True);
        Reading spot = PressureForms.Spot(200);
        PressureRefusal With(Reading rate)
        {
            _ = estimator.Estimate(spot, rate, 864_000, out _, out _);
            return estimator.Refusal;
        }

        Assert.That(With(PressureForms.Rate(60)), Is.EqualTo(PressureRefusal.None));
        Assert.That(With(PressureForms.Rate(60, spot.Ticks256 - spot.WindowTicks256)), Is.EqualTo(PressureRefusal.None));
        Assert.That(With(PressureForms.Rate(60, spot.Ticks256 - spot.WindowTicks256 - 1)), Is.EqualTo(PressureRefusal.HeartRateMissing));
        Assert.That(With(default), Is.EqualTo(PressureRefusal.HeartRateMissing));
        Assert.That(With(PressureForms.Rate(60) with { Kind = ReadingKind.Cadence }), Is.EqualTo(PressureRefusal.HeartRateMissing));
    }

    // Expected error e: 5.3² + (10.2² + 1.4² − 5.3²)/182 a day (Wong 2009) + distance² × 0.4², no spread; trust 51 (10 − e), at most 255.
    [TestCase(200, 0, 5.3)]
    [TestCase(200, 84, 8.0)]
    [TestCase(200, 42, 6.784)]
    [TestCase(185, 0, 6.453)] // 9.172 mmHg more
    public void Estimate_Trust_FollowsTheExpectedError(double ms, double ageDays, double error)
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one), Is.True);
        Assert.That(estimator.Estimate(PressureForms.Spot(ms), PressureForms.Spread(0), default, (long)((10 + ageDays) * 86_400), out Reading systolic, out _), Is.True);
        Assert.That(systolic.Quality, Is.EqualTo(51 * (10 - error)).Within(1.2), "floors to 0.01 mmHg and to whole numbers");
    }

    [Test]
    public void Estimate_Trust_FallsWithSpreadAndIsNeverAboveThatOfTheArrival()
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one), Is.True);
        byte Trust(double spreadMs, byte quality)
        {
            Assert.That(estimator.Estimate(PressureForms.Spot(200, quality), PressureForms.Spread(spreadMs), default, 864_000, out Reading systolic, out _), Is.True);
            return systolic.Quality;
        }

        // 0.588 mmHg/ms × 30 ms / 4 = 4.41: e = √(5.3² + 4.41²) = 6.895.
        Assert.That(Trust(30, 255), Is.EqualTo(51 * (10 - 6.895)).Within(1.2));
        Assert.That(Trust(10, 255), Is.InRange(Trust(30, 255) + 10, Trust(0, 255) - 1));
        Assert.That(Trust(0, 77), Is.EqualTo(77));
    }

    [Test]
    public void Estimate_PlaceAndWindow_AreThoseOfTheArrival()
    {
        PressureEstimator estimator = default;
        Assert.That(estimator.Calibrate(s_one), Is.True);
        Reading spot = PressureForms.Spot(200);
        Assert.That(estimator.Estimate(spot, default, 864_000, out Reading systolic, out Reading diastolic), Is.True);
        Assert.That((systolic.Ticks256, systolic.WindowTicks256), Is.EqualTo((spot.Ticks256, spot.WindowTicks256)));
        Assert.That((diastolic.Ticks256, diastolic.WindowTicks256), Is.EqualTo((spot.Ticks256, spot.WindowTicks256)));
    }

    [Test]
    public void Estimator_State_TakesAFewWords() => Assert.That(Unsafe.SizeOf<PressureEstimator>(), Is.LessThanOrEqualTo(64));

    private static PressureRefusal Refusal(PressureEstimator estimator, Reading spot, double days, double spreadMs = 8)
    {
        bool isThere = estimator.Estimate(spot, PressureForms.Spread(spreadMs), default, (long)(days * 86_400), out Reading systolic, out Reading diastolic);
        Assert.That(isThere, Is.EqualTo(estimator.Refusal == PressureRefusal.None));
        if (!isThere)
        {
            Assert.That((systolic, diastolic), Is.EqualTo((default(Reading), default(Reading))), "no value leaks out");
        }

        return estimator.Refusal;
    }
}
