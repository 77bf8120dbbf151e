// SPDX-License-Identifier: MIT
using SensorSim.Benchmarks.Inputs;
using SensorSim.Studies.Running;

namespace SensorSim.Benchmarks.Chain;

/// <summary>The best of what was measured with one input.</summary>
/// <param name="input">The input.</param>
internal sealed class ChainResult(StreamInput input)
{
    /// <summary>The input.</summary>
    public StreamInput Input { get; } = input;

    /// <summary>Quickest whole run, by each clock.</summary>
    public Spent Whole { get; private set; } = Spent.Never;

    /// <summary>Slowest whole run by the wall clock [s]: how far other work on the machine reached.</summary>
    public double Slowest { get; private set; }

    /// <summary>Quickest of each stage, by each clock.</summary>
    public StageTimes Stages { get; private set; } = new(Spent.Never, Spent.Never, Spent.Never);

    /// <summary>Quickest run by one worker, by each clock.</summary>
    public Spent OneWorker { get; private set; } = Spent.Never;

    /// <summary>Quickest run by two workers side by side, each as long as the one, by each clock.</summary>
    public Spent TwoWorkers { get; private set; } = Spent.Never;

    /// <summary>Bytes allocated per block of a second after warm-up.</summary>
    public double BytesPerBlock { get; private set; }

    /// <summary>What came out of a whole run.</summary>
    public RunOutcome? Outcome { get; private set; }

    /// <summary>Measures a whole run.</summary>
    public void MeasureWhole(int seconds)
    {
        (Spent spent, Outcome) = WholeChain.Run(Input, seconds);
        Whole = Spent.Best(Whole, spent);
        Slowest = Math.Max(Slowest, spent.Wall);
    }

    /// <summary>Measures the stages.</summary>
    public void MeasureStages(int seconds) => Stages = StageTimes.Best(Stages, StageTimes.Measure(Input, seconds));

    /// <summary>Measures one worker, then two.</summary>
    public void MeasureWorkers(int seconds)
    {
        OneWorker = Spent.Best(OneWorker, WholeChain.RunTogether(Input, seconds, 1));
        TwoWorkers = Spent.Best(TwoWorkers, WholeChain.RunTogether(Input, seconds, 2));
    }

    /// <summary>Measures allocation.</summary>
    public void MeasureBytes() => BytesPerBlock = WholeChain.BytesPerBlock(Input, 1000);
}
