// SPDX-License-Identifier: MIT
using SensorSim.Detection.Movement;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Tests.Movement;

/// <summary>The integer step of normalised LMS against a floating-point twin, and both against closed forms.</summary>
[TestFixture]
public sealed class NormalisedStepTests
{
    private const double One = 1 << 20;

    [Test]
    public void Twin_ExactNormaliser_GivesTheWorkedExample()
    {
        // Two taps, h = (0.5, −0.25), x = 1, 2, −1, 0.5, μ = 0.5, ε = 0.001: own arithmetic from w += μ e x / (ε + x'x).
        double[] errors = Twin(power => power + 1e-3, out double[] weights);
        Assert.That(errors, Is.EqualTo(new[] { 0.5, 0.2505, -0.75025, 0.1876 }).Within(1e-4));
        Assert.That(weights, Is.EqualTo(new[] { 0.41234, -0.199955 }).Within(1e-5));
    }

    [Test]
    public void Learn_WorkedExample_FollowsTheTwinWithThePowerOfTwo()
    {
        // 1 of the example = 2^14 units of the functions and 2^20 of the error; weights have 20 bits and stand for 2^20 / 2^14 more.
        const double Unit = 1 << 14;
        double[] errors = Twin(power => Math.Pow(2, Math.Floor(Math.Log2(power)) + 1), out double[] expected);
        Word12 weights = default;
        double[] x = [0, 1, 2, -1, 0.5];
        for (int n = 0; n < 4; n++)
        {
            Word12 functions = default;
            functions[0] = (int)(x[n + 1] * Unit);
            functions[1] = (int)(x[n] * Unit);
            int desired = (int)(((0.5 * x[n + 1]) - (0.25 * x[n])) * One);
            int error = desired - NormalisedStep.Estimate(weights, functions);
            long power = ((long)functions[0] * functions[0]) + ((long)functions[1] * functions[1]);
            NormalisedStep.Learn(ref weights, functions, 0, 2, error, Wide.Bits(power), 1);
            Assert.That(error / One, Is.EqualTo(errors[n]).Within(2e-6));
        }

        // A weight of 1 of the example: 2^20 codes for 2^14 units, with 20 bits behind the point.
        double scale = One / Unit * (1 << NormalisedStep.WeightBits);
        Assert.That(weights[0] / scale, Is.EqualTo(expected[0]).Within(2e-6));
        Assert.That(weights[1] / scale, Is.EqualTo(expected[1]).Within(2e-6));
    }

    [TestCase(1)]
    [TestCase(3)]
    [TestCase(6)]
    public void Learn_AnyPower_EffectiveStepIsBetweenHalfMuAndMu(int stepShift)
    {
        var random = new Random(5010);
        double mu = Math.Pow(2, -stepShift);
        double least = 1;
        double most = 0;
        for (int trial = 0; trial < 4000; trial++)
        {
            Word12 functions = default;
            double size = Math.Pow(2, 9 + (8 * random.NextDouble()));
            long power = 0;
            for (int i = 0; i < Word12.Length; i++)
            {
                functions[i] = (int)(size * SyntheticEcg.Normal(random));
                power += (long)functions[i] * functions[i];
            }

            // e after the step = e (1 − effective step), by definition of the normalised step.
            Word12 weights = default;
            const int Error = 1 << 22;
            NormalisedStep.Learn(ref weights, functions, 0, Word12.Length, Error, Wide.Bits(power), stepShift);
            double step = NormalisedStep.Estimate(weights, functions) / (double)Error;
            least = Math.Min(least, step);
            most = Math.Max(most, step);
        }

        Assert.That(least, Is.InRange(mu * 0.4995, mu * 0.52));
        Assert.That(most, Is.InRange(mu * 0.98, mu * 1.0005));
    }

    [TestCase(0)]
    [TestCase(1)]
    [TestCase(3)]
    public void Learn_WhiteFunctionsAndNoise_HasTheMisadjustmentOfTheClosedForm(int stepShift)
    {
        // ±1024 on twelve functions: power 12 × 2^20, so μ is 12/16 of 2^−shift. Excess over noise: μ / (2 − μ) (Haykin, from memory).
        const int Sigma = 20_000;
        double mu = 0.75 * Math.Pow(2, -stepShift);
        var random = new Random(5011);
        Word12 weights = default;
        double excess = 0;
        const int Count = 200_000;
        for (int n = 0; n < Count + 2000; n++)
        {
            Word12 functions = Signs(random);
            int estimate = NormalisedStep.Estimate(weights, functions);
            int error = (int)Math.Round(Sigma * SyntheticEcg.Normal(random)) - estimate;
            NormalisedStep.Learn(ref weights, functions, 0, Word12.Length, error, 24, stepShift);
            excess += n < 2000 ? 0 : (double)estimate * estimate;
        }

        // 200,000 steps with a memory of 12 / μ (2 − μ): four standard errors are 2 to 3 %.
        double misadjustment = excess / Count / ((double)Sigma * Sigma);
        Assert.That(misadjustment, Is.EqualTo(mu / (2 - mu)).Within(0.03 * mu / (2 - mu)));
    }

