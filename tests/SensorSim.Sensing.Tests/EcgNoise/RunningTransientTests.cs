// SPDX-License-Identifier: MIT
using SensorSim.Sensing.EcgNoise;

namespace SensorSim.Sensing.Tests.EcgNoise;

/// <summary>A transient drawn by recurrences against its definition, and cut anywhere.</summary>
public sealed class RunningTransientTests
{
    private const double Size = 1.7;

    // Some 1400, 140 and 14 samples of a transient.
    [Test]
    public void Draw_AnyForm_IsTheDefinition([Values] TransientShapeName shape, [Values(0.02, 0.2, 2)] double step)
    {
        TransientShape form = (TransientShape)shape;
        double x = TransientShapes.Begin(form) + (0.3 * step);
        double[] values = Whole(form, x, step);
        for (int i = 0; i < values.Length; i++)
        {
            // Roundings of the ratio gather with the square of the number of groups: 350² × 1e-16.
            Assert.That(values[i], Is.EqualTo(Size * TransientShapes.At(form, x + (i * step))).Within(2e-11), $"sample {i}");
        }

        Assert.That(values.Max(Math.Abs), Is.GreaterThan(0.1 * Size));
    }

    [Test]
    public void Draw_CutAnywhere_GivesTheSameBits([Values] TransientShapeName shape)
    {
        TransientShape form = (TransientShape)shape;
        double x = TransientShapes.Begin(form) + 0.01;
        double[] whole = Whole(form, x, 0.1);
        foreach (int[] lengths in new int[][] { [1], [3], [64], [5, 1, 2, 7, 4] })
        {
            var one = new RunningTransient(form, 0, whole.Length, x, 0.1, Size * TransientShapes.Scale(form));
            double[] cut = new double[whole.Length];
            int done = 0;
            for (int i = 0; done < cut.Length; i++)
            {
                int count = Math.Min(cut.Length - done, lengths[i % lengths.Length]);
                one.Draw(cut.AsSpan(done, count), 1);
                done += count;
            }

            Assert.That(cut, Is.EqualTo(whole), $"pieces of {string.Join(", ", lengths)}");
        }
    }

    /// <summary>The forms by name, for a test's arguments.</summary>
    public enum TransientShapeName
    {
        /// <summary>There and back.</summary>
        Biphasic = (int)TransientShape.Biphasic,

        /// <summary>A fast rise and an exponential fall.</summary>
        Exponential = (int)TransientShape.Exponential,

        /// <summary>Three phases.</summary>
        ThreePhase = (int)TransientShape.ThreePhase,
    }

    private static double[] Whole(TransientShape form, double x, double step)
    {
        double[] values = new double[(int)((TransientShapes.End(form) - x) / step)];
        var one = new RunningTransient(form, 0, values.Length, x, step, Size * TransientShapes.Scale(form));
        one.Draw(values, 1);
        return values;
    }
}
