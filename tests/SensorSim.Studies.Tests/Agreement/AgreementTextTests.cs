// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Studies.Agreement;

namespace SensorSim.Studies.Tests.Agreement;

[TestFixture]
public sealed class AgreementTextTests
{
    // By hand: differences 2, 4, −1, 3: mean 2, SD √(14/3) = 2.16, mean size 2.5, root mean square √7.5 = 2.74; truth moves 0, 0, −10, −10 from 120: √50 = 7.07.
    // Subject means 3 and 1: SD √2 = 1.41. Limits 5 and 8 mmHg and 85 subjects: ISO 81060-2, second-hand.
    [Test]
    public void Of_Pressure_SaysCriteriaSharesAndChange()
    {
        var pairs = new ReadingPairs(MarkKind.SystolicMmhg);
        pairs.Add(new ReadingPair(0, 0, 0, 120, 122));
        pairs.Add(new ReadingPair(0, 1, 0, 120, 124));
        pairs.Add(new ReadingPair(1, 0, 1, 110, 109));
        pairs.Add(new ReadingPair(1, 1, 1, 110, 113));
        string text = AgreementText.Of(AgreementFigures.Of(pairs, _ => 120));
        Assert.That(text, Does.Contain("2.0 ± 2.2 mmHg, met"));
        Assert.That(text, Does.Contain("1.41, met; 2 of the 85 subjects"));
        Assert.That(text, Does.Contain("Within 5, 10, 15 mmHg: 100, 100, 100 % (grade A); mean absolute difference 2.50 mmHg (grade A)."));
        Assert.That(text, Does.Contain("off by 2.7 mmHg (root mean square), the value of the latest cuff repeated by 7.1 mmHg: changes are tracked."));
    }

    [Test]
    public void Of_PressureThatNeverMoves_SaysSo()
    {
        var pairs = new ReadingPairs(MarkKind.SystolicMmhg);
        pairs.Add(new ReadingPair(0, 0, 0, 140, 119));
        pairs.Add(new ReadingPair(1, 0, 1, 100, 121));
        Assert.That(AgreementText.Of(AgreementFigures.Of(pairs, _ => 120)), Does.Contain("not met").And.Contain("NO better than never moving"));
    }

    // The constructed example of eight saturations: A_rms 1.45774 points (recomputed outside of the project).
    [Test]
    public void Of_Saturation_SaysRootMeanSquareByBands()
    {
        var pairs = new ReadingPairs(MarkKind.Spo2Percent);
        double[] read = [97, 95, 90, 86, 82, 77, 73, 98];
        double[] truth = [96, 96, 88, 85, 84, 75, 74, 99];
        for (int i = 0; i < read.Length; i++)
        {
            pairs.Add(new ReadingPair(i, 0, i, truth[i], read[i]));
        }

        Assert.That(AgreementText.Of(AgreementFigures.Of(pairs)), Does.StartWith("A_rms 1.46 points over 70 to 100 % (70 to 80 %: 1.58; 80 to 90 %: 1.73; 90 to 100 %: 1.00)"));
    }

    [Test]
    public void Of_HeartRate_SaysNothing()
    {
        var pairs = new ReadingPairs(MarkKind.HeartRateBpm);
        pairs.Add(new ReadingPair(0, 0, 0, 70, 71));
        Assert.That(AgreementText.Of(AgreementFigures.Of(pairs)), Is.Empty);
    }
}
