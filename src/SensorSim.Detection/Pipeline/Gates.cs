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
    private bool _hasEcg;
    private bool _hasLight;
    private int _lightStep;
    private int _ecgStep;

    /// <summary>Whether both signals are there, so that there is a joint gate.</summary>
    public readonly bool HasJoint => _hasEcg && _hasLight;

    public void Start(in LibrarySetup setup)
    {
        ChannelSetup ecg = setup[ChannelRole.Ecg];
        _light = setup.Light;
        _hasEcg = ecg.IsThere;
        _hasLight = _light != ChannelRole.None;
        _ecgStep = ecg.TicksPerSample;
        if (_hasEcg)
        {
            Ecg.Start(setup.Clock, ecg.RateHz);
        }

        if (_hasLight)
        {
            _lightStep = setup[_light].TicksPerSample;
            Pulse.Start(setup.Clock, setup[_light].RateHz);
        }

        Joint.Start(setup.Clock);
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

            if (ecg.Count > 0 && ecg.IsUsable)
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

            if (light.Count > 0 && light.IsUsable)
            {
                Pulse.Usable(now256);
            }

            light.Looked();
        }
    }

    /// <summary>Time goes on to a tick.</summary>
    public void Advance(long tick, ref AnswerList answers)
    {
        long now256 = tick * 256;
        if (_hasEcg && Ecg.Advance(now256))
        {
            bool isOpen = Ecg.Reason == GateReason.None;
            Give(isOpen ? AnswerKind.GateOpen : AnswerKind.GateShut, ChannelRole.Ecg, Ecg.SinceTicks256, _ecgStep, Ecg.Quality, Ecg.Reason, tick, ref answers);
        }

        if (_hasLight && Pulse.Advance(now256))
        {
            bool isOpen = Pulse.Reason == GateReason.None;
            Give(isOpen ? AnswerKind.GateOpen : AnswerKind.GateShut, _light, Pulse.SinceTicks256, _lightStep, Pulse.Quality, Pulse.Reason, tick, ref answers);
        }

        if (HasJoint && Joint.Advance(Ecg, Pulse, now256))
        {
            bool isOpen = Joint.Reason == GateReason.None;
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
