// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scoring;
using SensorSim.Scoring.Pressure;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Agreement;

namespace SensorSim.Studies.Tests.Agreement;

/// <summary>Pairs of readings and truth over persons; figures worked by hand or published.</summary>
[TestFixture]
public sealed class ReadingPairsTests
{
    private const long Second = 1_000_000_000;

    [Test]
    public void Listen_JudgedReadings_TakesScoredOnesOfItsKind()
    {
        var pairs = new ReadingPairs(MarkKind.SystolicMmhg, ChannelName.Infrared);
        var scorer = new Scorer([new ChannelDelay(ChannelName.Ecg), new ChannelDelay(ChannelName.Infrared)], 60 * Second);
        int others = 0;
        scorer.ReadingJudged = _ => others++;
        pairs.Listen(scorer, run: 3, subject: 2);
        for (int s = 1; s < 60; s++)
        {
            scorer.AddTruth(new TruthEvent(ChannelName.Infrared, MarkKind.SystolicMmhg, s * Second, 120, s, BeatClass.Normal, TruthFlags.None));
        }

        // In the lead-in; scored; of another kind; in an unusable stretch.
        scorer.AddUnusable(ChannelName.Infrared, 40 * Second, 41 * Second);
        scorer.AddMark(Reading(MarkKind.SystolicMmhg, 5, 130));
        scorer.AddMark(Reading(MarkKind.SystolicMmhg, 20, 123));
        scorer.AddMark(Reading(MarkKind.DiastolicMmhg, 20, 80));
        scorer.AddMark(Reading(MarkKind.SystolicMmhg, 40.5, 150));
        scorer.Finish();

        Assert.That(pairs.Points, Is.EqualTo(new[] { new ReadingPair(3, 0, 2, 120, 123) }));
        Assert.That((pairs.Count, others), Is.EqualTo((1L, 4)), "whoever listened before still does");
    }

    // One worker, or three that share the runs out and are put together in another order: the same sums, the same sample.
    [Test]
    public void Add_RunsSharedOut_GivesTheSameSumsAndSample()
    {
        ReadingPair[] all =
            [.. Enumerable.Range(0, 300).Select(i => new ReadingPair(i % 30, i / 30, i % 5, 100 + i, 100 + i + ((i * 7 % 11) - 5)))];
        var one = new ReadingPairs(MarkKind.SystolicMmhg, null, 50);
        ReadingPairs[] workers = [.. Enumerable.Range(0, 3).Select(_ => new ReadingPairs(MarkKind.SystolicMmhg, null, 50))];
        foreach (ReadingPair pair in all)
        {
            one.Add(pair);
            workers[(int)(pair.Run % 3)].Add(pair);
        }

        var shared = new ReadingPairs(MarkKind.SystolicMmhg, null, 50);
        foreach (ReadingPairs worker in workers.Reverse())
        {
            shared.Add(worker);
        }

        Assert.That(shared.Points, Is.EqualTo(one.Points));
        Assert.That((one.Points.Count, one.LeftOutCount, shared.LeftOutCount), Is.EqualTo((50, 250L, 250L)));
        Assert.That(Json(shared), Is.EqualTo(Json(one)));
        Assert.That(one.Points.Select(p => p.Run).Distinct().Count(), Is.GreaterThan(20), "a sample of all runs, not the first ones");
        Assert.That(() => one.Add(new ReadingPairs(MarkKind.DiastolicMmhg)), Throws.ArgumentException);
    }

