// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Body.Pressure;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Pressure;

/// <summary>Arterial pressure over time.</summary>
public sealed class PressureModelTests
{
    // Mean = diastolic + pulse pressure / 3 (textbook rule, from memory): 120/80 -> 93.33.
    [Test]
    public void Pressure_NoWaves_IsThatOfTheKnobs()
    {
        PressureState state = Model(Calm()).At(17);
        Assert.That((state.SystolicMmhg, state.DiastolicMmhg), Is.EqualTo((120.0, 80.0)));
        Assert.That(state.MeanMmhg, Is.EqualTo(93.33).Within(0.005));
    }

    [TestCase(3)]
    [TestCase(12)]
    public void RespiratoryWave_TenMinutes_HasThePeakToPeakSizeOfTheKnobAndFallsOnInspiration(double peakToPeak)
    {
        KeyValues values = Calm().Set(PressureKeys.RespiratoryMmhg, peakToPeak);
        var breathing = new BreathingModel(values, 3);
        var model = new PressureModel(values, 3, breathing);
        double[] times = [.. Enumerable.Range(0, 12000).Select(i => i * 0.05)];
        double[] diastolic = [.. times.Select(t => model.At(t).DiastolicMmhg)];

        // A breath of 4 s looked at every 0.05 s: the crest is missed by less than 1 - cos(0.04) of it.
        Assert.That(diastolic.Max() - diastolic.Min(), Is.EqualTo(peakToPeak).Within(0.001 * peakToPeak));
        Assert.That(times.Select(t => model.At(t).DiastolicMmhg - 80 + (peakToPeak / 2 * breathing.Depth(t))), Is.All.EqualTo(0).Within(1e-12));
        Assert.That(times.Select(t => model.At(t)).Select(p => p.SystolicMmhg - p.DiastolicMmhg), Is.All.EqualTo(40).Within(1e-12));
    }

    // Crests of a narrow Gaussian band lie on its envelope: mean crest to trough = 2 √(π/2) standard deviations (Rice 1944, from memory); rate
    // of upward zero crossings = √(second moment of the spectrum / power) = √(0.1² + 0.01²) Hz (same).
    [Test]
    public void MayerWave_FortyHours_HasTheMeanCrestToTroughOfTheKnobAtATenthOfAHertz()
    {
        const double Step = 0.25;
        const int Count = 57600;
        double sizes = 0;
        int waves = 0;
        int crossings = 0;
        double squares = 0;
        for (ulong seed = 1; seed <= 10; seed++)
        {
            PressureModel model = Model(Calm().Set(PressureKeys.MayerMmhg, 4), seed);
            double[] x = [.. Enumerable.Range(0, Count).Select(i => model.At(i * Step).DiastolicMmhg - 80)];
            squares += x.Sum(v => v * v) / Count / 10;
            double crest = double.NaN;
            for (int i = 1; i < Count - 1; i++)
            {
                crossings += x[i - 1] < 0 && x[i] >= 0 ? 1 : 0;
                if (x[i] > x[i - 1] && x[i] >= x[i + 1])
                {
                    crest = x[i];
                }
                else if (x[i] < x[i - 1] && x[i] <= x[i + 1] && !double.IsNaN(crest))
                {
                    sizes += crest - x[i];
                    waves++;
                }
            }
        }

        // About 40 h / 30 s = 4800 independent waves of relative spread 0.52: four standard errors are 3 %.
        Assert.That(waves, Is.GreaterThan(13000));
        Assert.That(sizes / waves, Is.EqualTo(4).Within(0.12));
        Assert.That(Math.Sqrt(squares), Is.EqualTo(4 / Math.Sqrt(2 * Math.PI)).Within(0.05));
        Assert.That(crossings / (10 * Count * Step), Is.EqualTo(Math.Sqrt(0.0101)).Within(0.002));
    }

    [Test]
    public void MayerWave_OtherKnobsTurned_KeepsItsShape()
    {
        PressureModel small = Model(Calm().Set(PressureKeys.MayerMmhg, 2));
        PressureModel large = Model(Calm().Set(PressureKeys.MayerMmhg, 6).Set(PressureKeys.DiastolicMmhg, 70).Set(PressureKeys.PulsePressureMmhg, 60));
        for (double t = 0; t < 300; t += 7.3)
        {
            Assert.That(large.At(t).DiastolicMmhg - 70, Is.EqualTo(3 * (small.At(t).DiastolicMmhg - 80)).Within(1e-10));
        }
    }

