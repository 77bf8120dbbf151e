// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>The shape at 60 bpm beside a published one: two Gaussians fitted to clear finger pulses (Tang et al., Sci Data 7, 2020, table 1).</summary>
/// <remarks>
/// First the table's own numbers are worked out, so that the reading of the formula is checked: values of the periodic sum at a
/// precision that only the right formula gives. Then our landmarks are compared: they must come in the same order and at roughly the same
/// place, no more: the template stands for the mean of many people, ours follows knobs.
/// </remarks>
public sealed class TemplateTests
{
    private static readonly (double A, double At, double B)[] s_excellent = [(1.0000, -1.5161, 0.6303), (0.1999, 0.8186, 1.0225)];
    private static readonly (double A, double At, double B)[] s_acceptable = [(0.7303, -1.5510, 0.7283), (0.5291, -0.2553, 1.2271)];

    // Minimum before the upstroke, 10 % of the rise, steepest point, peak; all in beats after θ = −π. Computed from the published
    // parameters, each Gaussian summed over θ − 2π, θ and θ + 2π.
    [TestCase("excellent", -0.0428, 0.03754, 0.0554, 0.15940, 0.26081, 1.01508)]
    [TestCase("acceptable", -0.0850, 0.05604, 0.0243, 0.14791, 0.28411, 1.05851)]
    public void Template_PeriodicSum_HasTheComputedLandmarks(
        string name, double minimumAt, double minimum, double tenthAt, double steepestAt, double peakAt, double peak)
    {
        Assert.Multiple(() =>
        {
            Assert.That(Extreme(x => -Value(name, x), -0.2, 0.1), Is.EqualTo(minimumAt).Within(1e-4));
            Assert.That(Value(name, minimumAt), Is.EqualTo(minimum).Within(1e-5));
            Assert.That(Crossing(name, minimum + (0.1 * (peak - minimum))), Is.EqualTo(tenthAt).Within(1e-4));
            Assert.That(Extreme(x => Value(name, x + 1e-5) - Value(name, x - 1e-5), 0, 0.25), Is.EqualTo(steepestAt).Within(2e-5));
            Assert.That(Extreme(x => Value(name, x), 0.1, 0.45), Is.EqualTo(peakAt).Within(2e-5));
            Assert.That(Value(name, peakAt), Is.EqualTo(peak).Within(1e-5));
        });
    }

    [Test]
    public void Template_Excellent_HasTheComputedNotchAndDiastolicPeak()
    {
        Assert.That(Extreme(x => -Value("excellent", x), 0.45, 0.6), Is.EqualTo(0.53621).Within(2e-5));
        Assert.That(Extreme(x => Value("excellent", x), 0.55, 0.75), Is.EqualTo(0.62391).Within(2e-5));
        Assert.That(Value("excellent", 0.53621), Is.EqualTo(0.19093).Within(1e-5));
        Assert.That(Value("excellent", 0.62391), Is.EqualTo(0.20107).Within(1e-5));
    }

    // Times after the foot by tangents, at 60 bpm. The template is broader (crest 197 ms against 120: it is an average), and its second
    // Gaussian later and lower. Hence only the order, and 100 ms.
    [Test]
    public void Contour_At60Bpm_HasItsLandmarksRoughlyWhereTheTemplateHasThem()
    {
        const double TemplateFoot = 0.0641;
        PulseLandmarks p = PulseSolver.Steady(new PulseSum(), new PulseContour(PulseSite.Finger, 7, 50, 1.7), 1, out double footValue);
        double[] ours =
        [
            p.FootMinimumSeconds, p.SteepestSeconds, p.SystolicPeakSeconds, p.DicroticNotchSeconds, p.DiastolicPeakSeconds,
        ];
        double[] template = [-0.0428, 0.15940, 0.26081, 0.53621, 0.62391];
        Assert.That(ours, Is.Ordered);
        Assert.That(p.FootTangentSeconds, Is.InRange(p.FootMinimumSeconds, p.SteepestSeconds));
        for (int i = 0; i < 3; i++)
        {
            Assert.That(ours[i] - p.FootTangentSeconds, Is.EqualTo(template[i] - TemplateFoot).Within(0.1), $"landmark {i}");
        }

        // From the systolic peak on: the diastolic wave begins within a quarter of a second and ends before the next foot.
        Assert.That(ours[3] - ours[2], Is.EqualTo(template[3] - template[2]).Within(0.15));
        Assert.That(ours[4] - ours[2], Is.EqualTo(template[4] - template[2]).Within(0.15));
        Assert.That(footValue, Is.InRange(0, 0.1));

        // Share of the pulse during which the wave is above half: the template's 0.36 of a second, ours within a third of that.
        Assert.That(HalfWidth(p), Is.EqualTo(0.258).Within(0.09));
    }

    // Time above half height round the systolic peak.
    private static double HalfWidth(PulseLandmarks p)
    {
        var contour = new PulseContour(PulseSite.Finger, 7, 50, 1.7);
        var sum = new PulseSum();
        PulseSolver.Steady(sum, contour, 1, out double foot);
        double half = foot + (0.5 * p.HeightUnits);
        double from = p.SystolicPeakSeconds;
        double to = p.SystolicPeakSeconds;
        while (sum.At(from).Value > half)
        {
            from -= 1e-4;
        }

        while (sum.At(to).Value > half)
        {
            to += 1e-4;
        }

        return to - from;
    }

    private static double Value(string name, double beats)
    {
        double theta = (2 * Math.PI * beats) - Math.PI;
        double sum = 0;
        foreach ((double a, double at, double b) in name == "excellent" ? s_excellent : s_acceptable)
        {
            for (int turn = -1; turn <= 1; turn++)
            {
                double x = (theta - at + (2 * Math.PI * turn)) / b;
                sum += a * Math.Exp(-x * x / 2);
            }
        }

        return sum;
    }

    private static double Crossing(string name, double level)
    {
        double x = 0.2;
        while (Value(name, x) > level)
        {
            x -= 1e-6;
        }

        return x;
    }

    private static double Extreme(Func<double, double> value, double low, double high) =>
        Enumerable.Range(0, (int)((high - low) * 1e5)).Select(i => low + (i * 1e-5)).MaxBy(value);
}
