// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;

namespace SensorSim.Detection.Pipeline;

/// <summary>From beats and pulses, in order of time, to answers.</summary>
internal struct JointPath
{
    private HeartRate _heartRate;
    private Arrival _arrival;
    private ChannelRole _light;
    private bool _hasEcg;

    public void Start(in LibrarySetup setup)
    {
        _light = setup.Light;
        ChannelSetup ecg = setup[ChannelRole.Ecg];
        ChannelSetup light = _light == ChannelRole.None ? default : setup[_light];
        _hasEcg = ecg.IsThere;
        _heartRate.Start(ecg.IsThere ? ecg.RateHz : 1);
        _arrival.Start(setup.Clock.TicksPerSecond, ecg.TicksPerSample, light.TicksPerSample, ecg.IsThere && light.IsThere ? light.Delay256 - ecg.Delay256 : 0);
    }

    public void Take(in Found found, ref AnswerList answers)
    {
        if (found.IsBeat)
        {
            TakeBeat(found.Beat, found.Tick + 1, ref answers);
        }
        else
        {
            TakePulse(found.Pulse, found.Tick + 1, ref answers);
        }
    }

    private static Answer At(AnswerKind kind, ChannelRole role, SamplePosition place, byte quality, long emittedTick) => new()
    {
        Kind = kind,
        Role = role,
        PairedRole = ChannelRole.None,
        Place = place,
        Quality = quality,
        EmittedTick = emittedTick,
    };

    private void TakeBeat(in BeatEvent beat, long emittedTick, ref AnswerList answers)
    {
        answers.Add(At(AnswerKind.RPeak, ChannelRole.Ecg, beat.RPeak, beat.Quality, emittedTick) with { Value = beat.AmplitudeCodes });
        if (_heartRate.Add(beat))
        {
            answers.Add(At(AnswerKind.Reading, ChannelRole.Ecg, beat.RPeak, beat.Quality, emittedTick) with
            {
                Reading = ReadingKind.HeartRateEcg,
                Value = _heartRate.RateMilliBpm,
                WindowSamples = _heartRate.WindowSamples,
            });
        }

        if (_light != ChannelRole.None && _arrival.AddRPeak(beat.RPeak))
        {
            GiveArrival(emittedTick, ref answers);
        }
    }

    private void TakePulse(in PulseEvent pulse, long emittedTick, ref AnswerList answers)
    {
        answers.Add(At(AnswerKind.FootTangent, _light, pulse.Foot, pulse.Quality, emittedTick));
        answers.Add(At(AnswerKind.SteepestPoint, _light, pulse.Steepest, pulse.Quality, emittedTick));
        answers.Add(At(AnswerKind.SystolicPeak, _light, pulse.SystolicPeak, pulse.Quality, emittedTick));
        if (_hasEcg && _arrival.AddFoot(pulse.Foot))
        {
            GiveArrival(emittedTick, ref answers);
        }
    }

    private readonly void GiveArrival(long emittedTick, ref AnswerList answers) =>
        answers.Add(At(AnswerKind.Reading, _light, _arrival.Foot, 255, emittedTick) with
        {
            Reading = ReadingKind.Arrival,
            Value = _arrival.TimeUs,
            PairedRole = ChannelRole.Ecg,
            Paired = _arrival.RPeak,
        });
}
