// SPDX-License-Identifier: MIT
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Control;

/// <summary>Asks for LED current so that the mean code of each lit channel stays in a band of the converter's range.</summary>
/// <remarks>
/// Starts every LED at <see cref="StartMilli"/>. Each second outside of the band asks for the current that would put the mean into its middle
/// if all light came from the LED, at most twice or half of the present one; a second with clipped samples asks for half. While a request
/// has not shown in the number of the status words, and in the second in which it shows, nothing is asked. Ambient light is not told apart.
/// </remarks>
public sealed class LightLevelControl : ControllingDetector
{
    internal const string Word = "light_level";

    /// <summary>LED current at the start [µA].</summary>
    public const int StartMilli = 10_000;

    /// <summary>Smallest current that is asked for [µA].</summary>
    public const int LeastMilli = 500;

    /// <summary>Largest current that is asked for [µA].</summary>
    public const int MostMilli = 100_000;

    /// <summary>Lower end of the band, in percent of the codes above that of no light.</summary>
    public const int LowPercent = 35;

    /// <summary>Upper end of the band.</summary>
    public const int HighPercent = 65;

    private const int TargetPercent = 50;

    // A request that never shows was refused, or changed nothing.
    private const int MostPatienceSeconds = 10;

    private static readonly ChannelName[] s_lit = [ChannelName.Red, ChannelName.Infrared, ChannelName.Green];
    private Lamp[] _lamps = [];
    private bool _isStarted;

    /// <summary>Puts the control around a detector.</summary>
    /// <param name="inner">Gives the marks; disposed with this one.</param>
    public LightLevelControl(IDetector inner)
        : base(inner, Word)
    {
    }

    private protected override void Begin(StreamFormat format)
    {
        int[] channels = [.. s_lit.Select(format.IndexOf).Where(c => c >= 0)];
        _lamps = Array.ConvertAll(channels, c => new Lamp(c, format.Channels[c]));
        _isStarted = false;
    }

    private protected override void Control(SampleBlock block, EventRing<SettingsRequest> requests)
    {
        for (int i = 0; i < _lamps.Length; i++)
        {
            ref Lamp lamp = ref _lamps[i];
            if (!_isStarted)
            {
                requests.Add(new SettingsRequest(lamp.Level.Channel, SensorSetting.LedCurrentMa, StartMilli, 0));
            }

            ChannelBlock channel = block.Channels[lamp.Level.Channel];
            foreach (SampleRun run in channel.Runs)
            {
                for (int done = 0; done < run.Count;)
                {
                    long index = run.FirstIndex + done;
                    if (lamp.Level.IsOver(index))
                    {
                        Decide(ref lamp, requests);
                        lamp.Level.Begin(index);
                    }

                    int place = run.Offset + done;
                    int left = run.Count - done;
                    done += lamp.Level.Take(channel.Codes.Slice(place, left), channel.Status.Slice(place, left), index);
                }
            }
        }

        _isStarted = true;
    }

    private static void Decide(ref Lamp lamp, EventRing<SettingsRequest> requests)
    {
        if (lamp.Level.Count == 0 || lamp.Level.IsMixed)
        {
            lamp.Patience = lamp.Level.IsMixed ? 0 : lamp.Patience;
            return;
        }

        if (lamp.Patience > 0 && lamp.Level.Settings == lamp.AskedAt)
        {
            lamp.Patience--;
            return;
        }

        lamp.Patience = 0;
        int wanted = Wanted(lamp);
        if (wanted == lamp.Milli)
        {
            return;
        }

        lamp.Milli = wanted;
        lamp.AskedAt = lamp.Level.Settings;
        lamp.Patience = MostPatienceSeconds;
        requests.Add(new SettingsRequest(lamp.Level.Channel, SensorSetting.LedCurrentMa, wanted, 0));
    }

    private static int Wanted(in Lamp lamp)
    {
        long level = lamp.Level.Mean - lamp.Zero;
        long current = lamp.Milli;
        if (lamp.Level.IsClipped && level * 2 > lamp.Room)
        {
            current /= 2;
        }
        else if (level * 100 < lamp.Room * LowPercent || level * 100 > lamp.Room * HighPercent)
        {
            long right = level <= 0 ? MostMilli : current * lamp.Room * TargetPercent / (100 * level);
            current = Math.Min(Math.Max(right, current / 2), current * 2);
        }

        return (int)Math.Min(Math.Max(current, LeastMilli), MostMilli);
    }

    private struct Lamp(int channel, ChannelFormat format)
    {
        public ChannelLevel Level = new(channel, format);
        public int Milli = StartMilli;
        public int Patience;
        public ushort AskedAt;

        public readonly long Zero { get; } = format.ZeroCode;

        public readonly long Room { get; } = format.MaximumCode - format.ZeroCode;
    }
}
