// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Beats;

/// <summary>Which candidates are of an ectopic kind that has come before.</summary>
[TestFixture]
public sealed class BeatMemoryTests
{
    private const int Steep = 3000;

    // Steps of 8 ms: wide is above 4 of them, a T wave reaches 5 and more. Three have to have come; shapes and sizes as sure as the usual ones, which are all alike here.
    [TestCase(4, 5, 3, 230, 100, true)]
    [TestCase(4, 5, 2, 230, 100, false)]
    [TestCase(4, 5, 3, 229, 100, false)]
    [TestCase(4, 5, 3, 230, 74, false)]
    [TestCase(4, 5, 3, 230, 151, false)]
    [TestCase(3, 4, 3, 230, 100, false)]
    [TestCase(5, 6, 3, 230, 100, false)]
    public void IsEctopic_KnownWideKind_IsToldFromOthers(int near, int far, int count, int fit, int sizePercent, bool isOne)
    {
        BeatWindows w = BeatWindows.ForRate(250, 0, Pipeline.Tuning.Usual);
        BeatCandidate usual = Of(1, 2);
        usual.Fit = 256;
        BeatCandidate other = Of(near, far);
        other.OtherFit = 256;
        BeatMemory memory = default;
        for (int i = 0; i < 4; i++)
        {
            memory.Learn(usual, 200, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        for (int i = 0; i < count; i++)
        {
            memory.Learn(other, 200, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        BeatCandidate c = other;
        c.OtherFit = fit;
        c.OtherSize = other.OtherSize * sizePercent / 100;
        Assert.That(memory.IsEctopic(w, c), Is.EqualTo(isOne));
    }

    // The narrow kind is the usual one though the wide one came first, if that one comes early: intervals before a wide and before a narrow beat, in 4 ms.
    // Of artefacts many times as large that is not said, nor of spikes of a pacemaker, which come a little before the beat, nor of what comes early itself.
    [TestCase(110, 290, 1, true)]
    [TestCase(160, 240, 1, false)]
    [TestCase(159, 241, 1, true)]
    [TestCase(110, 290, 3, false)]
    [TestCase(220, 180, 1, false)]
    [TestCase(200, 200, 1, false)]
    [TestCase(290, 110, 1, false)]
    [TestCase(110, 0, 1, false)]
    public void Learn_WideKindFirst_NarrowOneIsUsual(int beforeWide, int beforeNarrow, int times, bool isSwapped)
    {
        BeatCandidate wide = Of(4, 5);
        wide.Fit = 256;
        BeatCandidate narrow = Of(1, 2);
        narrow.OtherFit = 256;
        narrow.OtherSize *= times;
        narrow.Scale = times == 1 ? 0 : 2;
        BeatMemory memory = default;
        for (int i = 0; i < 4; i++)
        {
            memory.Learn(wide, beforeWide, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
            memory.Learn(narrow, beforeNarrow, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        int wideSpread = BeatTemplate.SpreadOf(wide.Slopes);
        Assert.That(memory.UsualSpread, isSwapped ? Is.LessThan(wideSpread / 2) : Is.EqualTo(wideSpread));
    }

    // Once the narrow kind is the usual one, early wide beats that are one more do not take that back.
    [Test]
    public void Learn_NarrowOneIsUsual_StaysSo()
    {
        BeatCandidate wide = Of(4, 5);
        BeatCandidate narrow = Of(1, 2);
        int wideSpread = BeatTemplate.SpreadOf(wide.Slopes);
        BeatMemory memory = default;
        for (int i = 0; i < 7; i++)
        {
            bool isWideUsual = memory.UsualSpread is 0 || memory.UsualSpread == wideSpread;
            BeatCandidate c = i % 2 == 0 ? wide : narrow;
            (c.Fit, c.OtherFit) = isWideUsual == (i % 2 == 0) ? (256, 0) : (0, 256);
            memory.Learn(c, i % 2 == 0 ? 110 : 290, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        Assert.That(memory.UsualSpread, Is.LessThan(wideSpread / 2));
    }

    // A wide kind that comes oftener is the usual one, but not where it comes early: a beat each of two usual ones and two wide ones, and a wide one more.
    [TestCase(200, true)]
    [TestCase(290, true)]
    [TestCase(110, false)]
    public void Learn_WideKindOftener_IsUsualUnlessEarly(int beforeWide, bool isSwapped)
    {
        BeatCandidate narrow = Of(1, 2);
        narrow.Fit = 256;
        BeatCandidate wide = Of(4, 5);
        wide.OtherFit = 256;
        BeatMemory memory = default;
        foreach (bool isWide in new[] { false, false, true, false, true, true, true })
        {
            memory.Learn(isWide ? wide : narrow, isWide ? beforeWide : 200, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        int wideSpread = BeatTemplate.SpreadOf(wide.Slopes);
        Assert.That(memory.UsualSpread, isSwapped ? Is.EqualTo(wideSpread) : Is.LessThan(wideSpread / 2));
    }

    private static BeatCandidate Of(int near, int far)
    {
        BeatCandidate c = default;
        foreach (int half in new[] { near, far })
        {
            c.Slopes[7 - half] = Steep / 2;
            c.Slopes[7 + half] = -Steep / 2;
        }

        c.Size = Steep;
        c.OtherSize = Steep;
        c.Quality = 255;
        return c;
    }
}
