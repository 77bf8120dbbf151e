// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;

namespace SensorSim.Body.Tests.Ecg;

/// <summary>Which edges lie under another wave; the layouts are chosen so that the answer is plain.</summary>
public sealed class EcgEdgesTests
{
    private readonly EcgShape _shape = new(new KeyValues());

    [Test]
    public void SlowRhythm_NothingNear_HasNoOverlap() => Assert.That(Overlapped([0.0, 2.0], 1.0, 1.0), Is.EqualTo(EcgEdge.None));

    [Test]
    public void StLevel_OfItsOwn_HidesNoEdge()
    {
        EcgBeat own = new EcgShape(new KeyValues().Set(EcgKeys.StLevelMv, 0.3)).Lay(Plans.Normal(1, 1));
        Assert.That(EcgEdges.Overlapped([], own), Is.EqualTo(EcgEdge.None));
    }

    // T ends at QRS onset + 400 ms at 60 bpm: R + 355 ms. P begins at R − 205 ms, ends at R − 105 ms.
    [TestCase(0.61, EcgEdge.None)]
    [TestCase(0.54, EcgEdge.TEnd)]
    [TestCase(0.50, EcgEdge.TEnd | EcgEdge.TEndTangent)]
    public void NextP_ComingNearer_HidesTheEndOfT(double rr, EcgEdge expected) =>
        Assert.That(Overlapped([1 + rr], 1.0, 1.0), Is.EqualTo(expected));

    [Test]
    public void PrematureBeatOnT_HidesTsEnd_AndHasItsOnsetHidden()
    {
        EcgBeat before = _shape.Lay(Plans.Normal(0, 1));
        EcgBeat early = _shape.Lay(Plans.Of(BeatClass.VentricularPremature, 0.33, 1));
        Assert.That(EcgEdges.Overlapped([early], before), Is.EqualTo(EcgEdge.TEnd | EcgEdge.TEndTangent));
        Assert.That(EcgEdges.Overlapped([before], early), Is.EqualTo(EcgEdge.QrsOnset));
    }

    [Test]
    public void PInsideAQrs_OfDissociatedAtria_IsHiddenAltogether()
    {
        EcgBeat beat = _shape.Lay(Plans.Of(BeatClass.VentricularEscape, 1, 1.5));
        EcgBeat p = _shape.LayP(0.95, 0);
        Assert.That(EcgEdges.Overlapped([beat], p), Is.EqualTo(EcgEdge.POnset | EcgEdge.PEnd));
        Assert.That(EcgEdges.Overlapped([p], beat), Is.EqualTo(EcgEdge.None), "P lies inside: it covers neither end of the QRS");
    }

    [Test]
    public void LongPr_POnsetInTheTBefore_IsNamed()
    {
        EcgBeat before = _shape.Lay(Plans.Normal(0, 1));
        EcgBeat own = _shape.Lay(Plans.Normal(0.8, 1) with { PrSeconds = 0.43 });
        Assert.That(EcgEdges.Overlapped([before], own), Is.EqualTo(EcgEdge.POnset));
    }

    private EcgEdge Overlapped(double[] others, double own, double rr) =>
        EcgEdges.Overlapped([.. others.Select(r => _shape.Lay(Plans.Normal(r, rr)))], _shape.Lay(Plans.Normal(own, rr)));
}
