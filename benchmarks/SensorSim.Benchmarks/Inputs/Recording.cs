// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Sensing;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Benchmarks.Inputs;

/// <summary>A minute of a stream in memory, second by second: blocks, truth, and the library's marks.</summary>
internal sealed class Recording
{
    /// <summary>Seconds in memory at a time: some 250 kB, which fits into the second-level cache.</summary>
    public const int Seconds = 60;

    private readonly SampleBlock[] _blocks = new SampleBlock[Seconds];
    private readonly List<TruthEvent>[] _truth = new List<TruthEvent>[Seconds];
    private readonly List<Mark>[] _marks = new List<Mark>[Seconds];

    /// <summary>Creates room for a minute of a stream.</summary>
    /// <param name="format">Format of the stream.</param>
    public Recording(StreamFormat format)
    {
        for (int i = 0; i < Seconds; i++)
        {
            _blocks[i] = new SampleBlock(format, format.Clock.TicksPerSecond);
            _truth[i] = new List<TruthEvent>(256);
            _marks[i] = new List<Mark>(256);
        }
    }

    /// <summary>Blocks of a second.</summary>
    public IReadOnlyList<SampleBlock> Blocks => _blocks;

    /// <summary>Truth that came with each block.</summary>
    public IReadOnlyList<List<TruthEvent>> Truth => _truth;

    /// <summary>Marks that came with each block.</summary>
    public IReadOnlyList<List<Mark>> Marks => _marks;

    /// <summary>Records the first minute of an input.</summary>
    /// <param name="input">The input.</param>
    /// <param name="format">Receives the format.</param>
    public static Recording Of(StreamInput input, out StreamFormat format)
    {
        SensorStream stream = input.CreateStream();
        stream.KeepSettings();
        format = stream.Format;
        var recording = new Recording(format);
        recording.Read(stream, Seconds);
        using var detector = new LibraryDetector();
        detector.Start(format);
        recording.Detect(detector, new DetectorOutput(), Seconds);
        return recording;
    }

    /// <summary>Reads the next seconds of a stream.</summary>
    public void Read(SensorStream stream, int seconds)
    {
        long second = stream.Format.Clock.TicksPerSecond;
        for (int i = 0; i < seconds; i++)
        {
            stream.Read(_blocks[i], stream.PositionTick + second);
            _truth[i].Clear();
            while (stream.Truth.TryTake(out TruthEvent truth))
            {
                _truth[i].Add(truth);
            }
        }
    }

    /// <summary>Runs a detector over the seconds read.</summary>
    public void Detect(IDetector detector, DetectorOutput output, int seconds)
    {
        for (int i = 0; i < seconds; i++)
        {
            detector.Process(_blocks[i], output);
            _marks[i].Clear();
            while (output.Marks.TryTake(out Mark mark))
            {
                _marks[i].Add(mark);
            }

            output.Requests.Clear();
        }
    }
}