    // Three persons at −6, 0 and 6 mmHg on average, each ±2 about that; calibrated at 120; truth 110 and 130.
    [Test]
    public void Of_Pressure_GivesEveryPublishedFigure()
    {
        var pairs = new ReadingPairs(MarkKind.SystolicMmhg);
        for (int subject = 0; subject < 3; subject++)
        {
            double mean = 6 * (subject - 1);
            pairs.Add(new ReadingPair(subject, 0, subject, 110, 110 + mean - 2));
            pairs.Add(new ReadingPair(subject, 1, subject, 130, 130 + mean + 2));
        }

        var f = AgreementFigures.Of(pairs, _ => 120);
        Assert.That((f.SubjectCount, f.All.Count, f.All.Bias), Is.EqualTo((3, 6L, (double?)0)));

        // Errors −8 −4 −2 2 4 8. Within: 3 × 8 / 3 = 8; between: mean square 2 × 72 / 2 = 72, (72 − 8) / 2 = 32.
        Assert.That(f.Repeated!.WithinVariance, Is.EqualTo(8).Within(1e-9));
        Assert.That(f.Repeated.BetweenVariance, Is.EqualTo(32).Within(1e-9));
        Assert.That(f.Repeated.UpperLimit, Is.EqualTo(1.96 * Math.Sqrt(40)).Within(1e-9));
        Assert.That((f.Criteria!.MeetsFirst, f.Criteria.MeetsSecond), Is.EqualTo(((bool?)true, (bool?)true)));
        Assert.That(f.Bands!.Share(f.Bands.Within5), Is.EqualTo(4.0 / 6));
        Assert.That((f.Bands.Grade, f.MeanAbsoluteGrade), Is.EqualTo(((PressureGrade?)PressureGrade.A, (PressureGrade?)PressureGrade.A)), "28 / 6 mmHg on average");

        // "No change" is always 10 off; the mean square error is 168 / 6 = 28.
        Assert.That(f.Tracking!.Skill, Is.EqualTo(1 - 0.28).Within(1e-9));
        Assert.That(f.Saturation, Is.Null);
        Assert.That(f.BiasInterval!.Value.Low, Is.EqualTo(-f.BiasInterval.Value.High).Within(1), "about ±6 by three persons");
        Assert.That(f.BiasInterval.Value.High, Is.InRange(3, 6));
    }

    [Test]
    public void Of_Saturation_GivesAccuracyByBands()
    {
        var pairs = new ReadingPairs(MarkKind.Spo2Percent);
        pairs.Add(new ReadingPair(0, 0, 0, 75, 77));
        pairs.Add(new ReadingPair(0, 1, 0, 95, 94));
        var f = AgreementFigures.Of(pairs);
        Assert.That(f.Saturation!.Arms, Is.EqualTo(Math.Sqrt(2.5)).Within(1e-9));
        Assert.That(f.Saturation.Bands.Select(b => b.Count), Is.EqualTo(new[] { 1, 0, 1 }));
        Assert.That((f.Criteria, f.Repeated, f.BiasInterval), Is.EqualTo(((object?)null, (object?)null, (object?)null)), "one person, no pressure");
    }

    [Test]
    public void Of_Nothing_IsUndefinedAndStillWritten()
    {
        using JsonDocument json = JsonDocument.Parse(Json(new ReadingPairs(MarkKind.SystolicMmhg)));
        JsonElement row = json.RootElement.GetProperty("agreement")[0];
        Assert.That((row.GetProperty("count").GetInt64(), row.GetProperty("bias").ValueKind), Is.EqualTo((0L, JsonValueKind.Null)));
        Assert.That(json.RootElement.GetProperty("agreement_definitions").GetProperty("caution").GetString(), Does.Contain("no clinical evidence"));
    }

    private static string Json(ReadingPairs pairs)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            AgreementJson.WriteProperties(json, [AgreementFigures.Of(pairs, _ => 120)]);
            json.WriteEndObject();
        }

        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }

    private static TimedMark Reading(MarkKind kind, double second, double value) => new()
    {
        Channel = ChannelName.Infrared, Kind = kind, TimeNs = (long)(second * 1e9), WindowBeginNs = (long)((second - 5) * 1e9), Value = value,
        PairedTimeNs = null, EmittedTimeNs = (long)(second * 1e9),
    };
}
