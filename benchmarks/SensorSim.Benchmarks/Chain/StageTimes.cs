// SPDX-License-Identifier: MIT
using SensorSim.Benchmarks.Inputs;
using SensorSim.Detectors;
using SensorSim.Scoring;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;

namespace SensorSim.Benchmarks.Chain;

/// <summary>Times of the stages of a run, each timed by itself.</summary>
/// <param name="Make">Making and converting, with truth.</param>
/// <param name="Detect">Detecting.</param>
/// <param name="Score">Scoring.</param>
internal readonly record struct StageTimes(Spent Make, Spent Detect, Spent Score)
{
    /// <summary>Makes a minute into memory, detects over it, scores it, and so on; adds up the time of each stage.</summary>
    /// <param name="input">The input.</param>
    /// <param name="seconds">Length [s of signal].</param>
    public static StageTimes Measure(StreamInput input, int seconds)
    {
        SensorStream stream = input.CreateStream(seconds);
        using var detector = new LibraryDetector();
        detector.Start(stream.Format);
        Scorer scorer = LibraryRows.CreateScorer(stream);
        var output = new DetectorOutput();
        var recording = new Recording(stream.Format);
        Spent make = default;
        Spent detect = default;
        Spent score = default;
        for (int begin = 0; begin < seconds; begin += Recording.Seconds)
        {
            int count = Math.Min(Recording.Seconds, seconds - begin);
            Spent t0 = Spent.Now();
            recording.Read(stream, count);
            Spent t1 = Spent.Now();
            recording.Detect(detector, output, count);
            Spent t2 = Spent.Now();
            Feed(scorer, recording, begin, count);
            make += t1 - t0;
            detect += t2 - t1;
            score += Spent.Now() - t2;
        }

        return new StageTimes(make, detect, score);
    }

    /// <summary>The quickest of each stage.</summary>
    /// <param name="a">A measurement.</param>
    /// <param name="b">Another.</param>
    public static StageTimes Best(StageTimes a, StageTimes b) =>
        new(Spent.Best(a.Make, b.Make), Spent.Best(a.Detect, b.Detect), Spent.Best(a.Score, b.Score));

    private static void Feed(Scorer scorer, Recording recording, int beginSeconds, int count)
    {
        for (int i = 0; i < count; i++)
        {
            foreach (TruthEvent truth in recording.Truth[i])
            {
                scorer.AddTruth(truth);
            }

            foreach (Mark mark in recording.Marks[i])
            {
                scorer.AddMark(mark);
            }

            scorer.AdvanceTo((beginSeconds + i + 1) * 1_000_000_000L);
        }
    }
}
