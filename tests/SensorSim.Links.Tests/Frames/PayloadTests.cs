// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;
using SensorSim.Links.Frames.Payloads;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Links.Tests.Frames;

/// <summary>What goes into a payload comes out again, and nothing else is taken.</summary>
public sealed class PayloadTests
{
    private readonly byte[] _bytes = new byte[FrameLimits.MaximumPayload];

    [Test]
    public void WriteRead_EachSort_GivesTheSame()
    {
        var hello = new HelloPayload(0xDEADBEEF, 1, 3, "sensorsim 0.1");
        Assert.That(HelloPayload.TryRead(_bytes.AsSpan(0, hello.Write(_bytes)), out HelloPayload hello2), Is.True);
        Assert.That(hello2, Is.EqualTo(hello));

        var about = new AboutPayload(1, 2, 240, 5, 8128, "träge");
        Assert.That(AboutPayload.TryRead(_bytes.AsSpan(0, about.Write(_bytes)), out AboutPayload about2), Is.True);
        Assert.That(about2, Is.EqualTo(about));

        var accepted = new AcceptedPayload(FrameType.Start, 77);
        Assert.That(AcceptedPayload.TryRead(_bytes.AsSpan(0, accepted.Write(_bytes)), out AcceptedPayload accepted2), Is.True);
        Assert.That(accepted2, Is.EqualTo(accepted));

        var progress = new ProgressPayload(1, 2, long.MaxValue / 3, 4, 5, 6, 7, 8, 9);
        Assert.That(ProgressPayload.TryRead(_bytes.AsSpan(0, progress.Write(_bytes)), out ProgressPayload progress2), Is.True);
        Assert.That(progress2, Is.EqualTo(progress));

        var trouble = new TroublePayload(TroubleCode.SetupRefused, 9, "no");
        Assert.That(TroublePayload.TryRead(_bytes.AsSpan(0, trouble.Write(_bytes)), out TroublePayload trouble2), Is.True);
        Assert.That(trouble2, Is.EqualTo(trouble));

        var log = new LogPayload(LogLevel.Fault, "");
        Assert.That(LogPayload.TryRead(_bytes.AsSpan(0, log.Write(_bytes)), out LogPayload log2), Is.True);
        Assert.That(log2, Is.EqualTo(log));

        var tick = new TickPayload(TickPayload.MaximumTick);
        Assert.That(TickPayload.TryRead(_bytes.AsSpan(0, tick.Write(_bytes)), out TickPayload tick2), Is.True);
        Assert.That(tick2, Is.EqualTo(tick));
        Assert.That(TickPayload.TryRead(Convert.FromHexString("0100000000000040"), out _), Is.False, "beyond 2^62");

        var request = new SettingsRequest(3, SensorSetting.Decimation, -2, 12345678901);
        Assert.That(SettingPayload.TryRead(_bytes.AsSpan(0, SettingPayload.Write(request, _bytes)), out SettingsRequest request2), Is.True);
        Assert.That(request2, Is.EqualTo(request));
    }

    [Test]
    public void TryRead_TooFewOrTooManyBytes_Refuses()
    {
        for (int length = 0; length <= FrameLimits.MaximumPayload; length++)
        {
            ReadOnlySpan<byte> payload = new byte[length];
            Assert.That(HelloPayload.TryRead(payload, out _), Is.EqualTo(length >= 8));
            Assert.That(AboutPayload.TryRead(payload, out _), Is.EqualTo(length >= 16));
            Assert.That(TroublePayload.TryRead(payload, out _), Is.EqualTo(length >= 8));
            Assert.That(LogPayload.TryRead(payload, out _), Is.EqualTo(length >= 1));
            Assert.That(AcceptedPayload.TryRead(payload, out _), Is.EqualTo(length == 8));
            Assert.That(TickPayload.TryRead(payload, out _), Is.EqualTo(length == 8));
            Assert.That(CapturePayload.TryRead(payload), Is.EqualTo(length == 4));
            Assert.That(ProgressPayload.TryRead(payload, out _), Is.EqualTo(length == 40));
            Assert.That(SettingPayload.TryRead(payload, out _), Is.EqualTo(length == 16));
            Assert.That(SetupPayload.TryRead(payload, new SetupItem[20], out _), Is.EqualTo(length % 12 == 0));
            Assert.That(FigurePayload.TryRead(payload, new BoardFigure[20], out _), Is.EqualTo(length % 12 == 0));
        }
    }

    [Test]
    public void TryRead_UndefinedSettingOrLevelOrLateTick_Refuses()
    {
        Assert.That(SettingPayload.TryRead(Convert.FromHexString("00040000" + "00000000" + "0000000000000000"), out _), Is.False);
        Assert.That(SettingPayload.TryRead(Convert.FromHexString("00000000" + "00000000" + "00000000000000FF"), out _), Is.False);
        Assert.That(LogPayload.TryRead([3, 65], out _), Is.False);
    }

