// SPDX-License-Identifier: MIT
using SensorSim.Detection.Gate;

namespace SensorSim.Detection.Pipeline;

/// <summary>The three gates, and the answers that they give.</summary>
internal struct Gates
{
    public EcgGate Ecg;
    public PulseGate Pulse;
    public JointGate Joint;
    private ChannelRole _light;
    private GateReason _ecgTold;
    private GateReason _pulseTold;
    private GateReason _jointTold;
    private byte _tenths;
    private bool _hasEcg;
    private bool _hasLight;
    private int _lightStep;
    private int _ecgStep;

    /// <summary>Whether both signals are there, so that there is a joint gate.</summary>
    public readonly bool HasJoint => _hasEcg && _hasLight;

    public void Start(in LibrarySetup setup, in Tuning tuning)
    {
        ChannelSetup ecg = setup[ChannelRole.Ecg];
        _light = setup.Light;
        _hasEcg = ecg.IsThere;
        _hasLight = _light != ChannelRole.None;
        _ecgStep = ecg.TicksPerSample;
        if (_hasEcg)
        {
            Ecg.Start(setup.Clock, tuning);
        }

        if (_hasLight)
        {
            _lightStep = setup[_light].TicksPerSample;
            Pulse.Start(setup.Clock, tuning);
        }

        Joint.Start(setup.Clock, tuning);
    }

    /// <summary>Tells the gates what the channels were like since they last looked.</summary>
    public void Look(ref ChannelState ecg, ref ChannelState light, long tick)
    {
        long now256 = tick * 256;
        if (_hasEcg)
        {
            if (ecg.Flags != 0 || ecg.Count == 0)
            {
                Ecg.Unusable(now256, ecg.Flags);
            }

            if (ecg.HasUsable)
            {
                Ecg.Usable(now256);
            }

            ecg.Looked();
        }

        if (_hasLight)
        {
            if (light.Flags != 0 || light.Count == 0)
            {
                Pulse.Unusable(now256, light.Flags);
            }

            if (light.HasUsable)
            {
                Pulse.Usable(now256);
            }

            light.Looked();
        }
    }

    /// <summary>A tenth of a second is over: once a second a reason that has changed while a gate was shut is told, the first one too.</summary>
    public void TellReasons(long tick, ref AnswerList answers)
    {
        _tenths = _tenths == 9 ? (byte)0 : (byte)(_tenths + 1);
        if (_tenths != 0)
        {
            return;
        }

        if (_hasEcg && IsNews(Ecg.Reason, ref _ecgTold))
        {
            Give(AnswerKind.GateShut, ChannelRole.Ecg, tick * 256, _ecgStep, 0, Ecg.Reason, tick, ref answers);
        }

        if (_hasLight && IsNews(Pulse.Reason, ref _pulseTold))
        {
            Give(AnswerKind.GateShut, _light, tick * 256, _lightStep, 0, Pulse.Reason, tick, ref answers);
        }

        if (HasJoint && IsNews(Joint.Reason, ref _jointTold))
        {
            Give(AnswerKind.JointGateShut, _light, tick * 256, _lightStep, 0, Joint.Reason, tick, ref answers);
        }
    }

    private static bool IsNews(GateReason reason, ref GateReason told)
    {
        bool isNews = reason != GateReason.None && reason != told;
        told = reason;
        return isNews;
    }

    /// <summary>Time goes on to a tick.</summary>
    public void Advance(long tick, ref AnswerList answers)
    {
        long now256 = tick * 256;
        if (_hasEcg && Ecg.Advance(now256))
        {
            bool isOpen = Ecg.Reason == GateReason.None;
            _ecgTold = Ecg.Reason;
            Give(isOpen ? AnswerKind.GateOpen : AnswerKind.GateShut, ChannelRole.Ecg, Ecg.SinceTicks256, _ecgStep, Ecg.Quality, Ecg.Reason, tick, ref answers);
        }

        if (_hasLight && Pulse.Advance(now256))
        {
            bool isOpen = Pulse.Reason == GateReason.None;
            _pulseTold = Pulse.Reason;
            Give(isOpen ? AnswerKind.GateOpen : AnswerKind.GateShut, _light, Pulse.SinceTicks256, _lightStep, Pulse.Quality, Pulse.Reason, tick, ref answers);
        }

        if (HasJoint && Joint.Advance(Ecg, Pulse, now256))
        {
            bool isOpen = Joint.Reason == GateReason.None;
            _jointTold = Joint.Reason;
            Give(isOpen ? AnswerKind.JointGateOpen : AnswerKind.JointGateShut, _light, Joint.SinceTicks256, _lightStep, Joint.Quality, Joint.Reason, tick, ref answers);
        }
    }

    private static void Give(
        AnswerKind kind, ChannelRole role, long ticks256, int step, byte quality, GateReason reason, long tick, ref AnswerList answers) => answers.Add(new Answer
    {
        Kind = kind,
        Role = role,
        PairedRole = ChannelRole.None,
        Place = SamplePosition.From256(ticks256 / step),
        Quality = quality,
        Value = (int)reason,
        EmittedTick = tick,
    });
}
