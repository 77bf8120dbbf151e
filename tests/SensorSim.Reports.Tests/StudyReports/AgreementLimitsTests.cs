// SPDX-License-Identifier: MIT
using SensorSim.Reports.StudyReports;

namespace SensorSim.Reports.Tests.StudyReports;

public class AgreementLimitsTests
{
    // Peak flow by two meters, 17 subjects, l/min. Source: Bland JM, Altman DG, Lancet i:307-310, 1986 (first readings).
    private static readonly double[] s_wright = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
    private static readonly double[] s_mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

    // Published: mean difference −2.1, SD 38.8. With more digits, and with 1.96 in place of the paper's 2: recomputed from the data outside of this
    // project: mean −2.117647, SD 38.765130, limits −78.0973 and 73.8620, standard error of the mean 9.401925, of a limit (1999 form) 16.395108.
    [Test]
    public void OfIndependent_PublishedPeakFlow_GivesThePublishedLimits()
    {
        AgreementLimits limits = AgreementLimits.OfIndependent(s_wright.Zip(s_mini, (w, m) => new AgreementPair(0, m, w)))!;
        Assert.That(limits.Bias, Is.EqualTo(-2.117647).Within(1e-6));
        Assert.That(limits.Low, Is.EqualTo(-78.0973).Within(1e-3));
        Assert.That(limits.High, Is.EqualTo(73.8620).Within(1e-3));
        Assert.That((limits.BiasInterval!.Value.High - limits.Bias) / 1.959964, Is.EqualTo(9.401925).Within(1e-5));
        Assert.That((limits.HighInterval!.Value.High - limits.High) / 1.959964, Is.EqualTo(16.395108).Within(1e-4));
        Assert.That((limits.Low - limits.LowInterval!.Value.Low) / 1.959964, Is.EqualTo(16.395108).Within(1e-4));
    }

    [Test]
    public void OfIndependent_OnePair_HasNoLimits() => Assert.That(
        AgreementLimits.OfIndependent([new AgreementPair(0, 1, 2), new AgreementPair(0, double.NaN, 2)]), Is.Null);
}
