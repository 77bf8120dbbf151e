// SPDX-License-Identifier: MIT
using SensorSim.Detection.Ambient;
using SensorSim.Detection.Movement;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;
using System.Runtime.CompilerServices;

namespace SensorSim.Detection.Pipeline;

/// <summary>From light to pulses: takes off the room's light and the movement's artefact, leaves out what cannot be used.</summary>
internal partial struct LightPath
{
    public ChannelState State;
    public MovementPath Movement;
    public Oxygen Oxygen;
    private PulseDetector _pulses;
    private DarkSubtraction _dark;
    private LitSlot _redSlot;
    private Canceller _canceller;
    private Canceller _redCanceller;
    private PulseSpectrum _spectrum;
    private ChannelRole _role;
    private ColourSetup _main;
    private ColourSetup _red;
    private int _darkStep;
    private int _lastLight;
    private int _longestBridge;
    private ushort _redSettings;
    private long _redExpected;
    private bool _hasDark;
    private bool _hasSpectrum;
    private bool _hasOxygen;
    private sbyte _darkPolarity;

    /// <summary>Whether nobody asks for the rate of the spectrum.</summary>
    public bool IsSpectrumResting
    {
        set => _spectrum.IsResting = value;
    }

    /// <summary>Light of the room [codes].</summary>
    public readonly int AmbientCodes => _hasDark ? _dark.AmbientCodes : 0;

    /// <summary>How much it moves [codes].</summary>
    public readonly int SwingCodes => _hasDark ? _dark.SwingCodes : 0;

    /// <summary>Length of a cycle of it [1/16 of a tenth of a second]; 0 where it does not go up and down evenly, or does so with the heart.</summary>
    public readonly int RoomCycle16 => _hasDark ? _dark.Cycle16 : 0;

    public bool Start(in LibrarySetup setup, in OxygenTable table, in Tuning tuning)
    {
        _role = setup.Light;
        Movement.Start(setup);
        if (_role == ChannelRole.None)
        {
            return true;
        }

        ChannelSetup light = setup[_role];
        ChannelSetup red = setup[ChannelRole.Red];
        ChannelSetup dark = setup[ChannelRole.Dark];
        State = new ChannelState(light.TicksPerSample);
        _main = new ColourSetup(light);
        _red = new ColourSetup(red);
        _redExpected = -1;
        _longestBridge = Shift.Floor(light.RateHz, 1);
        _darkStep = dark.TicksPerSample;
        _darkPolarity = (sbyte)dark.Polarity;
        _hasDark = dark.IsThere && StartDark(ref _dark, light, dark);
        _hasSpectrum = _spectrum.Start(light.RateHz);
        _hasOxygen = _role == ChannelRole.Infrared && red.IsThere && red.RateHz == light.RateHz && Oxygen.Start(light.RateHz, setup.Clock, table);
        if (_hasOxygen && _hasDark)
        {
            _redSlot.Start(red.RateHz, dark.RateHz, ShiftOf(red, dark), _red.Zero);
        }

        if (Movement.IsThere)
        {
            int rateHz = setup[ChannelRole.AccelX].RateHz;
            _canceller.Start(light.RateHz, rateHz);
            _redCanceller.Start(light.RateHz, rateHz);
        }

        // The codes come in as light above zero from here on.
        return _pulses.Start(light.RateHz, polarity: 1, zeroCode: 0, tuning);
    }

    /// <summary>Takes the samples of a slice.</summary>
    /// <param name="light">The light that pulses are read from.</param>
    /// <param name="beside">What goes beside it.</param>
    /// <param name="lastTick">The last tick of the slice.</param>
    /// <param name="found">Gets what was found.</param>
    /// <param name="probe">Sees intermediate values.</param>
    public void Take<TProbe>(ChannelPiece light, ref Beside beside, long lastTick, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        beside.DarkDue = Beside.DueOf(beside.Dark, 0, _darkStep);
        Movement.Begin(ref beside);
        for (int done = 0; done < light.Codes.Length;)
        {
            int count = State.CountAlike(light.Status[done..]);
            if (State.IsUsable)
            {
                TakeUsable(light.Codes.Slice(done, count), light.Status[done], light.FirstIndex + done, ref beside, ref found, ref probe);
            }

            done += count;
        }

        TakeBeside(ref beside, lastTick, ref found, ref probe);
    }

