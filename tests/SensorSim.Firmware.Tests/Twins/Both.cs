// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detectors;
using SensorSim.FixedPoint;
using SensorSim.Signals.Streams;

namespace SensorSim.Firmware.Tests.Twins;

/// <summary>One stream through both libraries, answer by answer.</summary>
internal sealed class Both
{
    private const int Room = 4096 * AnswerWords.Count;
    private readonly Answer[] _room = new Answer[AnswerList.Most];
    private readonly StreamFormat _format;
    private readonly TwinLibrary _twin;
    private readonly FlatBlock _flat = new();
    private readonly BlockCutter _cutter;
    private readonly long[] _words = new long[Room];
    private readonly List<long> _ours = [];
    private readonly StreamDump? _dump;
    private Library _library;
    private NoProbe _probe;

    /// <summary>Starts both.</summary>
    public Both(StreamFormat format, TwinOptions options, TwinLibrary twin, StreamDump? dump = null)
    {
        _dump = dump;
        _format = format;
        _twin = twin;
        _cutter = new BlockCutter(format);
        LibrarySetup setup = SetupOf.Stream(format);
        twin.Init();
        foreach (OptionItem item in options.Items())
        {
            Assert.That(twin.Set(item), Is.True, $"the twin refuses {item}");
        }

        for (int role = 0; role < LibrarySetup.ChannelSetups.Length; role++)
        {
            ChannelSetup c = setup.Channels[role];
            if (c.IsThere)
            {
                Assert.That(twin.Channel(role, c.RateHz, c.TicksPerSample, c.Polarity, c.ZeroCode, c.CodesPerUnit256, c.Delay256), Is.True, $"role {role}");
            }
        }

        bool isUsable = setup[ChannelRole.Ecg].IsThere || setup.Light != ChannelRole.None;
        ChannelRole refused = isUsable ? _library.Start(setup, options.Ours()) : ChannelRole.Ecg;
        Assert.That(twin.Start(format.Clock.TicksPerSecond), Is.EqualTo((int)refused));
        IsRefused = refused != ChannelRole.None;
        dump?.Begin(format, options, (int)refused);
    }

    /// <summary>Whether both refused the stream.</summary>
    public bool IsRefused { get; }

    /// <summary>Answers so far.</summary>
    public int Count { get; private set; }

    /// <summary>Answers so far, by kind.</summary>
    public Dictionary<AnswerKind, int> Kinds { get; } = [];

    /// <summary>The first answer that differs, with its place and its fields; null while all are the same.</summary>
    public string? Difference { get; private set; }

    /// <summary>Gives a block to both.</summary>
    public void Take(SampleBlock block)
    {
        _flat.Fill(_format, block);
        _cutter.Begin(block);
        var answers = new AnswerList(_room);
        LibraryInput input = default;
        _ours.Clear();
        while (_cutter.TryNext(_library.SliceEndTick, ref input, out long untilTick))
        {
            _library.Take(input, untilTick, ref answers, ref _probe);
            Keep(ref answers);
        }

        _dump?.Take(_format, block, _ours.ToArray());
        Compare(_twin.Take(_flat, _words));
    }

    /// <summary>Ends both.</summary>
    public void Flush()
    {
        var answers = new AnswerList(_room);
        _ours.Clear();
        _library.Flush(ref answers);
        Keep(ref answers);
        _dump?.Flush(_ours.ToArray());
        Compare(_twin.Flush(_words));
    }

    private void Keep(ref AnswerList answers)
    {
        for (int i = 0; i < answers.Count; i++)
        {
            long[] words = new long[AnswerWords.Count];
            AnswerWords.Write(answers[i], 0, _library.PressureRefusal, words);
            _ours.AddRange(words);
            Kinds[answers[i].Kind] = Kinds.GetValueOrDefault(answers[i].Kind) + 1;
        }

        Assert.That(answers.LostCount, Is.Zero);
        answers.Clear();
    }

    private void Compare(int count)
    {
        if (Difference is not null)
        {
            return;
        }

        string place = FormattableString.Invariant($"after {Count} answers, block {_flat.BeginTick} to {_flat.EndTick}: ");
        bool isPossible = count >= 0 && count * AnswerWords.Count <= _words.Length;
        string? difference = isPossible
            ? AnswerWords.Difference(_ours.ToArray(), _words.AsSpan(0, count * AnswerWords.Count)) : FormattableString.Invariant($"C gives {count} answers");
        Difference = difference is null ? null : place + difference;
        Count += count;
    }
}
