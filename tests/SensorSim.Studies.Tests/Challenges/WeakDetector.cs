// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Studies.Tests.Challenges;

/// <summary>The library with a weakness built in: it loses marks for a reason that the test knows.</summary>
internal abstract class WeakDetector : IDetector
{
    private readonly LibraryDetector _inner = new();
    private readonly DetectorOutput _marks = new();

    public string Name => "weak 1.0";

    protected StreamFormat Format { get; private set; } = null!;

    public void Start(StreamFormat format)
    {
        Format = format;
        _marks.Marks.Clear();
        _inner.Start(format);
        Begin();
    }

    public void Process(SampleBlock block, DetectorOutput output)
    {
        See(block);
        _inner.Process(block, _marks);
        Pass(output);
    }

    public void Flush(DetectorOutput output)
    {
        _inner.Flush(_marks);
        Pass(output);
    }

    public void Dispose() => _inner.Dispose();

    protected virtual void Begin()
    {
    }

    protected virtual void See(SampleBlock block)
    {
    }

    protected abstract bool IsLost(in Mark mark);

    private void Pass(DetectorOutput output)
    {
        while (_marks.Marks.TryTake(out Mark mark))
        {
            if (!IsLost(mark))
            {
                output.Marks.Add(mark);
            }
        }
    }

    /// <summary>Makes one kind of weak detector.</summary>
    internal sealed class Factory(Func<WeakDetector> make) : IDetectorFactory
    {
        public string Identity => "weak 1.0";

        public IReadOnlyList<NumberKey> Constants => [];

        public IDetector Create(IReadOnlyDictionary<string, double> constants) => make();

        public void Dispose()
        {
            // Nothing is held.
        }
    }
}

/// <summary>Loses a mark of a kind when the mean of its channel over the second before it lies beyond limits [unit of the channel].</summary>
internal sealed class DeafBeyondLevel(MarkKind kind, double lowest, double highest) : WeakDetector
{
    private readonly Dictionary<int, List<double>> _sums = [];

    protected override void Begin()
    {
        _sums.Clear();
        for (int c = 0; c < Format.Channels.Count; c++)
        {
            _sums[c] = [0];
        }
    }

    protected override void See(SampleBlock block)
    {
        foreach ((int c, List<double> sums) in _sums)
        {
            foreach (SampleRun run in block.Channels[c].Runs)
            {
                for (int i = 0; i < run.Count; i++)
                {
                    double value = Format.Channels[c].Physical(block.Channels[c].Codes[run.Offset + i]);
                    while (sums.Count <= run.FirstIndex + i)
                    {
                        sums.Add(sums[^1]);
                    }

                    sums.Add(sums[^1] + value);
                }
            }
        }
    }

    protected override bool IsLost(in Mark mark)
    {
        if (mark.Kind != kind)
        {
            return false;
        }

        List<double> sums = _sums[mark.Channel];
        int end = (int)Math.Clamp(mark.Sample + 1, 0, sums.Count - 1);
        int begin = Math.Max(0, end - Format.Channels[mark.Channel].RateHz);
        double mean = (sums[end] - sums[begin]) / Math.Max(1, end - begin);
        return mean < lowest || mean > highest;
    }
}

/// <summary>Loses an R peak that comes sooner than this after the one before [ms].</summary>
internal sealed class TooSlowForFastHearts(double shortestMs) : WeakDetector
{
    private long _lastNs;

    protected override void Begin() => _lastNs = long.MinValue / 2;

    protected override bool IsLost(in Mark mark)
    {
        if (mark.Kind != MarkKind.RPeak)
        {
            return false;
        }

        long atNs = Format.DeviceTimeNs(mark.Channel, mark.Sample, mark.Fraction256);
        bool isSoon = atNs - _lastNs < shortestMs * 1e6;
        _lastNs = atNs;
        return isSoon;
    }
}
