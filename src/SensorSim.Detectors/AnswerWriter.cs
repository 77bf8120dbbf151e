// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Detection.Pipeline;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>Turns the library's answers into marks of the contract.</summary>
internal readonly struct AnswerWriter
{
    private readonly int[] _channelOf;
    private readonly double _milliPerCode;

    public AnswerWriter(StreamFormat format)
    {
        _channelOf = SetupOf.ChannelsOf(format);
        int ecg = format.IndexOf(ChannelName.Ecg);
        _milliPerCode = ecg < 0 ? 0 : MarkValues.MilliPerCode(format.Channels[ecg]);
    }

    public void Write(in Answer answer, DetectorOutput output)
    {
        var mark = new Mark
        {
            Channel = _channelOf[(int)answer.Role],
            Kind = KindOf(answer),
            Sample = answer.Place.Sample,
            Fraction256 = answer.Place.Fraction256,
            Quality = answer.Quality,
            EmittedTick = answer.EmittedTick,
            HasValue = HasValue(answer.Kind),
            ValueMilli = ValueOf(answer),
            WindowSamples = answer.WindowSamples,
        };
        if (answer.PairedRole != ChannelRole.None)
        {
            mark = mark with
            {
                PairedChannel = _channelOf[(int)answer.PairedRole],
                PairedSample = answer.Paired.Sample,
                PairedFraction256 = answer.Paired.Fraction256,
            };
        }

        output.Marks.Add(mark);
    }

    private static bool HasValue(AnswerKind kind) =>
        kind is AnswerKind.RPeak or AnswerKind.Reading or AnswerKind.GateShut or AnswerKind.JointGateShut;

    private int ValueOf(in Answer answer) => answer.Kind switch
    {
        // Millivolts in thousandths, clipped to the field.
        AnswerKind.RPeak => MarkValues.Milli(answer.Value, _milliPerCode),
        AnswerKind.GateShut or AnswerKind.JointGateShut => answer.Value * 1000,
        _ => answer.Value,
    };

    private static MarkKind KindOf(in Answer answer) => answer.Kind switch
    {
        AnswerKind.RPeak => MarkKind.RPeak,
        AnswerKind.FootTangent => MarkKind.PulseFootTangent,
        AnswerKind.FootSecondDerivative => MarkKind.PulseFootSecondDerivative,
        AnswerKind.SteepestPoint => MarkKind.SteepestPoint,
        AnswerKind.SystolicPeak => MarkKind.SystolicPeak,
        AnswerKind.GateOpen => MarkKind.GateOpen,
        AnswerKind.GateShut => MarkKind.GateShut,
        AnswerKind.JointGateOpen => MarkKind.JointGateOpen,
        AnswerKind.JointGateShut => MarkKind.JointGateShut,
        AnswerKind.IrregularRhythm => MarkKind.IrregularRhythm,
        AnswerKind.RegularRhythm => MarkKind.RegularRhythm,
        _ => KindOf(answer.Reading),
    };

    private static MarkKind KindOf(ReadingKind reading) => reading switch
    {
        ReadingKind.HeartRateEcg or ReadingKind.HeartRatePulse => MarkKind.HeartRateBpm,
        ReadingKind.HeartRateFused => MarkKind.HeartRateFusedBpm,
        ReadingKind.RrMean => MarkKind.RrMeanMs,
        ReadingKind.Sdnn => MarkKind.SdnnMs,
        ReadingKind.Rmssd => MarkKind.RmssdMs,
        ReadingKind.Arrival => MarkKind.ArrivalTimeMs,
        ReadingKind.ArrivalSpot => MarkKind.ArrivalSpotMs,
        ReadingKind.ArrivalSpread => MarkKind.ArrivalSpreadMs,
        ReadingKind.Spo2 => MarkKind.Spo2Percent,
        ReadingKind.PerfusionIndex => MarkKind.PerfusionIndexPercent,
        ReadingKind.RespirationRate => MarkKind.RespirationRateBpm,
        ReadingKind.Cadence => MarkKind.CadencePerMin,
        ReadingKind.Systolic => MarkKind.SystolicMmhg,
        ReadingKind.Diastolic => MarkKind.DiastolicMmhg,
        _ => MarkKind.PressureTrendMmhg,
    };
}
