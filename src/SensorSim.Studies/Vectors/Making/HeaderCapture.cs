// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Files;
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios;
using SensorSim.Scenarios.VectorPlans;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;
using SensorSim.Studies.Running;

namespace SensorSim.Studies.Vectors.Making;

/// <summary>Gathers the samples of a C header while a case is made: chosen channels, thinned out, shifted to the width of the header.</summary>
/// <remarks>What is gathered is bounded by the size that the plan allows.</remarks>
internal sealed class HeaderCapture : IRunSink
{
    private readonly PlannedCase _case;
    private readonly PlannedHeader _header;
    private readonly string _plan;
    private readonly int[] _channels;
    private readonly int[] _shifts;
    private readonly Gathered[] _gathered;
    private readonly StreamFormat _source;
    private long _endTick;

    /// <summary>Prepares.</summary>
    /// <param name="plan">Name of the plan, for messages.</param>
    /// <param name="planned">The case.</param>
    /// <param name="header">The header.</param>
    /// <param name="source">Format of the case's stream.</param>
    /// <exception cref="InputFileException">The header asks for what the stream cannot give.</exception>
    public HeaderCapture(string plan, PlannedCase planned, PlannedHeader header, StreamFormat source)
    {
        _plan = plan;
        _case = planned;
        _header = header;
        _source = source;
        _channels = [.. header.Channels.Order().Select(c => source.IndexOf(c) is >= 0 and int number
            ? number
            : throw Refused($"wants {c.Text()}, which its scenario does not have; it has {string.Join(", ", source.Channels.Select(s => s.Name.Text()))}"))];
        _shifts = [.. _channels.Select(c => ShiftOf(source.Channels[c], header.Bits))];
        Format = new StreamFormat(_channels.Select((c, i) => Thinned(source.Channels[c], _shifts[i])));
        _gathered = [.. _channels.Select(_ => new Gathered())];
        long bytes = _channels.Sum(c => (long)(source.Channels[c].RateHz / header.KeepEvery * planned.DurationS)) * (header.Bits / 8);
        if (bytes > header.MaxBytes)
        {
            throw TooLarge(bytes);
        }
    }

    /// <summary>Format of what is gathered.</summary>
    public StreamFormat Format { get; }

    /// <inheritdoc/>
    public void OnBlock(SampleBlock block)
    {
        _endTick = block.EndTick;
        for (int i = 0; i < _channels.Length; i++)
        {
            ChannelBlock channel = block.Channels[_channels[i]];
            ChannelFormat format = Format.Channels[i];
            foreach (SampleRun run in channel.Runs)
            {
                for (int k = 0; k < run.Count; k++)
                {
                    long index = run.FirstIndex + k;
                    if (index % _header.KeepEvery == 0)
                    {
                        int code = Math.Min(Shifted(channel.Codes[run.Offset + k], _shifts[i]), format.MaximumCode);
                        _gathered[i].Add(index / _header.KeepEvery, code, channel.Status[run.Offset + k]);
                    }
                }
            }
        }
    }

    /// <inheritdoc/>
    public void OnTruth(in TruthEvent truth)
    {
        // A header holds samples.
    }

    /// <inheritdoc/>
    public void OnMark(in Mark mark)
    {
        // A header holds samples.
    }

    /// <summary>What was gathered, once the stream has ended.</summary>
    /// <exception cref="InputFileException">It is larger than the plan allows.</exception>
    public VectorHeader Complete()
    {
        IReadOnlyList<LibraryNumbers> numbers = LibraryNumbers.Of(Format);
        var header = new VectorHeader
        {
            Name = _header.Name,
            Comment = Comment(),
            Bits = _header.Bits,
            KeepEvery = _header.KeepEvery,
            Format = Format,

            // The same instant on the other clock; where that falls between two ticks, the later one.
            EndTick = (long)((((Int128)_endTick * Format.Clock.TicksPerSecond) + _source.Clock.TicksPerSecond - 1) / _source.Clock.TicksPerSecond),
            Channels =
            [
                .. _gathered.Select((g, i) => new VectorHeaderChannel
                {
                    Role = numbers[i].Role,
                    CodesPerUnit256 = numbers[i].CodesPerUnit256,
                    Delay256 = numbers[i].Delay256,
                    Shift = _shifts[i],
                    Codes = g.Codes,
                    Runs = g.Runs,
                    Statuses = g.Statuses,
                }),
            ],
        };
        return header.ArrayBytes <= _header.MaxBytes ? header : throw TooLarge(header.ArrayBytes);
    }

