// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;
using SensorSim.Detection.Pulses;
using SensorSim.Detection.Readings;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pipeline;

/// <summary>From beats and pulses, in order of time, to answers: marks always, readings only through their gate.</summary>
internal partial struct JointPath
{
    // With the gate of the pulses open for so many tenths, a whole window of the spectrum has gone by.
    private const int TenthsOfWindow = 80;

    // A beat that was told later than this was strange, or not believed at first: something lies under it that may have moved its place.
    private const int Late256 = 96;

    // Beats are clear from twice the noise on, of which noise alone gives 1.4.
    private const int ClearFactor = 2;

    // Waves of the vessels near six a minute look like breathing, with less agreement; movement does in every way.
    private const byte SureBreathing = 96;

    // A twelfth of the pulse from one to the next is held against its foot, half of it against heights, for so many pulses.
    private const int SlopeForFeet = 12;
    private const int SlopeForHeights = 2;
    private const int PulsesAfterSlope = 8;

    // Beats nearly twice as fast as pulses: nearly every second one has none, and the pulses that are there no longer stand for the mean of all
    // beats. Far from the half more that every third one would make.
    private const int PerfusionEighths = 6;
    private const int NarrowPerfusionEighths = 2;

    // Among so many beats the wide ones are counted, a bit each.
    private const int LatestBeats = 9;
    private const int LatestBeatsMask = (1 << LatestBeats) - 1;
    private const int OldestBeat = 1 << (LatestBeats - 1);

    public Gates Gates;
    public PressurePath Pressure;
    private HeartRate _ecgRate;
    private HeartRate _pulseRate;
    private EarlyPairs _earlyPairs;
    private FusedRate _fused;
    private RrVariability _variability;
    private RhythmCheck _rhythm;
    private Arrival _arrival;
    private ArrivalSpot _spot;
    private PerfusionIndex _perfusion;
    private Respiration _respiration;
    private CommonClock _clock;
    private Reading _shownEcg;
    private Reading _shownPulse;
    private Reading _shownSpectrum;
    private Reading _spectrum;
    private ChannelRole _light;
    private int _ecgStep;
    private int _lightStep;
    private int _accelStep;
    private int _pulseLevel;
    private int _beatRateBefore;
    private int _beatRateEarlier;
    private PulseShape _shape;
    private ushort _wideBeats;
    private byte _tenthsOpen;
    private bool _isSloping;
    private bool _isSpectrumWaiting;
    private bool _isBeatLate;
    private byte _sinceSlope;
    private byte _partners;
    private bool _hasArrival;
    private bool _isMoving;
    private bool _isClear;
    private bool _isRhythmCut;

    private readonly bool HasEcg => _ecgStep > 0;

    private readonly bool IsBreathingSure => !_isMoving && _respiration.Latest.Quality >= SureBreathing;

    private readonly bool HasLight => _lightStep > 0;

    public void Start(in LibrarySetup setup, in LibraryOptions options)
    {
        _light = setup.Light;
        ChannelSetup ecg = setup[ChannelRole.Ecg];
        ChannelSetup light = _light == ChannelRole.None ? default : setup[_light];
        _ecgStep = ecg.TicksPerSample;
        _lightStep = light.TicksPerSample;
        _accelStep = setup[ChannelRole.AccelX].TicksPerSample;
        _clock = setup.Clock;
        Gates.Start(setup, options.Tuning);
        _ecgRate.Start(_clock, ReadingKind.HeartRateEcg);
        _pulseRate.Start(_clock, ReadingKind.HeartRatePulse);
        _fused.Start(_clock);
        _variability.Start(_clock);
        _rhythm.Start(_clock);
        _spot.Start(_clock);
        Pressure.Start(options);
        _perfusion.Start(_clock);
        _respiration.Start(_clock);
        _shape.Start(light.RateHz);
        _arrival.Start(_clock.TicksPerSecond, _ecgStep, _lightStep, Gates.HasJoint ? light.Delay256 - ecg.Delay256 : 0);
    }

