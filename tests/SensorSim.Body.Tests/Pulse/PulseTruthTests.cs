// SPDX-License-Identifier: MIT
using SensorSim.Body.Pulse;
using SensorSim.Body.Tests.Support;

namespace SensorSim.Body.Tests.Pulse;

/// <summary>The true landmarks of the pulse against their definitions, searched for by brute force on the clean pulse at 1 MHz.</summary>
/// <remarks>
/// Derivatives are differences with h = 0.1 ms: smaller ones lose digits. Required: 10 µs. The waveform of the search holds the
/// later beats too, which the solver leaves out.
/// </remarks>
public sealed class PulseTruthTests
{
    private const double StepSeconds = 1e-6;
    private const int H = 100;
    private const double Required = 10e-6;

    [TestCaseSource(typeof(Cases), nameof(Cases.Names))]
    public void Landmarks_AgainstBruteForce_Within10Microseconds(string name)
    {
        var heart = new Heartbeats(Cases.Values(name), 12, 60);
        var random = new Random(4);
        for (int n = 0; n < 13; n++)
        {
            int id = random.Next(12, heart.Beats.Count - 6);
            PulseLandmarks truth = heart.Beats[id].Landmarks;
            PulseLandmarks found = Search(DirectWaves.Round(heart.Beats, id), truth);
            Assert.Multiple(() =>
            {
                Assert.That(truth.HasFoot, $"beat {id}");
                Assert.That(truth.FootMinimumSeconds, Is.EqualTo(found.FootMinimumSeconds).Within(Required), $"minimum, beat {id}");
                Assert.That(truth.SteepestSeconds, Is.EqualTo(found.SteepestSeconds).Within(Required), $"steepest, beat {id}");
                Assert.That(truth.FootTangentSeconds, Is.EqualTo(found.FootTangentSeconds).Within(Required), $"tangent, beat {id}");
                Assert.That(
                    truth.FootSecondDerivativeSeconds, Is.EqualTo(found.FootSecondDerivativeSeconds).Within(Required), $"curvature, beat {id}");
                Assert.That(truth.SystolicPeakSeconds, Is.EqualTo(found.SystolicPeakSeconds).Within(Required), $"peak, beat {id}");
                Assert.That(truth.HeightUnits, Is.EqualTo(found.HeightUnits).Within(1e-7), $"height, beat {id}");
            });
        }
    }

    // The pulse over the whole upstroke and 20 ms more on either side, once; every landmark is then a search in this list.
    private static PulseLandmarks Search(DirectWaves waves, PulseLandmarks truth)
    {
        // A third of a step off, so that no sample falls on the truth.
        double origin = truth.FootMinimumSeconds - 0.02 - ((H + 0.33) * StepSeconds);
        int count = (int)((truth.SystolicPeakSeconds + 0.02 - origin) / StepSeconds) + H;
        double[] v = new double[count];
        for (int i = 0; i < count; i++)
        {
            v[i] = waves.Pulse(origin + (i * StepSeconds));
        }

        double Slope(int i) => (v[i + H] - v[i - H]) / (2 * H * StepSeconds);
        double Curvature(int i) => (v[i + H] - (2 * v[i]) + v[i - H]) / (H * StepSeconds * H * StepSeconds);
        int Index(double seconds) => (int)Math.Round((seconds - origin) / StepSeconds);

        int window = (int)(0.02 / StepSeconds);
        int minimum = Largest(i => -v[i], Index(truth.FootMinimumSeconds) - window, Index(truth.FootMinimumSeconds) + window);
        int peak = Largest(i => v[i], minimum, count - H);
        int steepest = Largest(Slope, minimum, peak);
        int curved = Largest(Curvature, minimum, steepest);
        double at = origin + (steepest * StepSeconds);
        double foot = at - ((v[steepest] - v[minimum]) / Slope(steepest));
        return new PulseLandmarks(
            origin + (minimum * StepSeconds), foot, origin + (curved * StepSeconds), at, origin + (peak * StepSeconds), double.NaN, double.NaN, v[peak] - v[minimum], true);
    }

    private static int Largest(Func<int, double> value, int first, int last)
    {
        int best = first;
        double largest = double.NegativeInfinity;
        for (int i = first; i <= last; i++)
        {
            double x = value(i);
            (largest, best) = x > largest ? (x, i) : (largest, best);
        }

        return best;
    }
}
