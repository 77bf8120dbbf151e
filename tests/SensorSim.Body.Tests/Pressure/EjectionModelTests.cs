// SPDX-License-Identifier: MIT
using SensorSim.Body.Pressure;
using SensorSim.Body.Tests.Support;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;

namespace SensorSim.Body.Tests.Pressure;

/// <summary>Pre-ejection period.</summary>
public sealed class EjectionModelTests
{
    // 131 - 0.4 rate ms from QRS onset (Weissler et al. 1968, from memory).
    [TestCase(60, 107)]
    [TestCase(75, 101)]
    [TestCase(100, 91)]
    [TestCase(120, 83)]
    [TestCase(150, 71)]
    public void FromQrsOnset_Rate_FollowsWeissler(double rateBpm, double ms) =>
        Assert.That(new EjectionModel(Steady(), 1).FromQrsOnsetSeconds(5, rateBpm), Is.EqualTo(ms * 1e-3).Within(1e-9));

    [Test]
    public void FromQrsOnset_BeyondTheRangeOfTheRule_StaysAtItsEnds()
    {
        var model = new EjectionModel(Steady(), 1);
        Assert.That(model.FromQrsOnsetSeconds(5, 20), Is.EqualTo(0.119).Within(1e-9));
        Assert.That(model.FromQrsOnsetSeconds(5, 250), Is.EqualTo(0.059).Within(1e-9));
    }

    [Test]
    public void Contractility_SteppedDown_ShortensThePeriodFromThen()
    {
        KeyValues values = Steady().SetChanges(EjectionKeys.ContractilityMs, [new CourseChange(30, ChangeKind.Step, -20, 0)], []);
        var model = new EjectionModel(values, 1);
        Assert.That(model.FromQrsOnsetSeconds(29, 60), Is.EqualTo(0.107).Within(1e-9));
        Assert.That(model.FromQrsOnsetSeconds(31, 60), Is.EqualTo(0.087).Within(1e-9));
    }

    // Within one person at rest 1.6 to 12 ms (Kortekaas et al. 2018). Periods stated: 10 to 30 s.
    [TestCase(2)]
    [TestCase(8)]
    public void Variation_TwentyHours_HasTheSdOfTheKnobAndPeriodsOf10To30Seconds(double sdMs)
    {
        const double Step = 1;
        var all = new List<double>();
        var periods = new List<double>();
        for (ulong seed = 1; seed <= 10; seed++)
        {
            var model = new EjectionModel(new KeyValues().Set(EjectionKeys.PepVariationMs, sdMs), seed);
            double[] x = [.. Enumerable.Range(0, 7200).Select(i => (model.FromQrsOnsetSeconds(i * Step, 60) * 1e3) - 107)];
            all.AddRange(x);
            double last = double.NaN;
            for (int i = 1; i < x.Length; i++)
            {
                if (x[i - 1] < 0 && x[i] >= 0)
                {
                    double at = i - (x[i] / (x[i] - x[i - 1]));
                    if (!double.IsNaN(last))
                    {
                        periods.Add(at - last);
                    }

                    last = at;
                }
            }
        }

        // Correlation time about 1 / (2√π · 0.012 Hz) = 24 s: 3000 independent values, standard error 1.3 %.
        Assert.That(Moments.Sd(all), Is.EqualTo(sdMs).Within(0.052 * sdMs));
        Assert.That(Moments.Mean(all), Is.Zero.Within(4 * sdMs / Math.Sqrt(3000)));
        Assert.That(all.Max(Math.Abs), Is.LessThan(EjectionModel.LargestVariation * sdMs));
        Assert.That(periods.Count(p => p is > 10 and < 30), Is.GreaterThan(0.93 * periods.Count));
    }

    [Test]
    public void Variation_KnobDoubled_KeepsItsShape()
    {
        var small = new EjectionModel(new KeyValues().Set(EjectionKeys.PepVariationMs, 3), 9);
        var large = new EjectionModel(new KeyValues().Set(EjectionKeys.PepVariationMs, 6), 9);
        for (double t = 0; t < 100; t += 3.1)
        {
            Assert.That(large.FromQrsOnsetSeconds(t, 60) - 0.107, Is.EqualTo(2 * (small.FromQrsOnsetSeconds(t, 60) - 0.107)).Within(1e-12));
        }
    }

    private static KeyValues Steady() => new KeyValues().Set(EjectionKeys.PepVariationMs, 0);
}