    /// <summary>Takes what was found; in order of tick.</summary>
    public void Take(in FoundList list, int index, ref LightPath path, ref AnswerList answers)
    {
        ref readonly Found found = ref list[index];
        long now = found.Tick + 1;
        switch (found.Kind)
        {
            case FoundKind.Beat:
                TakeBeat(list.Beat(found), found, now, ref answers);
                break;
            case FoundKind.Pulse:
                TakePulse(list.Pulse(found), found, ref path, now, ref answers);
                break;
            case FoundKind.Step:
                Gates.Pulse.Step(found.Tick * 256);
                _respiration.Step();
                break;
            case FoundKind.Spectrum:
                TakeSpectrum(found, now, ref answers);
                break;
            default:
                TakeCadence(found, now, ref answers);
                break;
        }
    }

    /// <summary>A tenth of a second is over: the gates look.</summary>
    public void EndTenth(ref EcgPath ecg, ref LightPath path, long tick, ref AnswerList answers)
    {
        Gates.Look(ref ecg.State, ref path.State, tick);
        Gates.Pulse.Movement(path.Movement.LevelMg, path.Movement.IsMoving);
        path.EndTenth();
        Gates.Pulse.Ambient(path.AmbientCodes, path.SwingCodes, path.RoomCycle16);
        Advance(tick, ref answers);
        Gates.TellReasons(tick, ref answers);
        _isMoving = path.Movement.IsMoving;

        // The rate of the spectrum is given only while the pulses may not be counted, so what shuts their gate begins with a whole window.
        _tenthsOpen = !Gates.Pulse.IsOpen ? (byte)0 : _tenthsOpen < TenthsOfWindow ? (byte)(_tenthsOpen + 1) : _tenthsOpen;
        path.IsSpectrumResting = _tenthsOpen == TenthsOfWindow;
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

    private void Advance(long tick, ref AnswerList answers)
    {
        Gates.Advance(tick, ref answers);

        // A rhythm that is too irregular to read is no reason to forget that it was irregular.
        bool isLost = Gates.Ecg.Reason is not (GateReason.None or GateReason.Irregular);
        if (isLost && _rhythm.Shut())
        {
            GiveRhythm(tick * 256, 0, tick, ref answers);
        }
    }

    private void TakeBeat(in BeatEvent beat, in Found found, long now, ref AnswerList answers)
    {
        long place256 = beat.RPeak.In256 * _ecgStep;
        bool isNormal = !beat.IsWide && !beat.IsPaced;
        _isBeatLate = (now * 256) - place256 > _clock.TicksPerSecond * Late256;
        Gates.Ecg.Beat(beat, place256, found.SignalLevel, found.NoiseLevel);
        answers.Add(At(AnswerKind.RPeak, ChannelRole.Ecg, beat.RPeak, beat.Quality, now) with { Value = beat.AmplitudeCodes });
        if (HasLight)
        {
            NoteArrival(_arrival.AddRPeak(beat.RPeak, beat.Quality));
        }

        bool isRate = _ecgRate.Add(place256, beat.StartsRun, beat.Quality, beat.IsWide, ref _earlyPairs);
        bool isVariability = _variability.Add(place256, beat.StartsRun, isNormal);
        bool isBreathing = _respiration.AddBeat(place256, beat.StartsRun, beat.AmplitudeCodes);
        Advance(now, ref answers);
        bool isOpen = Gates.Ecg.IsOpen;
        if (isRate && isOpen && IsTrusted(_ecgRate.Latest, Gates.Ecg.TrustedFromTicks256))
        {
            _shownEcg = Least(_ecgRate.Latest, Gates.Ecg.Quality);
            Give(_shownEcg, ChannelRole.Ecg, _ecgStep, now, ref answers);
            GiveFused(now, ref answers);
        }

        if (isVariability && isOpen)
        {
            Give(_variability.Mean, ChannelRole.Ecg, _ecgStep, now, ref answers);
            Give(_variability.Sdnn, ChannelRole.Ecg, _ecgStep, now, ref answers);
            Give(_variability.Rmssd, ChannelRole.Ecg, _ecgStep, now, ref answers);
        }

        _isClear = found.SignalLevel > ClearFactor * (long)found.NoiseLevel;
        _wideBeats = (ushort)(((_wideBeats << 1) | (beat.IsWide ? 1 : 0)) & LatestBeatsMask);
        AddRhythm(place256, beat.StartsRun || _isRhythmCut, isNormal, now, ref answers);
        if (isBreathing && isOpen && IsBreathingSure)
        {
            Give(_respiration.Latest, ChannelRole.Ecg, _ecgStep, now, ref answers);
        }

        TakeWaitingSpectrum(place256, now, ref answers);
        GiveArrival(now, ref answers);
    }

    // Beats that are held back singly belong to the rhythm; those behind a shut gate do not, nor does the interval across them.
    private void AddRhythm(long place256, bool startsRun, bool isNormal, long now, ref AnswerList answers)
    {
        _isRhythmCut = Gates.Ecg.Reason != GateReason.None;
        if (!_isRhythmCut && _rhythm.Add(place256, startsRun, isNormal))
        {
            GiveRhythm(place256, 255, now, ref answers);
        }
    }

    private void TakePulse(in PulseEvent pulse, in Found found, ref LightPath path, long now, ref AnswerList answers)
    {
        long place256 = pulse.Foot.In256 * _lightStep;
        Gates.Pulse.Pulse(pulse, place256, found.SignalLevel, found.NoiseLevel);
        answers.Add(At(AnswerKind.FootTangent, _light, pulse.Foot, pulse.Quality, now));
        if (pulse.SecondDerivativeFoot.In256 != 0)
        {
            answers.Add(At(AnswerKind.FootSecondDerivative, _light, pulse.SecondDerivativeFoot, pulse.Quality, now));
        }

        answers.Add(At(AnswerKind.SteepestPoint, _light, pulse.Steepest, pulse.Quality, now));
        answers.Add(At(AnswerKind.SystolicPeak, _light, pulse.SystolicPeak, pulse.Quality, now));
        if (HasEcg)
        {
            NoteArrival(_arrival.AddFoot(pulse.Foot, pulse.Quality));
        }

        NoteLevel(pulse);
        _shape.Add(pulse, Gates.Pulse.HeightOff);
        bool isRate = _pulseRate.Add(place256, pulse.StartsRun, pulse.Quality);
        bool isPerfusion = _perfusion.Add(pulse, place256);
        bool isBreathing = _respiration.AddPulse(place256, pulse.StartsRun, pulse.AmplitudeCodes, pulse.LevelCodes);
        Advance(now, ref answers);
        bool isOpen = Gates.Pulse.IsOpen;
        long from256 = Gates.Pulse.TrustedFromTicks256;
        if (isRate && isOpen && Gates.Pulse.IsOpenForRate && IsTrusted(_pulseRate.Latest, from256) && IsConfirmed(_pulseRate.Latest, now))
        {
            _shownPulse = Least(_pulseRate.Latest, Gates.Pulse.Quality);
            Give(_shownPulse, _light, _lightStep, now, ref answers);
            GiveFusedOfLight(now, ref answers);
        }

        isOpen &= _perfusion.IsSteady && _sinceSlope >= PulsesAfterSlope && Gates.Pulse.IsOpenForRate;
        bool isWhole = !isRate || !IsOutrun(_pulseRate.Latest, now, PerfusionEighths)
            || !AreWideBeatsTooMany(_pulseRate.Latest, _ecgRate.Latest.ValueMilli, NarrowPerfusionEighths);
        if (isPerfusion && isOpen && isWhole && IsTrusted(_perfusion.Latest, from256))
        {
            Give(_perfusion.Latest, _light, _lightStep, now, ref answers);
        }

        if (found.IsOxygen && isOpen && !Gates.Pulse.IsLampInColours && IsTrusted(path.Oxygen.Latest, from256))
        {
            Give(path.Oxygen.Latest, _light, _lightStep, now, ref answers);
        }

        if (isBreathing && Gates.Pulse.IsOpen && IsBreathingSure)
        {
            Give(_respiration.Latest, _light, _lightStep, now, ref answers);
        }

        GiveArrival(now, ref answers);
    }

    // A level that slopes under the pulses, as movement makes it, turns the tangent and with it the foot; more of it spoils heights too.
    private void NoteLevel(in PulseEvent pulse)
    {
        long change = pulse.StartsRun ? 0 : Sat.Abs32(pulse.LevelCodes - _pulseLevel);
        _pulseLevel = pulse.LevelCodes;
        _isSloping = change * SlopeForFeet > pulse.AmplitudeCodes;
        _sinceSlope = change * SlopeForHeights > pulse.AmplitudeCodes ? (byte)0 : _sinceSlope < byte.MaxValue ? (byte)(_sinceSlope + 1) : _sinceSlope;
    }

    private readonly void TakeCadence(in Found found, long now, ref AnswerList answers)
    {
        if (found.IsTrusted && found.RateMilli > 0)
        {
            var reading = new Reading(ReadingKind.Cadence, found.RateMilli, found.Quality, found.Tick * 256, 0);
            Give(reading, ChannelRole.AccelX, _accelStep, now, ref answers);
        }
    }

    // A pair was found, or an R peak has none: the joint gate hears of it before it judges.
    private void NoteArrival(bool isPair)
    {
        if (isPair || _arrival.IsOutlier)
        {
            Gates.Joint.Arrival(_arrival.Foot.In256 * _lightStep, _arrival.TimeUs);
        }

        _partners = isPair || _arrival.IsOutlier ? (byte)(((_partners << 1) & 255) | (isPair ? 1 : 0)) : _partners;
        while (_arrival.TakeUnpaired(out long place256))
        {
            Gates.Joint.Unpaired(place256);
            _partners = (byte)((_partners << 1) & 255);
        }

        // Eight in a row at the usual time do not come by chance: that leaves them a seventh of the reach.
        Gates.Pulse.Partners(_partners == byte.MaxValue);

        _hasArrival = isPair;
    }

    private void GiveArrival(long now, ref AnswerList answers)
    {
        if (!_hasArrival)
        {
            return;
        }

        _hasArrival = false;
        if (!Gates.Joint.IsOpenForMedian)
        {
            return;
        }

        Reading arrival = Least(_arrival.Latest, Gates.Joint.Quality);
        if (Gates.Joint.IsOpen && !_isSloping && !_isBeatLate && _shape.IsUsual && Gates.Ecg.IsUsualHeight)
        {
            answers.Add(At(AnswerKind.Reading, _light, _arrival.Foot, arrival.Quality, now) with
            {
                Reading = ReadingKind.Arrival,
                Value = _arrival.TimeUs,
                PairedRole = ChannelRole.Ecg,
                Paired = _arrival.RPeak,
            });
        }

        if (_spot.Add(arrival))
        {
            Give(_spot.Latest, _light, _lightStep, now, ref answers);
            Give(_spot.Spread, _light, _lightStep, now, ref answers);
            GivePressure(now, ref answers);
        }
    }

    private void GivePressure(long now, ref AnswerList answers)
    {
        if (!Pressure.Estimate(_clock, _spot.Latest, _spot.Spread, _shownEcg, out Reading systolic, out Reading diastolic, out Reading change))
        {
            return;
        }

        Give(systolic, _light, _lightStep, now, ref answers);
        Give(diastolic, _light, _lightStep, now, ref answers);
        if (change.Kind == ReadingKind.PressureTrend)
        {
            Give(change, _light, _lightStep, now, ref answers);
        }
    }

    private readonly void GiveRhythm(long place256, byte quality, long now, ref AnswerList answers) => answers.Add(At(
        _rhythm.IsIrregular ? AnswerKind.IrregularRhythm : AnswerKind.RegularRhythm,
        ChannelRole.Ecg,
        SamplePosition.From256(place256 / _ecgStep),
        quality,
        now));

    private static bool IsTrusted(in Reading reading, long from256) => reading.Ticks256 - reading.WindowTicks256 >= from256;

    private static Reading Least(in Reading reading, byte quality) => reading.Quality <= quality ? reading : reading with { Quality = quality };

    private static void Give(in Reading reading, ChannelRole role, int step, long now, ref AnswerList answers) =>
        answers.Add(At(AnswerKind.Reading, role, SamplePosition.From256(reading.Ticks256 / step), reading.Quality, now) with
        {
            Reading = reading.Kind,
            Value = reading.ValueMilli,
            WindowSamples = ((reading.WindowTicks256 / step) + 128) / 256,
        });
}
