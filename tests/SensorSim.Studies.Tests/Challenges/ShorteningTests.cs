// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Challenges;

namespace SensorSim.Studies.Tests.Challenges;

/// <summary>Detectors that lose beats at known times: what a shorter record scores must not decide what counts as broken.</summary>
[TestFixture]
public sealed class ShorteningTests
{
    [Test]
    public void Search_LossThatOnlyAShortRecordMinds_IsNotTaken()
    {
        // From 75 bpm on the beats between 8 and 10.5 s are lost: of 31 scored seconds 8 %, which 0.9 allows; of the 6 of a record of 15 s it would
        // be 42 %. From 134 bpm (60 / 0.45 s) on all are lost. So 133 to 135 bpm is the mildest at the full length.
        ChallengeResult result = Search(40, () => new LosesFastBeats((0, 60, 450), (8, 10.5, 800)));

        Assert.That(result.Found!.Input.Disturbances.Single().Value, Is.InRange(133, 135));
        Assert.That(result.Alone.Single()!.Input.Disturbances.Single().Value, Is.EqualTo(result.Found.Input.Disturbances.Single().Value));
        Assert.That(result.AtFullLength!.Input.DurationS, Is.EqualTo(40));
        Assert.That(result.AtFullLength.IsBroken, Is.True);
        Assert.That(result.Found.Input.DurationS, Is.EqualTo(15), "lost from the first scored beat on");
        Assert.That(ChallengeText.Sentences(result), Has.Some.StartsWith("At the full length of 40 s, by which harshness is judged, it reaches 0").And.Some.Contains("breaks on 2 of 2 further seeds"));
    }

    [Test]
    public void Search_LossAtSomeTime_KeepsThatTime()
    {
        // Lost between 8 and 30 s: at 120 s the first 12 s are lead-in, so the first scored one is lost after 12 s; 18 of 107 scored seconds are 17 %.
        ChallengeResult result = Search(120, () => new LosesFastBeats((8, 30, 450)));

        Assert.That(result.Moment!.TimeS, Is.InRange(12, 12.5));
        Assert.That(result.Moment.What, Is.EqualTo("ecg r_peak missed"));
        Assert.That(result.Found!.Input.DurationS, Is.EqualTo(15), "8 to 14 s are scored at this length, and it is in them");
    }

    [Test]
    public void Search_LossThatTheLeadInHid_DoesNotTakeThePlaceOfTheOther()
    {
        // At 120 s the first 12 s are lead-in: what is scored and lost lies between 60 and 90 s, 30 of 107 s. At 15 s the first loss would break it too,
        // but that is another failure. 80 s is the shortest length that holds 60 s, in the list of lengths.
        ChallengeResult result = Search(120, () => new LosesFastBeats((8, 12, 450), (60, 90, 450)));

        Assert.That(result.Moment!.TimeS, Is.InRange(60, 60.5));
        Assert.That(result.Found!.Input.DurationS, Is.EqualTo(80));
        Assert.That(result.Around!.EndSeconds, Is.InRange(65, 65.5));
    }

    [Test]
    public void Search_BandThatTheGridMissed_IsWhatBreaksAlone()
    {
        // Lost from 134 bpm on, and between 80 and 93 bpm, where none of the grid's 68, 77, 94, 122, 151, 180 bpm lies; going down finds it.
        ChallengeResult result = Search(40, () => new LosesFastBeats((0, 60, 450)) { Band = (645, 750) });
        double found = result.Found!.Input.Disturbances.Single().Value;

        Assert.That(found, Is.InRange(80, 82));
        Assert.That(result.Alone.Single()!.Input.Disturbances.Single().Value, Is.EqualTo(found), "one answer to one question");
    }

    [Test]
    public void Search_ReadingsThatStop_TellsTheScoredGap()
    {
        // No heart rate at all from 20 s on, whatever the rate: a reading stands for 5 s, so the gap begins between 24 and 25.1 s and ends with the scored time at 39 s.
        ChallengeResult result = Search(40, () => new StopsReading(20), "heart_rate_available_share_min = 0.8\n");

        Assert.That(result.Found!.Input.Disturbances, Is.Empty);
        Assert.That(result.Moment!.TimeS, Is.InRange(24, 25.1));
        Assert.That(result.Moment.What, Does.Match("^ecg heart_rate_bpm: no reading for 1[45]\\.[0-9] s$"));
    }

    [Test]
    public void Search_FailureFromTheStartOn_IsTimedWhereItIsScored()
    {
        // No detector times without any spread; 8 to 14 s of 15 are scored.
        ChallengeResult result = Search(15, () => new LosesFastBeats((0, 0, 450)), "r_peak_timing_sd_ms_max = 0\n");

        Assert.That(result.Found!.Input.Disturbances, Is.Empty);
        Assert.That(result.Moment!.TimeS, Is.InRange(8, 14));
    }

    private static ChallengeResult Search(double durationS, Func<WeakDetector> make, string requirements = "r_peak_sensitivity_min = 0.9\n")
    {
        using var factory = new WeakDetector.Factory(make);
        string text = FormattableString.Invariant($"[scenario]\nduration_s = {durationS}\nseed = 5\n\n[heart]\nrespiratory_variability_ms = 0\nslow_variability_ms = 0\n\n[requirements]\n") + requirements;
        return Challenge.Search(
            ScenarioReader.ReadText(text, "calm.toml"),
            factory,
            new ChallengeSettings { MostRuns = 80, Knobs = Knobs.Named(["heart.rate_bpm:fast"]), CheckSeeds = 2, CheckLeast = 2 });
    }

    /// <summary>Loses R peaks between two times [s] that come sooner after the one before than a length [ms].</summary>
    private sealed class LosesFastBeats(params (double BeginS, double EndS, double ShortestMs)[] losses) : WeakDetector
    {
        private long _lastNs;

        /// <summary>Lengths from the one before that are lost at any time as well [ms].</summary>
        public (double ShortestMs, double LongestMs) Band { get; init; }

        protected override void Begin() => _lastNs = long.MinValue / 2;

        protected override bool IsLost(in Mark mark)
        {
            if (mark.Kind != MarkKind.RPeak)
            {
                return false;
            }

            long atNs = Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256);
            long sinceNs = atNs - _lastNs;
            _lastNs = atNs;
            return (sinceNs > Band.ShortestMs * 1e6 && sinceNs < Band.LongestMs * 1e6) || losses.Any(l => atNs >= l.BeginS * 1e9 && atNs < l.EndS * 1e9 && sinceNs < l.ShortestMs * 1e6);
        }
    }

    /// <summary>Gives no heart rate from a time on [s].</summary>
    private sealed class StopsReading(double fromS) : WeakDetector
    {
        protected override bool IsLost(in Mark mark) =>
            mark.Kind == MarkKind.HeartRateBpm && mark.EmittedTick >= Format.Clock.TickAtOrAfter(fromS);
    }
}
