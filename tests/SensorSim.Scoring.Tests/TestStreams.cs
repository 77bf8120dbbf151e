// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Scoring.Tests;

/// <summary>A small stream and helpers to speak of it in seconds.</summary>
internal static class TestStreams
{
    public const long Second = 1_000_000_000;
    public const long Ms = 1_000_000;
    public const int Ecg = 0;
    public const int Infrared = 1;

    public static StreamFormat Format(long ecgDelayNs = 0, long infraredDelayNs = 0) => new(
    [
        Channel(ChannelName.Ecg, 250, ecgDelayNs),
        Channel(ChannelName.Infrared, 100, infraredDelayNs),
    ]);

    public static TruthEvent RPeak(long timeNs, long beatId = 0, TruthFlags flags = TruthFlags.None) =>
        new(ChannelName.Ecg, MarkKind.RPeak, timeNs, 1, beatId, BeatClass.Normal, flags);

    public static TruthEvent Truth(ChannelName channel, MarkKind kind, long timeNs, double value = double.NaN, long beatId = 0) =>
        new(channel, kind, timeNs, value, beatId, BeatClass.Normal, TruthFlags.None);

    public static Mark EcgMark(long sample, byte fraction = 0) => new()
    {
        Channel = Ecg, Kind = MarkKind.RPeak, Sample = sample, Fraction256 = fraction, EmittedTick = sample * 2,
    };

    public static Mark HeartRate(long sample, long windowSamples, double rateBpm) => new()
    {
        Channel = Ecg, Kind = MarkKind.HeartRateBpm, Sample = sample, WindowSamples = windowSamples,
        HasValue = true, ValueMilli = (int)Math.Round(rateBpm * 1000), EmittedTick = (sample + 25) * 2,
    };

    public static Mark Arrival(long footSample, long rSample, double arrivalMs) => new()
    {
        Channel = Infrared, Kind = MarkKind.ArrivalTimeMs, Sample = footSample, HasValue = true,
        ValueMilli = (int)Math.Round(arrivalMs * 1000), PairedChannel = Ecg, PairedSample = rSample, EmittedTick = (footSample + 10) * 5,
    };

    public static ChannelFormat Channel(ChannelName name, int rateHz, long delayNs) => new()
    {
        Name = name, Device = "test", RateHz = rateHz, Bits = 16, IsSigned = true, UnitPerCode = 0.001, DeclaredDelayNs = delayNs,
    };
}