    [Test]
    public void Text_TooLongOrNoText_IsCutAtACharacterAndReplaced()
    {
        var log = new LogPayload(LogLevel.Warning, new string('ä', 300));
        Assert.That(log.Write(_bytes), Is.EqualTo(239));
        Assert.That(LogPayload.TryRead(_bytes.AsSpan(0, 239), out LogPayload back), Is.True);
        Assert.That(back.Text, Is.EqualTo(new string('ä', 119)));
        Assert.That(LogPayload.TryRead([0, 0xC3], out LogPayload broken), Is.True);
        Assert.That(broken.Text, Is.EqualTo("\uFFFD"));
    }

    [Test]
    public void Items_FullFrames_ComeBack()
    {
        SetupItem[] items = [.. Enumerable.Range(0, 20).Select(i => new SetupItem((ushort)(0xFFFF - i), (ushort)i, long.MinValue + i))];
        var back = new SetupItem[20];
        Assert.That(SetupPayload.TryRead(_bytes.AsSpan(0, SetupPayload.Write(items, _bytes)), back, out int count), Is.True);
        Assert.That(back[..count], Is.EqualTo(items));
        BoardFigure[] figures = [new(BoardFigures.StackBytes, 0, 2048), new(BoardFigures.SamplesTaken, 2, 1L << 40)];
        var back2 = new BoardFigure[20];
        Assert.That(FigurePayload.TryRead(_bytes.AsSpan(0, FigurePayload.Write(figures, _bytes)), back2, out count), Is.True);
        Assert.That(back2[..count], Is.EqualTo(figures));
        Assert.That(() => SetupPayload.Write(new SetupItem[21], _bytes), Throws.ArgumentException);
        Assert.That(SetupPayload.TryRead(new byte[24], new SetupItem[1], out _), Is.False);
    }

    [Test]
    public void Marks_AllFields_ComeBack()
    {
        Mark[] marks =
        [
            new() { Channel = 0, Kind = MarkKind.RPeak, Sample = 1L << 40, Fraction256 = 255, HasValue = true, ValueMilli = -1234, Quality = 200, EmittedTick = 1L << 41 },
            new()
            {
                Channel = 1, Kind = MarkKind.ArrivalTimeMs, Sample = -5, Fraction256 = 1, HasValue = true, ValueMilli = 200_123, Quality = 1, EmittedTick = 7,
                PairedChannel = 0, PairedSample = 3, PairedFraction256 = 9, WindowSamples = 500,
            },
            new() { Channel = 2, Kind = MarkKind.PressureTrendMmhg },
        ];
        var back = new Mark[MarkPayload.MaximumCount];
        int length = MarkPayload.Write(marks, _bytes);
        Assert.That(MarkPayload.TryRead(_bytes.AsSpan(0, length), Streams.Small, back, out int count), Is.True);
        Assert.That(back[..count], Is.EqualTo(marks));
        Assert.That(MarkPayload.TryRead(_bytes.AsSpan(0, length - 1), Streams.Small, back, out _), Is.False);
        foreach ((int at, byte value) in new (int, byte)[] { (0, 0), (0, 6), (0, 2), (4, 46), (5, 3), (6, 3) })
        {
            byte[] bad = _bytes[..length];
            bad[at] = value;
            Assert.That(MarkPayload.TryRead(bad, Streams.Small, back, out _), Is.False, $"{at} = {value}");
        }

        Assert.That(() => MarkPayload.Write(new Mark[6], _bytes), Throws.ArgumentException);
        Assert.That(() => MarkPayload.Write([], _bytes), Throws.ArgumentException);
    }

    [Test]
    public void Marks_ValueInCodes_BecomesThousandthsOfTheUnit()
    {
        var back = new Mark[MarkPayload.MaximumCount];
        int length = MarkPayload.Write([new Mark { Channel = 0, Kind = MarkKind.RPeak, HasValue = true, ValueMilli = 2625 }], _bytes);
        _bytes[10] |= 2;
        MarkPayload.TryRead(_bytes.AsSpan(0, length), Streams.Small, back, out _);
        Assert.That(back[0].ValueMilli, Is.EqualTo(1000), "2625 codes of 0.000381 mV are 1.000125 mV");

        // Infrared: 0.25 nA, and a rising current lowers the code.
        _bytes[5] = 1;
        MarkPayload.TryRead(_bytes.AsSpan(0, length), Streams.Small, back, out _);
        Assert.That(back[0].ValueMilli, Is.EqualTo(-656_250));
    }
}
