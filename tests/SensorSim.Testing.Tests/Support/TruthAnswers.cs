// SPDX-License-Identifier: MIT
using SensorSim.Scoring;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Testing.Tests.Support;

/// <summary>Perfect answers: the R peaks of truth in device time.</summary>
internal sealed class TruthAnswers : IRunSink
{
    private readonly List<long> _bodyNs = [];

    private TruthAnswers()
    {
    }

    /// <summary>The R peaks of a scenario that are scored, in body time [ns]: lead-in of 10 %, at least 8 s, and last second left out (docs/scoring.md).</summary>
    public static long[] Scored(GivenScenario given, out long delayNs)
    {
        IToldStream stream = given.Scenario.WithSeed(given.SeedList[0]).OpenStream();
        var sink = new TruthAnswers();
        _ = new Runner(stream, stream.Truth, detector: null, scorer: null, sink).Run();
        delayNs = stream.Format.Channels[stream.Format.IndexOf(ChannelName.Ecg)].DeclaredDelayNs;
        double end = given.Scenario.DurationS;
        double begin = Math.Max(8, end / 10);
        return [.. sink._bodyNs.Where(t => t >= begin * 1e9 && t < (end - 1) * 1e9)];
    }

    /// <summary>Marks of R peaks at given body times.</summary>
    public static TimedMark[] Marks(IEnumerable<long> bodyNs, long delayNs) =>
        [.. bodyNs.Order().Select(t => new TimedMark { Channel = ChannelName.Ecg, Kind = MarkKind.RPeak, TimeNs = t + delayNs, EmittedTimeNs = t + delayNs })];

    public void OnBlock(SampleBlock block)
    {
    }

    public void OnTruth(in TruthEvent truth)
    {
        if (truth is { Channel: ChannelName.Ecg, Kind: MarkKind.RPeak })
        {
            _bodyNs.Add(truth.TimeNs);
        }
    }

    public void OnMark(in Mark mark)
    {
    }
}