    /// <summary>Bits by which codes of a channel are shifted so that they fit.</summary>
    /// <param name="format">The channel.</param>
    /// <param name="bits">Width in the header; its arrays are signed.</param>
    internal static int ShiftOf(ChannelFormat format, int bits) => Math.Max(0, format.Bits - (format.IsSigned ? bits : bits - 1));

    /// <summary>A code shifted to the right: to the nearest, halves upwards.</summary>
    /// <param name="code">The code.</param>
    /// <param name="shift">Bits.</param>
    internal static int Shifted(int code, int shift) => shift == 0 ? code : (int)(((long)code + (1L << (shift - 1))) >> shift);

    private ChannelFormat Thinned(ChannelFormat format, int shift) => format.RateHz % _header.KeepEvery == 0
        ? format with
        {
            RateHz = format.RateHz / _header.KeepEvery,
            Bits = format.Bits - shift,
            UnitPerCode = format.UnitPerCode * (1 << shift),
            ZeroCode = Shifted(format.ZeroCode, shift),
        }
        : throw Refused(FormattableString.Invariant(
            $"keeps every {_header.KeepEvery}th sample of {format.Name.Text()}, which has {format.RateHz} Hz; the rate must be a multiple of keep_every"));

    private string[] Comment()
    {
        string shift = string.Join(", ", _shifts.Select((s, i) => FormattableString.Invariant($"{Format.Channels[i].Name.Text()} {s}")));
        return
        [
            FormattableString.Invariant($"Known-answer vector {_header.Name}: case {_case.Name}, seed {_case.Seed}, {_case.DurationS:R} s, generator version {Scenario.GeneratorVersion}."),
            FormattableString.Invariant($"Samples kept: {(_header.KeepEvery == 1 ? "all" : FormattableString.Invariant($"every {_header.KeepEvery}th, without a filter"))}. Bits shifted out, rounded: {shift}."),
            $"What the library answers to exactly these samples: {_header.Name}.expected.csv; what any detector must answer: acceptance.csv.",
            "Simulated signals: not clinical evidence.",
        ];
    }

    private InputFileException TooLarge(long bytes) => Refused(FormattableString.Invariant(
        $"needs {bytes} bytes, more than max_bytes = {_header.MaxBytes}; shorten the case, keep fewer samples or channels, or raise max_bytes"));

    private InputFileException Refused(string what) => new(_plan, 0, 0, $"case {_case.Name}: header {_header.Name} {what}.");

    private sealed class Gathered
    {
        public List<int> Codes { get; } = [];

        public List<(long FirstIndex, int Count)> Runs { get; } = [];

        public List<(int First, int Count, ushort Word)> Statuses { get; } = [];

        public void Add(long index, int code, ushort status)
        {
            if (Runs.Count > 0 && Runs[^1].FirstIndex + Runs[^1].Count == index)
            {
                Runs[^1] = (Runs[^1].FirstIndex, Runs[^1].Count + 1);
            }
            else
            {
                Runs.Add((index, 1));
            }

            if (status != 0)
            {
                if (Statuses.Count > 0 && Statuses[^1].First + Statuses[^1].Count == Codes.Count && Statuses[^1].Word == status)
                {
                    Statuses[^1] = Statuses[^1] with { Count = Statuses[^1].Count + 1 };
                }
                else
                {
                    Statuses.Add((Codes.Count, 1, status));
                }
            }

            Codes.Add(code);
        }
    }
}
