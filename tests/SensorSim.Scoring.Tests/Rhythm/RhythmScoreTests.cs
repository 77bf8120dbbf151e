// SPDX-License-Identifier: MIT
using CsCheck;
using SensorSim.Scoring.Report;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using static SensorSim.Scoring.Tests.TestStreams;

namespace SensorSim.Scoring.Tests.Rhythm;

/// <summary>The flag of irregular rhythm against the classes of beats, worked by hand. Five minutes are scored from 30 to 299 s.</summary>
public class RhythmScoreTests
{
    // Arrhythmia between beats of 100 and 160 s: 60 s; flagged from 115 to 170 s.
    [Test]
    public void Time_FlagComesLateAndGoesLate_SplitsTheTime()
    {
        RhythmScore r = Score([(100, 160)], [(115, true), (170, false)])!;

        // Not judged: 99 to 100 s and 160 to 161 s, where only one beat is of the arrhythmia. Beats end at 299 s.
        Assert.That((r.IrregularS, r.FlaggedIrregularS), Is.EqualTo((60.0, 45.0)));
        Assert.That((r.RegularS, r.FlaggedRegularS), Is.EqualTo((269.0 - 60 - 2, 9.0)));
        Assert.That(r.Sensitivity, Is.EqualTo(0.75).Within(1e-12));
        Assert.That(r.Specificity, Is.EqualTo(1 - (9.0 / 207)).Within(1e-12));
        Assert.That(r.PositivePredictivity, Is.EqualTo(45.0 / 54).Within(1e-12));
        Assert.That((r.EpisodeCount, r.FoundEpisodeCount, r.FlagCount, r.RightFlagCount, r.DelayMeanS), Is.EqualTo((1L, 1L, 1L, 1L, (double?)15)));
    }

    // Episodes of 40, 20 and 50 s; the second is too short to count; flags in the first, and in regular time.
    [Test]
    public void Episodes_OneFoundOneMissed_OneFlagWrong()
    {
        RhythmScore r = Score([(60, 100), (120, 140), (200, 250)], [(70, true), (90, false), (150, true), (160, false)])!;
        Assert.That((r.EpisodeCount, r.FoundEpisodeCount, r.FlagCount, r.RightFlagCount), Is.EqualTo((2L, 1L, 2L, 1L)));
        Assert.That((r.EpisodeSensitivity, r.EpisodePositivePredictivity), Is.EqualTo(((double?)0.5, (double?)0.5)));
    }

    [Test]
    public void Time_UnusableStretch_CountsNeitherWay()
    {
        RhythmScore r = Score([(100, 160)], [(115, true), (170, false)], unusable: (110, 120))!;
        Assert.That((r.IrregularS, r.FlaggedIrregularS), Is.EqualTo((50.0, 40.0)));
    }

    [Test]
    public void Rhythm_NeitherFlagNorArrhythmia_IsNull() => Assert.That(Score([], []), Is.Null);

    [Test]
    public void Rhythm_FlagWithoutArrhythmia_HasSpecificityOnly()
    {
        RhythmScore r = Score([], [(100, true), (126.9, false)])!;
        Assert.That(r.Specificity, Is.EqualTo(0.9).Within(1e-12));
        Assert.That((r.Sensitivity, r.EpisodeSensitivity, r.RightFlagCount), Is.EqualTo(((double?)null, (double?)null, 0L)));
    }

    // Random flags against counting tenths of a second.
    [Test]
    public void Time_RandomFlags_AreThoseByTenths() =>
        Gen.Select(Gen.Int[300, 2990].Array[0, 20], Gen.Int[40, 140], Gen.Int[10, 100]).Sample(
            (drawn, begin, length) =>
            {
                int[] changes = [.. drawn.Distinct().Order()];
                RhythmScore? r = Score([(begin, begin + length)], [.. changes.Select((c, i) => (c / 10.0, i % 2 == 0))]);
                int flagged = 0;
                for (int tenth = begin * 10; tenth < (begin + length) * 10; tenth++)
                {
                    flagged += changes.Count(c => c <= tenth) % 2;
                }

                Assert.That(r!.IrregularS, Is.EqualTo(length - Math.Max(0, Math.Min(length, 30 - begin))).Within(1e-9));
                Assert.That(r.FlaggedIrregularS, Is.EqualTo(flagged / 10.0).Within(1e-9));
                return true;
            },
            iter: 200,
            threads: 1);

    // Beats each second from 1 to 299 s, those from begin to end of a stretch out of an atrial arrhythmia.
    private static RhythmScore? Score((int Begin, int End)[] arrhythmia, (double Second, bool IsOn)[] flags, (int Begin, int End)? unusable = null)
    {
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg)], 300 * Second, new ScoringOptions { ExpectedRows = [] });
        if (unusable is (int from, int to))
        {
            scorer.AddUnusable(ChannelName.Ecg, from * Second, to * Second);
        }

        int next = 0;
        for (int s = 1; s < 300; s++)
        {
            for (; next < flags.Length && flags[next].Second < s; next++)
            {
                long at = (long)Math.Round(flags[next].Second * 1e9);
                scorer.AddMark(new TimedMark
                {
                    Channel = ChannelName.Ecg, Kind = flags[next].IsOn ? MarkKind.IrregularRhythm : MarkKind.RegularRhythm, TimeNs = at, EmittedTimeNs = at,
                });
            }

            bool isIn = arrhythmia.Any(a => s >= a.Begin && s <= a.End);
            scorer.AddTruth(RPeak(s * Second, s) with { Label = isIn ? BeatClass.AtrialArrhythmia : BeatClass.Normal });
            scorer.AdvanceTo(s * Second);
        }

        return scorer.Finish().Rhythm;
    }
}