    // A fall above 10 % makes a "dipper" (Viera et al. 2011); 11/8 mmHg of 120/80 (Morris et al. 2013) are 9 to 10 %.
    [Test]
    public void Night_TenPercent_LowersBothPressuresByATenthAndComesBack()
    {
        PressureModel model = Model(Calm().Set(PressureKeys.CircadianDipPercent, 10).Set(PressureKeys.TimeOfDayH, 22));
        PressureState night = model.At(5 * 3600);
        Assert.That((night.SystolicMmhg, night.DiastolicMmhg), Is.EqualTo((108.0, 72.0)).Using<(double A, double B)>(Close));
        for (int day = 0; day < 8; day++)
        {
            Assert.That(model.At(((day * 24) + 14) * 3600).DiastolicMmhg, Is.EqualTo(80).Within(1e-12), "noon");
            Assert.That(model.At(((day * 24) + 5) * 3600).DiastolicMmhg, Is.EqualTo(72).Within(1e-12), "three o'clock");
            Assert.That(model.At(((day * 24) + 0.5) * 3600).DiastolicMmhg, Is.EqualTo(76).Within(1e-9), "half past ten, halfway down");
        }

        Assert.That(model.At(-3600).DiastolicMmhg, Is.GreaterThan(model.At(0).DiastolicMmhg), "before the start it was earlier in the evening");
    }

    [Test]
    public void DayCurve_RoundTheClock_IsPeriodicAndSmooth()
    {
        // Steepest second derivative of the step of degree five: 10/√3 over the square of three hours.
        const double H = 1e-3;
        double largest = 0;
        for (double t = -30; t < 60; t += 0.0137)
        {
            double bend = (DayCurve.Night(t - H) - (2 * DayCurve.Night(t)) + DayCurve.Night(t + H)) / (H * H);
            largest = Math.Max(largest, Math.Abs(bend));
            Assert.That(DayCurve.Night(t), Is.InRange(0, 1));
            Assert.That(DayCurve.Night(t + 24), Is.EqualTo(DayCurve.Night(t)).Within(1e-9));
        }

        Assert.That(largest, Is.EqualTo(10 / Math.Sqrt(3) / 9).Within(0.005));
        Assert.That(DayCurve.Night(22.5), Is.EqualTo(0.5).Within(1e-12));
    }

    [Test]
    public void Drift_OneWeek_AddsTheKnobAndFollowsItsCourse()
    {
        Assert.That(Model(Calm().Set(PressureKeys.DriftMmhgPerWeek, 5)).At(7 * 86400).DiastolicMmhg, Is.EqualTo(85).Within(1e-9));
        Assert.That(Model(Calm().Set(PressureKeys.DriftMmhgPerWeek, 5)).At(3.5 * 86400).SystolicMmhg, Is.EqualTo(122.5).Within(1e-9));

        // The drift stops after a day: a seventh of 7.
        KeyValues stops = Calm().Set(PressureKeys.DriftMmhgPerWeek, 7)
            .SetChanges(PressureKeys.DriftMmhgPerWeek, [new CourseChange(86400, ChangeKind.Step, 0, 0)], []);
        Assert.That(Model(stops).At(20 * 86400).DiastolicMmhg, Is.EqualTo(81).Within(1e-9));
    }

    [Test]
    public void Courses_RampAndStep_AreFollowed()
    {
        KeyValues values = Calm()
            .SetChanges(PressureKeys.DiastolicMmhg, [new CourseChange(10, ChangeKind.Ramp, 100, 20)], [])
            .SetChanges(PressureKeys.PulsePressureMmhg, [new CourseChange(40, ChangeKind.Step, 60, 0)], []);
        PressureModel model = Model(values);
        Assert.That(model.At(20), Is.EqualTo(new PressureState(90, 130)));
        Assert.That(model.At(40), Is.EqualTo(new PressureState(100, 160)));
    }

    [Test]
    public void Diastolic_DriftedFarDown_IsHeldAtTenMmhg()
    {
        PressureState state = Model(Calm().Set(PressureKeys.DriftMmhgPerWeek, -20)).At(10 * 7 * 86400);
        Assert.That(state, Is.EqualTo(new PressureState(10, 50)));
    }

    private static int Close((double A, double B) x, (double A, double B) y) =>
        Math.Abs(x.A - y.A) + Math.Abs(x.B - y.B) < 1e-9 ? 0 : 1;

    private static KeyValues Calm() => new KeyValues().Set(PressureKeys.RespiratoryMmhg, 0).Set(PressureKeys.MayerMmhg, 0);

    private static PressureModel Model(KeyValues values, ulong seed = 3) => new(values, seed, new BreathingModel(values, seed));
}
