// SPDX-License-Identifier: MIT
using SensorSim.Sensing.Candidates;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Randomness;
using SensorSim.Signals.Streams;

namespace SensorSim.Sensing.Conversion;

/// <summary>A converter that gets stuck: for a while it repeats the code before, and says of the range what it said then.</summary>
/// <remarks>All channels of one converter get stuck at the same times, each on its own code.</remarks>
internal sealed class StuckCodes
{
    private const ushort Range = (ushort)SampleStatus.OverRange;

    private readonly SampleStretches _stretches;
    private int _code;
    private int _range;
    private bool _hasCode;

    private StuckCodes(SampleStretches stretches) => _stretches = stretches;

    private StuckCodes(StuckCodes other)
    {
        _stretches = other._stretches.Copy();
        _code = other._code;
        _range = other._range;
        _hasCode = other._hasCode;
    }

    /// <summary>The stuck codes of a channel, or null when it has none.</summary>
    public static StuckCodes? Of(KeyValues values, ulong seed, ChannelFormat format)
    {
        ConversionKeys keys = ConversionKeys.Of(format.Name);
        double perSecond = values[keys.StuckCodesPerH] / 3600;
        return perSecond == 0
            ? null
            : new StuckCodes(new TimedStretches(new RareTimes(Source(seed, keys), perSecond), values[keys.StuckCodesS], format.RateHz));
    }

    /// <summary>Holds codes.</summary>
    /// <param name="codes">The codes.</param>
    /// <param name="status">Their status words.</param>
    /// <param name="firstIndex">Index of the first one.</param>
    public void Apply(Span<int> codes, Span<ushort> status, long firstIndex)
    {
        long end = firstIndex + codes.Length;
        for (long at = firstIndex; at < end;)
        {
            long stuck = _stretches.Next(at, end);
            if (stuck > at)
            {
                Remember(codes, status, (int)(stuck - firstIndex) - 1);
            }

            long until = stuck < end ? Math.Min(end, _stretches.End) : end;
            for (int i = (int)(stuck - firstIndex); i < (int)(until - firstIndex); i++)
            {
                if (!_hasCode)
                {
                    Remember(codes, status, i);
                }

                codes[i] = _code;
                status[i] = (ushort)((status[i] & ~Range) | _range);
            }

            at = until;
        }
    }

    /// <summary>An independent copy with the same state.</summary>
    public StuckCodes Copy() => new(this);

    private static KeyedRandom Source(ulong seed, ConversionKeys keys) =>
        ReferenceEquals(keys, ConversionKeys.Ecg) ? new KeyedRandom(seed, "ecg_amplifier.stuck_codes")
        : ReferenceEquals(keys, ConversionKeys.Optics) ? new KeyedRandom(seed, "optics.stuck_codes")
        : new KeyedRandom(seed, "accelerometer.stuck_codes");

    private void Remember(ReadOnlySpan<int> codes, ReadOnlySpan<ushort> status, int place)
    {
        _code = codes[place];
        _range = status[place] & Range;
        _hasCode = true;
    }
}
