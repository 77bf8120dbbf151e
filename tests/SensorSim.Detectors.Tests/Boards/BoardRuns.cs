// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Tests.Boards;

/// <summary>Runs detectors over blocks and gathers what they say.</summary>
internal static class BoardRuns
{
    /// <summary>Fills a block with a stretch of some stream.</summary>
    public delegate void Filler(SampleBlock block, long begin, long end);

    /// <summary>Marks and requests of a run, in order.</summary>
    public sealed record Answers(List<Mark> Marks, List<SettingsRequest> Requests);

    /// <summary>Runs a detector that has not been started.</summary>
    /// <param name="detector">The detector.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="fill">The stream.</param>
    /// <param name="endTick">Its end.</param>
    /// <param name="nextLength">Length of the next block [ticks].</param>
    public static Answers Run(IDetector detector, StreamFormat format, Filler fill, long endTick, Func<long> nextLength)
    {
        detector.Start(format);
        var output = new DetectorOutput(100_000);
        var answers = new Answers([], []);
        var block = new SampleBlock(format, endTick);
        for (long tick = 0; tick < endTick;)
        {
            long end = Math.Min(endTick, tick + nextLength());
            fill(block, tick, end);
            detector.Process(block, output);
            Take(output, answers);
            tick = end;
        }

        detector.Flush(output);
        Take(output, answers);
        return answers;
    }

    private static void Take(DetectorOutput output, Answers answers)
    {
        while (output.Marks.TryTake(out Mark mark))
        {
            answers.Marks.Add(mark);
        }

        while (output.Requests.TryTake(out SettingsRequest request))
        {
            answers.Requests.Add(request);
        }
    }
}
