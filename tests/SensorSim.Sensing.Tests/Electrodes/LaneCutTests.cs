// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Sensing.Electrodes;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Sensing.Tests.Electrodes;

/// <summary>Parts of the ECG that make four samples at once: the same bits for every cut, and nothing left where all has died away.</summary>
public sealed class LaneCutTests
{
    private static readonly SampleGrid s_grid = new(0.0007, 1 / 250.0);

    [Test]
    public void HighPass_CutAnywhere_GivesTheSameBits([Values(0.05, 3)] double corner) => AssertCuts(() =>
    {
        var filter = new HighPass(corner, s_grid.StepSeconds);
        filter.Settle(0.4, -2);
        return (part, _) => filter.Run(part);
    });

    [Test]
    public void LowPass_CutAnywhere_GivesTheSameBits([Values(2, 40, 120)] double corner) => AssertCuts(() =>
    {
        var filter = new LowPass(corner, 250);
        filter.Settle(1.5);
        return (part, _) => filter.Run(part);
    });

    [Test]
    public void FlickerNoise_CutAnywhere_GivesTheSameBits() => AssertCuts(() =>
    {
        var noise = new FlickerNoise(new KeyedRandom(3, "test.flicker_cut"), new KeyedRandom(3, "test.flicker_cut_start"), s_grid);
        return (part, first) => noise.Add(part, first, 0.7);
    });

    // Some twenty events that die away within samples, and some that overlap.
    [Test]
    public void DecayingEvents_CutAnywhere_GiveTheSameBits([Values(0.003, 2)] double decaySeconds) => AssertCuts(() =>
    {
        var events = new DecayingEvents(new KeyedRandom(4, "test.events_cut"), s_grid, 250, decaySeconds, 8, isSizeDrawn: true, atSeconds: 0.5);
        return (part, first) => events.Add(part, first, 4, 1.3);
    });

    // Input that has ended: the filters' outputs die away to exactly 0, without denormal numbers on the way.
    [Test]
    public void Filters_LongAfterTheirInput_GiveExactlyNothing()
    {
        var high = new HighPass(10, 1 / 250.0);
        var low = new LowPass(40, 250);
        double[] x = new double[5000];
        x[3] = 1;
        double[] y = [.. x];
        high.Run(x);
        low.Run(y);
        Assert.That(x[3], Is.GreaterThan(0.8));
        foreach (double[] response in new[] { x, y })
        {
            Assert.That(response[1000..], Has.All.EqualTo(0));
            Assert.That(response.Where(v => v != 0).Min(Math.Abs), Is.GreaterThan(1e-31));
        }
    }

    // The draws of candidates that are made together are those of each alone, before time 0 too.
    [Test]
    public void EventTrain_OfAnyCandidate_HasItsOwnDraws()
    {
        var random = new KeyedRandom(5, "test.train");
        var candidates = new EvenCandidates(random, 0.5);
        var train = new EventTrain(random, s_grid, 2, -5.2);
        for (long k = -10; k < 30; k++)
        {
            Assert.That(train.Seconds, Is.EqualTo(candidates.Seconds(k)), $"candidate {k}");
            Assert.That(train.Sample, Is.EqualTo(Math.Max(0, s_grid.FirstAtOrAfter(train.Seconds))));
            Assert.That(train.IsEvent(0.9), Is.EqualTo(candidates.IsEvent(k, 0.9)));
            Assert.That(train.Normal(), Is.EqualTo(candidates.Normal(k)));
            Assert.That(train.Uniform(), Is.EqualTo(candidates.Uniform(k, 1)));
            train.Next();
        }
    }

    // Passing over candidates finds the events that looking at each of them finds, whatever the limits are.
    [Test]
    public void EventTrain_NextEvent_FindsWhatEachCandidateSays([Values(0.02, 0.7, 1.9)] double perSecond, [Values(1, 3, 64, 250, 5000)] int piece)
    {
        var random = new KeyedRandom(6, "test.next_event");
        var each = new EventTrain(random, s_grid, 2, -5.2);
        var passing = new EventTrain(random, s_grid, 2, -5.2);
        int found = 0;
        for (long first = 0; first < 60_000; first += piece)
        {
            // The rate of a candidate's own first sample counts.
            double rate = (first / piece) % 2 == 0 ? perSecond : 0.3 * perSecond;
            long limit = first + piece;
            for (; each.Sample < limit; each.Next())
            {
                if (each.IsEvent(rate))
                {
                    Assert.That(passing.NextEvent(limit, rate), Is.EqualTo(each.Sample));
                    Assert.That(passing.Seconds, Is.EqualTo(each.Seconds));
                    Assert.That(passing.Normal(), Is.EqualTo(each.Normal()));
                    passing.Next();
                    found++;
                }
            }

            Assert.That(passing.NextEvent(limit, rate), Is.GreaterThanOrEqualTo(limit));
        }

        // 245 s of candidates, two a second, half of the time at 0.3 of the rate: four standard deviations of the number of events.
        double expected = 245 * 0.65 * perSecond;
        Assert.That(found, Is.EqualTo(expected).Within(4 * Math.Sqrt(expected)));
    }

    [Test]
    public void BaselineWander_CutAnywhere_GivesTheSameBits() => AssertCuts(() =>
    {
        var wander = new BaselineWander(new KeyedRandom(7, "test.wander_cut"), s_grid);
        return (part, first) => wander.Make(part, first, 0.3);
    });

    [Test]
    public void BreathingBaseline_CutAnywhere_GivesTheSameBits() => AssertCuts(() =>
    {
        var breathing = new BreathingBaseline(new WanderingPhase(new KeyedRandom(8, "test.breathing_cut"), 0.25, 0.05, 0.01, 0.1), s_grid);
        return (part, first) => breathing.Add(part, first, 0.1);
    });

    // Makers start anew for every run: blocks of one length, and a sequence of odd ones with a long one in between.
    private static void AssertCuts(Func<Action<double[], long>> start)
    {
        double[] input = [.. Enumerable.Range(0, 1500).Select(i => Math.Sin(0.3 * i) + (i % 97 == 0 ? 5 : 0))];
        double[] whole = [.. input];
        start()(whole, 0);
        Assert.That(whole, Is.Not.EqualTo(input));
        foreach (int[] lengths in new int[][] { [1], [3], [64], [250], [5, 1, 2, 300, 7, 4, 255, 257] })
        {
            Action<double[], long> run = start();
            List<double> cut = [];
            for (int i = 0; cut.Count < input.Length; i++)
            {
                double[] part = input[cut.Count..Math.Min(input.Length, cut.Count + lengths[i % lengths.Length])];
                run(part, cut.Count);
                cut.AddRange(part);
            }

            Assert.That(cut, Is.EqualTo(whole), $"blocks of {string.Join(", ", lengths)}");
        }
    }
}
