// SPDX-License-Identifier: MIT
using System.Buffers.Binary;
using SensorSim.Files.Recordings;
using SensorSim.Files.Text;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.VectorSets;

/// <summary>Writes a stream as raw numbers: <c>&lt;channel&gt;.i32</c> with the codes that came, and beside it where they belong.</summary>
/// <remarks>
/// Codes are int32, little-endian, one after another. <c>&lt;channel&gt;-runs.csv</c> has a row for each stretch of consecutive samples
/// with the same status word; where the sample number jumps from one row to the next, samples never came. <c>stimulus-channels.csv</c> is the
/// list of channels of a recording. Memory does not grow with the length.
/// </remarks>
public sealed class RawRecordingWriter : IDisposable
{
    private readonly Func<string, Stream> _create;
    private readonly StreamFormat _format;
    private readonly RawChannel[] _channels;
    private readonly byte[] _bytes = new byte[4096];
    private long _endTick;

    /// <summary>Starts the files.</summary>
    /// <param name="create">Starts a file of a name; what it gives is closed by this writer.</param>
    /// <param name="format">Format of the stream.</param>
    public RawRecordingWriter(Func<string, Stream> create, StreamFormat format)
    {
        ArgumentNullException.ThrowIfNull(create);
        ArgumentNullException.ThrowIfNull(format);
        _create = create;
        _format = format;
        _channels = [.. format.Channels.Select(c => new RawChannel(
            create(SetNames.Codes(c.Name)), new CsvWriter(create(SetNames.Runs(c.Name)), SetNames.RunsHeader)))];
    }

    /// <summary>Writes the samples of a block; blocks come in order, without a stretch left out.</summary>
    /// <param name="block">The block.</param>
    /// <exception cref="ArgumentException">The block does not begin where the one before ended.</exception>
    public void Write(SampleBlock block)
    {
        ArgumentNullException.ThrowIfNull(block);
        if (block.BeginTick != _endTick)
        {
            throw new ArgumentException($"The block begins at tick {block.BeginTick}; the one before ended at {_endTick}.", nameof(block));
        }

        _endTick = block.EndTick;
        for (int c = 0; c < _channels.Length; c++)
        {
            ChannelBlock channel = block.Channels[c];
            WriteCodes(_channels[c].Codes, channel.Codes);
            foreach (SampleRun run in channel.Runs)
            {
                for (int k = 0; k < run.Count; k++)
                {
                    _channels[c].Add(run.FirstIndex + k, channel.Status[run.Offset + k]);
                }
            }
        }
    }

    /// <summary>Writes the list of channels and closes every file.</summary>
    public void Complete()
    {
        foreach (RawChannel channel in _channels)
        {
            channel.End();
        }

        Dispose();
        ChannelsCsvWriter.Write(_create(SetNames.StimulusChannels), _format, _endTick);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (RawChannel channel in _channels)
        {
            channel.Codes.Dispose();
            channel.Runs.Dispose();
        }
    }

    private void WriteCodes(Stream stream, ReadOnlySpan<int> codes)
    {
        while (!codes.IsEmpty)
        {
            int count = Math.Min(codes.Length, _bytes.Length / sizeof(int));
            for (int i = 0; i < count; i++)
            {
                BinaryPrimitives.WriteInt32LittleEndian(_bytes.AsSpan(i * sizeof(int)), codes[i]);
            }

            stream.Write(_bytes, 0, count * sizeof(int));
            codes = codes[count..];
        }
    }

    private sealed class RawChannel(Stream codes, CsvWriter runs)
    {
        private long _first;
        private long _count;
        private ushort _status;

        public Stream Codes { get; } = codes;

        public CsvWriter Runs { get; } = runs;

        public void Add(long index, ushort status)
        {
            if (_count > 0 && (index != _first + _count || status != _status))
            {
                End();
            }

            if (_count == 0)
            {
                _first = index;
                _status = status;
            }

            _count++;
        }

        public void End()
        {
            if (_count > 0)
            {
                Runs.Integer(_first);
                Runs.Integer(_count);
                Runs.Integer(_status);
                Runs.EndRow();
                _count = 0;
            }
        }
    }
}
