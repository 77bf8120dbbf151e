// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Files.Output;
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Exports;

/// <summary>Writes a stream as NPY arrays: codes, sample indices and status words of each channel, and <c>channels.json</c> that says what they mean.</summary>
/// <remarks>
/// Sample k of a channel was taken at k / <c>rate_hz</c> seconds of nominal device time; an index that is missing is a sample that never came.
/// Constant memory, nothing allocated per block.
/// </remarks>
public sealed class NpyRecordingWriter : IRecordingWriter
{
    private readonly OutputFolder _folder;
    private readonly StreamFormat _format;
    private readonly RecordingFacts _facts;
    private readonly NpyArray[] _codes;
    private readonly NpyArray[] _samples;
    private readonly NpyArray[] _status;
    private BlockOrder _order;

    /// <summary>Starts the files.</summary>
    /// <param name="folder">Receives them; committed by the caller after <see cref="Complete"/>.</param>
    /// <param name="format">Format of the stream.</param>
    /// <param name="facts">Where the stream comes from.</param>
    public NpyRecordingWriter(OutputFolder folder, StreamFormat format, RecordingFacts facts)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(format);
        ArgumentNullException.ThrowIfNull(facts);
        (_folder, _format, _facts) = (folder, format, facts);
        _codes = Start("code", "<i4");
        _samples = Start("sample", "<i8");
        _status = Start("status", "<u2");
    }

    /// <inheritdoc/>
    public void Write(SampleBlock block)
    {
        _order.Take(block);
        for (int i = 0; i < _codes.Length; i++)
        {
            ChannelBlock channel = block.Channels[i];
            foreach (SampleRun run in channel.Runs)
            {
                for (int k = 0; k < run.Count; k++)
                {
                    _codes[i].Append(channel.Codes[run.Offset + k]);
                    _samples[i].Append(run.FirstIndex + k);
                    _status[i].Append(channel.Status[run.Offset + k]);
                }
            }
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        foreach (NpyArray array in All())
        {
            array.Complete();
        }

        using Stream stream = _folder.CreateFile("channels.json");
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            WriteChannels(json);
        }

        stream.WriteByte((byte)'\n');
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (NpyArray array in All())
        {
            array.Dispose();
        }
    }

    private static string NameOf(ChannelFormat channel, string what) => $"{channel.Name.Text()}_{what}.npy";

    private NpyArray[] Start(string what, string type) => [.. _format.Channels.Select(c => new NpyArray(_folder.CreateFile(NameOf(c, what)), type))];

    private IEnumerable<NpyArray> All() => [.. _codes, .. _samples, .. _status];

    private void WriteChannels(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("schema_version", RecordingFacts.SchemaVersion);
        json.WriteString("title", _facts.Title);
        if (_facts.Seed is ulong seed)
        {
            json.WriteNumber("seed", seed);
        }

        if (_facts.GeneratorVersion is int version)
        {
            json.WriteNumber("generator_version", version);
        }

        json.WriteNumber("ticks_per_second", _format.Clock.TicksPerSecond);
        json.WriteNumber("end_tick", _order.EndTick);
        json.WriteStartArray("channels");
        foreach (ChannelFormat c in _format.Channels)
        {
            json.WriteStartObject();
            json.WriteString("channel", c.Name.Text());
            json.WriteString("device", c.Device);
            json.WriteNumber("rate_hz", c.RateHz);
            json.WriteNumber("bits", c.Bits);
            json.WriteBoolean("signed", c.IsSigned);
            json.WriteString("unit", c.Unit);
            json.WriteNumber("unit_per_code", c.UnitPerCode);
            json.WriteNumber("zero_code", c.ZeroCode);
            json.WriteNumber("polarity", c.Polarity);
            json.WriteNumber("declared_delay_ns", c.DeclaredDelayNs);
            json.WriteString("codes", NameOf(c, "code"));
            json.WriteString("samples", NameOf(c, "sample"));
            json.WriteString("status", NameOf(c, "status"));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