    [TestCase(1)]
    [TestCase(3)]
    [TestCase(5)]
    public void Learn_WhiteFunctions_ConvergesAsTheClosedForm(int stepShift)
    {
        // Power of the weights' error falls by 1 − μ (2 − μ) / 12 a step.
        double mu = 0.75 * Math.Pow(2, -stepShift);
        double perStep = 1 - (mu * (2 - mu) / Word12.Length);
        int steps = (int)Math.Round(Math.Log(0.01) / Math.Log(perStep));
        var random = new Random(5012);
        double left = 0;
        const int Trials = 200;
        for (int trial = 0; trial < Trials; trial++)
        {
            Word12 weights = default;
            Word12 truth = default;
            for (int i = 0; i < Word12.Length; i++)
            {
                truth[i] = random.Next(2) == 0 ? 100 << 20 : -(100 << 20);
            }

            for (int n = 0; n < steps; n++)
            {
                Word12 functions = Signs(random);
                int error = NormalisedStep.Estimate(truth, functions) - NormalisedStep.Estimate(weights, functions);
                NormalisedStep.Learn(ref weights, functions, 0, Word12.Length, error, 24, stepShift);
            }

            for (int i = 0; i < Word12.Length; i++)
            {
                left += Math.Pow((weights[i] - truth[i]) / (100.0 * One), 2) / Word12.Length / Trials;
            }
        }

        // −20 dB by definition of the number of steps; the mean over 200 trials scatters by a few per cent.
        Assert.That(left, Is.EqualTo(0.01).Within(0.002));
    }

    [Test]
    public void Learn_ErrorAtTheRailForLong_ClipsTheWeights()
    {
        Word12 weights = default;
        Word12 functions = default;
        functions[0] = 3;
        for (int n = 0; n < 100_000; n++)
        {
            NormalisedStep.Learn(ref weights, functions, 0, 1, NormalisedStep.EstimateRail, Wide.Bits(9), 0);
        }

        Assert.That(weights[0], Is.EqualTo(NormalisedStep.WeightRail));
    }

    [Test]
    public void EstimateAndLearn_AnySizes_ArePlainSumsAndOneByOne()
    {
        var random = new Random(5013);
        Word12 weights = default;
        int clipped = 0;
        for (int trial = 0; trial < 20_000; trial++)
        {
            Word12 functions = default;
            long sum = 0;
            for (int i = 0; i < Word12.Length; i++)
            {
                functions[i] = random.Next(8) == 0 ? -(1 << 20) : random.Next(-(1 << 20), 1 << 20) >> random.Next(20);
                weights[i] = trial % 7 == 0 ? random.Next(-NormalisedStep.WeightRail, NormalisedStep.WeightRail) >> random.Next(24) : weights[i];
                sum += (long)weights[i] * functions[i];
            }

            long rounded = (sum + (1 << (NormalisedStep.WeightBits - 1))) >> NormalisedStep.WeightBits;
            Assert.That(NormalisedStep.Estimate(weights, functions), Is.EqualTo(Math.Clamp(rounded, -NormalisedStep.EstimateRail, NormalisedStep.EstimateRail)));

            int error = random.Next(16) == 0 ? int.MinValue : random.Next(int.MinValue, int.MaxValue) >> random.Next(6, 30);
            int bits = random.Next(0, 64);
            int stepShift = random.Next(0, 16);
            Word12 alone = weights;
            for (int i = 0; i < Word12.Length; i++)
            {
                NormalisedStep.Learn(ref alone, functions, i, 1, error, bits, stepShift);
            }

            for (int axis = 0; axis < 3; axis++)
            {
                NormalisedStep.Learn(ref weights, functions, 4 * axis, 4, error, bits, stepShift);
            }

            for (int i = 0; i < Word12.Length; i++)
            {
                Assert.That(weights[i], Is.EqualTo(alone[i]), $"trial {trial}, weight {i}");
                clipped += Math.Abs(weights[i]) == NormalisedStep.WeightRail ? 1 : 0;
            }
        }

        Assert.That(clipped, Is.InRange(1000, 200_000));
    }

    private static Word12 Signs(Random random)
    {
        Word12 functions = default;
        for (int i = 0; i < Word12.Length; i++)
        {
            functions[i] = random.Next(2) == 0 ? 1024 : -1024;
        }

        return functions;
    }

    private static double[] Twin(Func<double, double> normaliser, out double[] weights)
    {
        weights = [0, 0];
        var errors = new double[4];
        double[] x = [0, 1, 2, -1, 0.5];
        for (int n = 0; n < 4; n++)
        {
            double desired = (0.5 * x[n + 1]) - (0.25 * x[n]);
            errors[n] = desired - (weights[0] * x[n + 1]) - (weights[1] * x[n]);
            double step = 0.5 * errors[n] / normaliser((x[n + 1] * x[n + 1]) + (x[n] * x[n]));
            weights[0] += step * x[n + 1];
            weights[1] += step * x[n];
        }

        return errors;
    }
}
