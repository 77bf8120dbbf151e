// SPDX-License-Identifier: MIT
using SensorSim.Detection;
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Streams;

namespace SensorSim.Detectors;

/// <summary>Turns the library's events into marks of the contract.</summary>
internal struct MarkWriter
{
    private readonly int _ecg;
    private readonly int _optical;
    private readonly double _milliPerCode;

    public MarkWriter(StreamFormat format, int ecg, int optical)
    {
        _ecg = ecg;
        _optical = optical;
        _milliPerCode = ecg < 0 ? 0 : format.Channels[ecg].UnitPerCode * format.Channels[ecg].Polarity * 1000;
    }

    /// <summary>End of the last block seen, for what is given at the end of the stream.</summary>
    public long EndTick { get; set; }

    public readonly void Beat(DetectorOutput output, in BeatEvent beat, long emittedTick)
    {
        // Millivolts in thousandths, clipped to the field.
        double value = Math.Round(beat.AmplitudeCodes * _milliPerCode);
        output.Marks.Add(At(_ecg, MarkKind.RPeak, beat.RPeak, beat.Quality, emittedTick) with
        {
            HasValue = true,
            ValueMilli = (int)Math.Max(int.MinValue, Math.Min(int.MaxValue, value)),
        });
    }

    public readonly void Rate(DetectorOutput output, in BeatEvent beat, in HeartRate rate, long emittedTick) =>
        output.Marks.Add(At(_ecg, MarkKind.HeartRateBpm, beat.RPeak, beat.Quality, emittedTick) with
        {
            HasValue = true,
            ValueMilli = rate.RateMilliBpm,
            WindowSamples = rate.WindowSamples,
        });

    public readonly void Pulse(DetectorOutput output, in PulseEvent pulse, long emittedTick)
    {
        output.Marks.Add(At(_optical, MarkKind.PulseFootTangent, pulse.Foot, pulse.Quality, emittedTick));
        if (pulse.SecondDerivativeFoot != default)
        {
            output.Marks.Add(At(_optical, MarkKind.PulseFootSecondDerivative, pulse.SecondDerivativeFoot, pulse.Quality, emittedTick));
        }

        output.Marks.Add(At(_optical, MarkKind.SteepestPoint, pulse.Steepest, pulse.Quality, emittedTick));
        output.Marks.Add(At(_optical, MarkKind.SystolicPeak, pulse.SystolicPeak, pulse.Quality, emittedTick));
    }

    public readonly void ArrivalTime(DetectorOutput output, in Arrival arrival, long emittedTick) =>
        output.Marks.Add(At(_optical, MarkKind.ArrivalTimeMs, arrival.Foot, 255, emittedTick) with
        {
            HasValue = true,
            ValueMilli = arrival.TimeUs,
            PairedChannel = _ecg,
            PairedSample = arrival.RPeak.Sample,
            PairedFraction256 = arrival.RPeak.Fraction256,
        });

    private static Mark At(int channel, MarkKind kind, SamplePosition place, byte quality, long emittedTick) => new()
    {
        Channel = channel,
        Kind = kind,
        Sample = place.Sample,
        Fraction256 = place.Fraction256,
        Quality = quality,
        EmittedTick = emittedTick,
    };
}
