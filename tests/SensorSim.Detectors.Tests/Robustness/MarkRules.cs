// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors.Tests.Robustness;

/// <summary>What every mark of the library must be, whatever came in: of a place that was handed over, of its time, possible, and not behind a shut gate.</summary>
internal sealed class MarkRules(StreamFormat format)
{
    private readonly bool[] _isOpen = new bool[format.Channels.Count];
    private bool _isJointOpen;
    private long _latest = long.MinValue;

    /// <summary>What is wrong with a mark; null: nothing.</summary>
    /// <param name="mark">The mark.</param>
    /// <param name="beginTick">First tick of the block in which it was given.</param>
    /// <param name="endTick">Tick after the last that was handed over.</param>
    public string? Wrong(in Mark mark, long beginTick, long endTick)
    {
        if ((uint)mark.Channel >= (uint)format.Channels.Count || mark.PairedChannel >= format.Channels.Count)
        {
            return "of no channel";
        }

        // A foot or the base of a window may lie before the first sample, by no more than a second.
        long most = format.FirstSampleAtOrAfter(mark.Channel, endTick);
        if (mark.Position256 > most * 256 || mark.Sample < -format.Channels[mark.Channel].RateHz)
        {
            return "of a place that was not handed over";
        }

        if (mark.PairedChannel >= 0 && (mark.PairedSample * 256) + mark.PairedFraction256 > format.FirstSampleAtOrAfter(mark.PairedChannel, endTick) * 256)
        {
            return "with a partner to come";
        }

        if (mark.EmittedTick < beginTick || mark.EmittedTick >= endTick + format.TicksPerSample(mark.Channel) || mark.EmittedTick < _latest)
        {
            return "of a time outside its block, or before one given earlier";
        }

        _latest = mark.EmittedTick;
        return Value(mark) ?? Gate(mark);
    }

    private string? Gate(in Mark mark)
    {
        switch (mark.Kind)
        {
            case MarkKind.GateOpen or MarkKind.GateShut:
                _isOpen[mark.Channel] = mark.Kind == MarkKind.GateOpen;
                return null;
            case MarkKind.JointGateOpen or MarkKind.JointGateShut:
                _isJointOpen = mark.Kind == MarkKind.JointGateOpen;
                return null;
            case MarkKind.ArrivalTimeMs:
                return _isJointOpen ? null : "while the joint gate is shut";
            case MarkKind.HeartRateBpm or MarkKind.RrMeanMs or MarkKind.SdnnMs or MarkKind.RmssdMs when format.Channels[mark.Channel].Name == ChannelName.Ecg:
            case MarkKind.Spo2Percent or MarkKind.PerfusionIndexPercent or MarkKind.RespirationRateBpm:
                return _isOpen[mark.Channel] ? null : "while its gate is shut";
            default:
                return null;
        }
    }

    private static string? Value(in Mark mark)
    {
        // An interval that counts is at most 6 s, so 10 beats a minute; breathing below three sevenths of the heart rate.
        (double least, double most) = mark.Kind switch
        {
            MarkKind.HeartRateBpm or MarkKind.HeartRateFusedBpm => (10, 350),
            MarkKind.Spo2Percent => (0, 100),
            MarkKind.PerfusionIndexPercent => (0, 200),
            MarkKind.RespirationRateBpm => (3, 70),
            MarkKind.CadencePerMin => (1, 300),
            MarkKind.ArrivalTimeMs or MarkKind.ArrivalSpotMs => (80, 450),
            MarkKind.ArrivalSpreadMs => (0, 400),
            MarkKind.RrMeanMs => (150, 3000),
            MarkKind.SdnnMs or MarkKind.RmssdMs => (0, 3000),
            MarkKind.GateShut or MarkKind.JointGateShut => (1, 8),
            _ => (double.MinValue, double.MaxValue),
        };
        return mark.Value >= least && mark.Value <= most ? null : FormattableString.Invariant($"of an impossible value {mark.Value}");
    }
}
