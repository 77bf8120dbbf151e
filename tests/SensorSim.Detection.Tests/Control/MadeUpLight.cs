// SPDX-License-Identifier: MIT
using SensorSim.Detection.Control;

namespace SensorSim.Detection.Tests.Control;

/// <summary>A made-up optical sensor that a level controller sets: LEDs of any brightness, room light, a rail, requests that take their time.</summary>
internal sealed class MadeUpLight
{
    public const int RateHz = 25;
    public const int Zero = 1_000;
    public const int Top = 65_535;
    private readonly LevelSettings _settings;
    private readonly Queue<(double AtS, ControlRequest Request)> _waiting = new();
    private readonly byte[] _number = new byte[4];
    private readonly double[] _ma;
    private readonly double[] _gain = [1, 1, 1, 1];
    private LevelController _controller;
    private long _index;

    /// <summary>Creates a sensor.</summary>
    /// <param name="settings">Settings of the controller.</param>
    /// <param name="codesPerMa">Codes that each LED gives for each mA at a gain of 1.</param>
    public MadeUpLight(LevelSettings settings, params double[] codesPerMa)
    {
        _settings = settings;
        CodesPerMa = codesPerMa;
        _ma = [.. codesPerMa.Select(_ => 10.0)];
        _controller.Start();
        for (int i = 0; i < codesPerMa.Length; i++)
        {
            Assert.That(_controller.Add((ControlRole)i, RateHz, Zero, Top), Is.True);
        }
    }

    public double[] CodesPerMa { get; }

    /// <summary>Room light at a time [s], in codes at a gain of 1.</summary>
    public Func<double, double> Room { get; init; } = _ => 0;

    /// <summary>Light of the LEDs as a factor at a time [s]: pulse, breathing, movement.</summary>
    public Func<double, double> Tissue { get; init; } = _ => 1;

    /// <summary>Exponent of light against current: 1 for an ideal LED.</summary>
    public double Bend { get; init; } = 1;

    public double DelayS { get; init; } = 0.2;

    /// <summary>Largest current that the sensor takes [mA]; more is clamped.</summary>
    public double MostMa { get; init; } = 250;

    public bool Refuses { get; set; }

    public bool IsOff { get; set; }

    public bool HasDark { get; init; }

    public List<(double AtS, ControlRequest Request)> Requests { get; } = [];

    /// <summary>Settings that have changed.</summary>
    public int Changes { get; private set; }

    public double TimeS => (double)_index / RateHz;

    public IReadOnlyList<double> Ma => _ma;

    public double Gain => _gain[0];

    /// <summary>Mean level of each LED's channel over the last second, in percent of the range; with the part that is its own.</summary>
    public (double Level, double Own)[] Levels { get; } = new (double, double)[3];

    public void Run(double seconds)
    {
        if (_index == 0 && HasDark)
        {
            Assert.That(_controller.Add(ControlRole.Dark, RateHz, Zero, Top), Is.True);
        }

        long end = _index + (long)(seconds * RateHz);
        while (_index < end)
        {
            if (_index % RateHz == 0)
            {
                Array.Clear(Levels);
            }

            Change();
            for (int i = 0; i < CodesPerMa.Length + (HasDark ? 1 : 0); i++)
            {
                Sample(i == CodesPerMa.Length ? ControlRole.Dark : (ControlRole)i);
            }

            _index++;
        }
    }

    private void Sample(ControlRole role)
    {
        int channel = (int)role;
        double own = role == ControlRole.Dark ? 0 : CodesPerMa[channel] * 10 * Math.Pow(_ma[channel] / 10, Bend) * Tissue(TimeS);
        double value = Zero + (_gain[channel] * (Room(TimeS) + own));
        int code = (int)Math.Clamp(Math.Round(value), 0, Top);
        ushort status = (ushort)((_number[channel] << SampleFlags.SettingsShift) | (value > Top ? SampleFlags.OverRange : 0));
        if (role != ControlRole.Dark)
        {
            (double level, double mine) = Levels[channel];
            Levels[channel] = (level + ((code - Zero) * 100.0 / (Top - Zero) / RateHz), mine + (_gain[channel] * own * 100.0 / (Top - Zero) / RateHz));
        }

        if (!IsOff && _controller.Next(_settings, role, code, status, _index))
        {
            Requests.Add((TimeS, _controller.Request));
            if (!Refuses)
            {
                _waiting.Enqueue((TimeS + DelayS, _controller.Request));
            }
        }
    }

    private void Change()
    {
        while (_waiting.Count > 0 && _waiting.Peek().AtS <= TimeS)
        {
            ControlRequest request = _waiting.Dequeue().Request;
            double value = request.ValueMilli / 1000.0;
            for (int i = 0; i < 4; i++)
            {
                if (request.Role != ControlRole.AllLight && (int)request.Role != i)
                {
                    continue;
                }

                ref double setting = ref request.Setting == ControlSetting.Gain ? ref _gain[i] : ref _ma[i];
                double taken = request.Setting == ControlSetting.Gain ? value : Math.Min(value, MostMa);
                _number[i] += (byte)(setting != taken ? 1 : 0);
                Changes += setting != taken ? 1 : 0;
                setting = taken;
            }
        }
    }
}
