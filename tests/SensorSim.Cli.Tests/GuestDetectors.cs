// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Cli.Tests;

/// <summary>Detectors that the tests load from this very assembly into the process of the command; a mark a block, and each its own vice.</summary>
public abstract class GuestDetector : IDetector
{
    public string Name => "guest 1.0";

    public virtual void Start(StreamFormat format)
    {
    }

    public virtual void Process(SampleBlock block, DetectorOutput output)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(output);
        output.Marks.Add(new Mark { Kind = MarkKind.RPeak, Sample = block.Channels[0].Runs[0].FirstIndex, EmittedTick = block.EndTick });
    }

    public virtual void Flush(DetectorOutput output)
    {
    }

    public virtual void Dispose() => GC.SuppressFinalize(this);
}

public sealed class LeavingDetector : GuestDetector
{
    public override void Flush(DetectorOutput output) => Environment.Exit(0);
}

public sealed class GrippingDetector : GuestDetector
{
    public override void Dispose()
    {
        base.Dispose();
        throw new InvalidOperationException("not now");
    }
}

public sealed class StrayDetector : GuestDetector
{
    public override void Flush(DetectorOutput output)
    {
        var thread = new Thread(() => throw new InvalidOperationException("lost\nalone"));
        thread.Start();
        thread.Join();
    }
}

public sealed class StayingDetector : GuestDetector
{
    public override void Start(StreamFormat format) => new Thread(() => Thread.Sleep(Timeout.Infinite)) { IsBackground = false }.Start();
}

public sealed class TalkingDetector : GuestDetector
{
    public override void Flush(DetectorOutput output)
    {
        Console.WriteLine("a word of the detector");
        using Stream direct = Console.OpenStandardOutput();
        direct.Write("another word\n"u8);
    }
}

/// <summary>Counts how many of its kind are at work at once, over all copies of this assembly.</summary>
public sealed class CrowdDetector : GuestDetector
{
    /// <summary>Where the process keeps how many are at work, how many were at most, and how many more begin without waiting a while for company.</summary>
    public const string Counts = "sensorsim.tests.crowd";

    private readonly int[] _counts = (int[])AppDomain.CurrentDomain.GetData(Counts)!;

    public override void Start(StreamFormat format)
    {
        lock (_counts)
        {
            _counts[0]++;
            _counts[1] = Math.Max(_counts[1], _counts[0]);
            Monitor.PulseAll(_counts);
            if (--_counts[2] < 0 && _counts[0] == 1)
            {
                Monitor.Wait(_counts, TimeSpan.FromSeconds(0.8));
            }
        }
    }

    public override void Flush(DetectorOutput output)
    {
        lock (_counts)
        {
            _counts[0]--;
        }
    }
}
