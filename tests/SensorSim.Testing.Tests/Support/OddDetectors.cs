// SPDX-License-Identifier: MIT
using SensorSim.Examples.Threshold;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Testing.Tests.Support;

/// <summary>Never answers.</summary>
public sealed class MuteDetector : IDetector
{
    public string Name => "mute 1.0";

    public void Start(StreamFormat format)
    {
    }

    public void Process(SampleBlock block, DetectorOutput output)
    {
    }

    public void Flush(DetectorOutput output)
    {
    }

    public void Dispose()
    {
    }
}

/// <summary>Breaks half way.</summary>
public sealed class BreakingDetector : IDetector
{
    private int _blocks;

    public string Name => "breaking 1.0";

    public void Start(StreamFormat format) => _blocks = 0;

    public void Process(SampleBlock block, DetectorOutput output)
    {
        if (++_blocks == 20)
        {
            throw new InvalidOperationException("the table is full {0}");
        }
    }

    public void Flush(DetectorOutput output)
    {
    }

    public void Dispose()
    {
    }
}

/// <summary>The example with the calls counted, so that a test sees who starts and disposes of it.</summary>
public sealed class CountedDetector : IDetector
{
    private readonly ThresholdDetector _inner = new();

    public static int Made { get; set; }

    public int Starts { get; private set; }

    public bool IsDisposed { get; private set; }

    public CountedDetector() => Made++;

    public string Name => "counted 1.0";

    public void Start(StreamFormat format)
    {
        Starts++;
        _inner.Start(format);
    }

    public void Process(SampleBlock block, DetectorOutput output) => _inner.Process(block, output);

    public void Flush(DetectorOutput output) => _inner.Flush(output);

    public void Dispose()
    {
        IsDisposed = true;
        _inner.Dispose();
    }
}
