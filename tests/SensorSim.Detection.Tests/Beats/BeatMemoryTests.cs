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
            memory.Learn(w, usual, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        for (int i = 0; i < count; i++)
        {
            memory.Learn(w, other, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        BeatCandidate c = other;
        c.OtherFit = fit;
        c.OtherSize = other.OtherSize * sizePercent / 100;
        Assert.That(memory.IsEctopic(w, c), Is.EqualTo(isOne));
    }

    // The narrow kind is the usual one though the wide one came first; of artefacts many times as large that is not said, nor of spikes.
    [TestCase(2, 3, 1, true)]
    [TestCase(2, 3, 3, false)]
    [TestCase(1, 2, 1, false)]
    public void Learn_WideKindFirst_NarrowOneIsUsual(int near, int far, int times, bool isSwapped)
    {
        BeatCandidate wide = Of(4, 5);
        wide.Fit = 256;
        BeatCandidate narrow = Of(near, far);
        narrow.OtherFit = 256;
        narrow.OtherSize *= times;
        narrow.Scale = times == 1 ? 0 : 2;
        BeatWindows w = BeatWindows.ForRate(250, 0, Pipeline.Tuning.Usual);
        BeatMemory memory = default;
        for (int i = 0; i < 3; i++)
        {
            memory.Learn(w, wide, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
            memory.Learn(w, narrow, mayBegin: true, isKinTrusted: true, isEarlyAgain: false);
        }

        int wideSpread = BeatTemplate.SpreadOf(wide.Slopes);
        Assert.That(memory.UsualSpread, isSwapped ? Is.LessThan(wideSpread / 2) : Is.EqualTo(wideSpread));
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