    /// <summary>A tenth of a second is over.</summary>
    public void EndTenth()
    {
        if (_hasDark)
        {
            _dark.Tenth(_lastLight);
        }
    }

    private static bool StartDark(ref DarkSubtraction subtraction, in ChannelSetup light, in ChannelSetup dark)
    {
        return subtraction.Start(light.RateHz, dark.RateHz, ShiftOf(light, dark), light.ZeroCode * light.Polarity, dark.ZeroCode * dark.Polarity);
    }

    // A slot that lies later has the smaller declared delay. Both in 1/256 tick; the interval of the dark slot has 256 parts.
    private static int ShiftOf(in ChannelSetup light, in ChannelSetup dark) =>
        (int)((dark.Delay256 - light.Delay256) / dark.TicksPerSample & 255);

    // Everything that has come beside the light up to a tick.
    private void TakeBeside<TProbe>(ref Beside beside, long tick, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        TakeDark(ref beside, tick);
        Movement.Take(ref beside, tick, ref found, ref probe);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void TakeDark(ref Beside beside, long tick)
    {
        while (beside.DarkDue <= tick)
        {
            int code = beside.Dark.Codes[beside.DarkAt] * _darkPolarity;
            bool isUsable = (beside.Dark.Status[beside.DarkAt] & SampleFlags.Clipped) == 0;
            beside.DarkAt++;
            beside.DarkDue = Beside.DueOf(beside.Dark, beside.DarkAt, _darkStep);
            if (isUsable && _hasDark)
            {
                _dark.Dark(code);
                _redSlot.Dark();
            }
        }
    }

    private void TakeUsable<TProbe>(
        ReadOnlySpan<int> codes, ushort status, long index, ref Beside beside, ref FoundList found, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        if (index != State.Expected)
        {
            _pulses.Restart(index);
            Interrupt();
            BridgeSpectrum(index, ref probe);
        }

        if (State.TakeSettings(status))
        {
            found.Add(new Found { Tick = index * State.Step, Kind = FoundKind.Step });
            _pulses.Step(index);
            Interrupt();

            // A step of the level has power at every rate.
            _spectrum.Restart();
        }

        State.Expected = index + codes.Length;
        while (!codes.IsEmpty)
        {
            int count = codes.Length < MostInRun ? codes.Length : MostInRun;
            count = count < probe.MostAtOnce ? count : probe.MostAtOnce;
            bool hasRed = false;
            if (_hasOxygen)
            {
                count = CountAlike(beside.Red, index, count, out hasRed);
                if (hasRed)
                {
                    FollowRed(beside.Red, index, count);
                }
            }

            Run(codes[..count], index, hasRed, ref beside, ref found, ref probe);
            codes = codes[count..];
            index += count;
        }
    }

    // What follows does not go on from what was.
    private void Interrupt()
    {
        _canceller.Restart();
        _redCanceller.Restart();
        Oxygen.Restart();
    }

    // The spectrum counts samples: a short gap is filled with what was last, a long one begins it anew.
    private void BridgeSpectrum<TProbe>(long index, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        long missing = index - State.Expected;
        if (!_hasSpectrum || State.Expected < 0)
        {
            return;
        }

        if (missing > _longestBridge)
        {
            _spectrum.Restart();
            return;
        }

        for (long i = 0; i < missing; i++)
        {
            // No window may end in the gap: its place would not be told.
            _ = _spectrum.Next(_lastLight, 0, ref probe);
        }
    }

    // How codes become light above zero.
    private readonly struct ColourSetup(in ChannelSetup channel)
    {
        public int Polarity { get; } = channel.Polarity;

        public int Zero { get; } = channel.ZeroCode * channel.Polarity;
    }
}
