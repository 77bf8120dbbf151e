// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Likeness, size and spread against plain double arithmetic.</summary>
[TestFixture]
public sealed class BeatTemplateTests
{
    [Test]
    public void Fit_AnySlopes_IsTheCorrelation()
    {
        var random = new Random(1);
        for (int round = 0; round < 200; round++)
        {
            Slopes16 a = Draw(random);
            Slopes16 b = Draw(random);
            for (int i = 0; i < Slopes16.Length; i++)
            {
                b[i] = (short)((b[i] + (round % 5 * a[i])) / 5);
            }

            var template = new BeatTemplate();
            template.Begin(a, 0);
            double dot = 0;
            double aa = 0;
            double bb = 0;
            for (int i = 0; i < Slopes16.Length; i++)
            {
                dot += a[i] * b[i];
                aa += a[i] * a[i];
                bb += b[i] * b[i];
            }

            int sum = template.Dot(b);
            Assert.That(template.Fit(sum, FixedPoint.IntegerRoot.Floor((uint)BeatTemplate.Energy(b))), Is.EqualTo(256 * dot / Math.Sqrt(aa * bb)).Within(0.8));
            Assert.That(template.SizeOf(sum, 3), Is.EqualTo(Math.Max(0, 8 * dot / Math.Sqrt(aa))).Within(2).Percent.Or.EqualTo(0).Within(20));
        }
    }

    [Test]
    public void SpreadOf_TwoEqualSlopes_IsTheSquareOfHalfTheirDistance()
    {
        for (int half = 1; half < 8; half++)
        {
            Slopes16 slopes = default;
            slopes[8 - half] = 3000;
            slopes[8 + half] = -3000;
            Assert.That(BeatTemplate.SpreadOf(slopes), Is.EqualTo(16 * half * half).Within(1));
        }
    }

    [Test]
    public void Weigh_StrangeInsideAUsualInterval_RaisesDoubtAndAPauseLowersIt()
    {
        BeatRhythm rhythm = default;
        for (int i = 0; i < 8; i++)
        {
            rhythm.Add(200);
        }

        var doubt = new BeatDoubt();
        doubt.Weigh(0, rhythm, isLearning: false);
        doubt.AddStrange();
        Assert.That(doubt.IsHigh, Is.False);
        doubt.Weigh(200 * 256, rhythm, isLearning: false);
        Assert.That(doubt.IsHigh, Is.True);
        int before = doubt.Value;
        doubt.AddStrange();
        doubt.Weigh(600 * 256, rhythm, isLearning: false);
        Assert.That(doubt.Value, Is.LessThan(before));
        for (int i = 4; i < 40; i++)
        {
            doubt.Weigh(i * 200L * 256, rhythm, isLearning: false);
        }

        Assert.That(doubt.Value, Is.Zero);
    }

    private static Slopes16 Draw(Random random)
    {
        Slopes16 slopes = default;
        for (int i = 0; i < Slopes16.Length; i++)
        {
            slopes[i] = (short)random.Next(-4096, 4097);
        }

        return slopes;
    }
}
