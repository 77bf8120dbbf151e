// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Gate;
using SensorSim.Detection.Pulses;

namespace SensorSim.Detection.Tests.Gate;

/// <summary>Feeds the gates by seconds, on a clock of 500 ticks, judging every 100 ms; remembers what opened and shut.</summary>
internal sealed class GateScript
{
    public const long TicksPerSecond = 500;

    private double _nowS;

    public EcgGate Ecg;
    public PulseGate Pulse;
    public JointGate Joint;

    public GateScript()
    {
        var clock = new CommonClock(TicksPerSecond);
        Ecg.Start(clock);
        Pulse.Start(clock);
        Joint.Start(clock);
    }

    public List<(double S, bool IsOpen, GateReason Reason)> EcgChanges { get; } = [];

    public List<(double S, bool IsOpen, GateReason Reason)> PulseChanges { get; } = [];

    public List<(double S, bool IsOpen, GateReason Reason)> JointChanges { get; } = [];

    public double NowS => _nowS;

    public int SignalLevel { get; set; } = 8000;

    public int NoiseLevel { get; set; } = 1000;

    public int LevelCodes { get; set; }

    /// <summary>Between the place of an event and its telling; 0 here, so that a script reads plainly.</summary>
    public static long Ticks256(double seconds) => (long)Math.Round(seconds * TicksPerSecond * 256);

    public GateScript Until(double seconds)
    {
        while (_nowS + 0.1 <= seconds + 1e-9)
        {
            _nowS += 0.1;
            Advance(_nowS);
        }

        return this;
    }

    public GateScript Beat(double seconds, int amplitude = 1000, bool startsRun = false)
    {
        Until(seconds);
        var beat = new BeatEvent(default, amplitude, 255, startsRun, 0);
        Ecg.Beat(beat, Ticks256(seconds), SignalLevel, NoiseLevel);
        Advance(seconds);
        return this;
    }

    public GateScript Foot(double seconds, int amplitude = 1000, bool startsRun = false)
    {
        Until(seconds);
        var pulse = new PulseEvent(default, default, default, amplitude, 255, 0, default, LevelCodes, startsRun);
        Pulse.Pulse(pulse, Ticks256(seconds), SignalLevel, NoiseLevel);
        Advance(seconds);
        return this;
    }

    public GateScript Arrival(double seconds, int timeUs)
    {
        Joint.Arrival(Ticks256(seconds), timeUs);
        Advance(seconds);
        return this;
    }

    /// <summary>Regular beats until a time; the first one interval after now.</summary>
    public GateScript Beats(double untilS, double intervalS, int amplitude = 1000)
    {
        for (double t = _last + intervalS; t <= untilS + 1e-9; t += intervalS)
        {
            Beat(t, amplitude);
            _last = t;
        }

        return Until(untilS);
    }

    /// <summary>Regular pulses until a time.</summary>
    public GateScript Feet(double untilS, double intervalS, int amplitude = 1000)
    {
        for (double t = _last + intervalS; t <= untilS + 1e-9; t += intervalS)
        {
            Foot(t, amplitude);
            _last = t;
        }

        return Until(untilS);
    }

    /// <summary>Where <see cref="Beats"/> and <see cref="Feet"/> go on from.</summary>
    public GateScript From(double seconds)
    {
        _last = seconds;
        return this;
    }

    private double _last;

    private void Advance(double seconds)
    {
        long now = Ticks256(seconds);
        if (Ecg.Advance(now))
        {
            EcgChanges.Add((seconds, Ecg.Reason == GateReason.None, Ecg.Reason));
        }

        if (Pulse.Advance(now))
        {
            PulseChanges.Add((seconds, Pulse.Reason == GateReason.None, Pulse.Reason));
        }

        if (Joint.Advance(Ecg, Pulse, now))
        {
            JointChanges.Add((seconds, Joint.Reason == GateReason.None, Joint.Reason));
        }
    }
}
