// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detectors;
using SensorSim.Signals.Streams;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>Streams as a file that the program of twin_entry.c reads, and the sum over all answers that the C# library gives to them.</summary>
internal sealed class StreamDump : IDisposable
{
    private readonly BinaryWriter _file;
    private readonly FlatBlock _flat = new();
    private ulong _sum = 14_695_981_039_346_656_037;
    private long _count;
    private bool _isFirst = true;

    public StreamDump(string path) => _file = new BinaryWriter(File.Create(path));

    /// <summary>What the program must print.</summary>
    public string Expected => FormattableString.Invariant($"{_count} {_sum:x16}");

    /// <summary>Begins a stream.</summary>
    public void Begin(StreamFormat format, TwinOptions options, int started)
    {
        if (!_isFirst)
        {
            Words(0);
        }

        _isFirst = false;
        foreach (OptionItem item in options.Items())
        {
            Words(2, item.Item, item.Index, item.Value);
        }

        LibrarySetup setup = SetupOf.Stream(format);
        for (int role = 0; role < LibrarySetup.ChannelSetups.Length; role++)
        {
            ChannelSetup c = setup.Channels[role];
            if (c.IsThere)
            {
                Words(1, role, c.RateHz, c.TicksPerSample, c.Polarity, c.ZeroCode, c.CodesPerUnit256, c.Delay256);
            }
        }

        Words(3, format.Clock.TicksPerSecond);
        Sum([started]);
    }

    /// <summary>A block, and what it brought.</summary>
    public void Take(StreamFormat format, SampleBlock block, ReadOnlySpan<long> answers)
    {
        _flat.Fill(format, block);
        Words(4, _flat.BeginTick, _flat.EndTick, _flat.SampleCount, _flat.RunCount);
        for (int i = 0; i < _flat.SampleCount; i++)
        {
            Words(_flat.Codes[i]);
        }

        for (int i = 0; i < _flat.SampleCount; i++)
        {
            Words(_flat.Status[i]);
        }

        Words(_flat.Runs.AsSpan(0, _flat.RunCount * 4));
        Answers(answers);
    }

    /// <summary>The end of a stream, and what it brought.</summary>
    public void Flush(ReadOnlySpan<long> answers)
    {
        Words(5);
        Answers(answers);
    }

    public void Dispose() => _file.Dispose();

    private void Answers(ReadOnlySpan<long> answers)
    {
        Sum(answers);
        _count += answers.Length / AnswerWords.Count;
    }

    // As FNV-1a does it, word by word instead of byte by byte.
    private void Sum(ReadOnlySpan<long> words)
    {
        foreach (long word in words)
        {
            _sum = unchecked((_sum ^ (ulong)word) * 1_099_511_628_211);
        }
    }

    private void Words(params ReadOnlySpan<long> words)
    {
        foreach (long word in words)
        {
            _file.Write(word);
        }
    }
}
