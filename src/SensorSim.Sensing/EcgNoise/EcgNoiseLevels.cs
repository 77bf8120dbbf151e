// SPDX-License-Identifier: MIT
using SensorSim.Body.Ecg;
using SensorSim.Body.Movement;
using SensorSim.Sensing.Electrodes;
using SensorSim.Sensing.Mains;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;
using SensorSim.Signals.Processes;

namespace SensorSim.Sensing.EcgNoise;

/// <summary>Levels of all noise in the ECG over time, in closed form from the knobs; never measured from what was drawn.</summary>
/// <remarks>
/// Levels as the noise is added, before any filter of the amplifier. SNR = 10 log10(S/N): S = (QRS peak to peak)²/8 of a steady normal beat, the
/// power of a sine as high, before the first change of the waves (Moody, Muldrow and Mark 1984); N the power of the noise, averaged over time. The
/// SNR in the band is the same S over the power between 8 and 20 Hz, where detectors look for the QRS. Safe for several threads.
/// </remarks>
public sealed class EcgNoiseLevels
{
    /// <summary>Lower end of the band that the second ratio counts [Hz].</summary>
    public const double BandLowHz = 8;

    /// <summary>Upper end of it [Hz].</summary>
    public const double BandHighHz = 20;

    /// <summary>Share of the baseline in the power of slow motion.</summary>
    internal const double BaselinePower = 0.3;

    private const double WanderNodeSeconds = 0.5;

    private static readonly (EcgNoiseKind Kind, string Name)[] s_names =
    [
        (EcgNoiseKind.WhiteNoise, "white_noise"),
        (EcgNoiseKind.BaselineWander, "baseline_wander"),
        (EcgNoiseKind.Breathing, "breathing"),
        (EcgNoiseKind.Mains, "mains"),
        (EcgNoiseKind.Muscle, "muscle"),
        (EcgNoiseKind.MuscleBursts, "muscle_bursts"),
        (EcgNoiseKind.SlowMotion, "slow_motion"),
        (EcgNoiseKind.SharpMotion, "sharp_motion"),
        (EcgNoiseKind.Recording, "recording"),
    ];

    private readonly SnrLevel _white;
    private readonly SnrLevel _wander;
    private readonly SnrLevel _mains;
    private readonly SnrLevel _muscle;
    private readonly SnrLevel _burst;
    private readonly SnrLevel _slow;
    private readonly SnrLevel _sharp;
    private readonly SnrLevel _recorded;
    private readonly Course _breathing;
    private readonly Course _second;
    private readonly Course _third;
    private readonly double _rateHz;
    private readonly double _mainsHz;
    private readonly double _burstShare;
    private readonly Lazy<double[]> _bandShares;

    /// <summary>Creates the levels of a scenario.</summary>
    /// <param name="values">Values of the scenario.</param>
    public EcgNoiseLevels(KeyValues values)
    {
        ArgumentNullException.ThrowIfNull(values);
        QrsPeakToPeakMv = SteadyQrs.PeakToPeakMv(values);
        double s = SignalPowerMv2;
        _white = new SnrLevel(values, EcgAmplifierKeys.WhiteNoiseUvRms, 1e-3, EcgNoiseKeys.WhiteNoiseSnrDb, s);
        _wander = new SnrLevel(values, EcgAmplifierKeys.BaselineWanderMvRms, 1, EcgNoiseKeys.BaselineWanderSnrDb, s);
        _mains = new SnrLevel(values, EcgAmplifierKeys.MainsUvPp, 0.5e-3, EcgNoiseKeys.MainsSnrDb, s);
        _muscle = new SnrLevel(values, EcgNoiseKeys.MuscleUvRms, 1e-3, EcgNoiseKeys.MuscleSnrDb, s);
        _burst = new SnrLevel(values, EcgNoiseKeys.MuscleBurstUvRms, 1e-3, EcgNoiseKeys.MuscleBurstSnrDb, s);
        _slow = new SnrLevel(values, EcgNoiseKeys.SlowMotionUvRms, 1e-3, EcgNoiseKeys.SlowMotionSnrDb, s);
        _sharp = new SnrLevel(values, EcgNoiseKeys.SharpMotionUvRms, 1e-3, EcgNoiseKeys.SharpMotionSnrDb, s);
        _recorded = new SnrLevel(values, EcgNoiseKeys.RecordingUvRms, 1e-3, EcgNoiseKeys.RecordingSnrDb, s);
        _breathing = values.Course(EcgAmplifierKeys.BreathingBaselineMv);
        _second = values.Course(EcgAmplifierKeys.MainsSecondPercent);
        _third = values.Course(EcgAmplifierKeys.MainsThirdPercent);
        _rateHz = values[EcgAmplifierKeys.RateHz];
        _mainsHz = values[MainsKeys.FrequencyHz];
        _burstShare = values[EcgNoiseKeys.MuscleBurstPerMin] / 60 * values[EcgNoiseKeys.MuscleBurstS] * MuscleBursts.SquareShare;
        bool isMoved = !_slow.IsOff || !_sharp.IsOff;
        MovementIntensity? intensity = isMoved ? new MovementIntensity(values) : null;
        SlowDrive = Drive(intensity, values, EcgNoiseKeys.SlowMotionPerMin, EcgNoiseKeys.SlowMotionRestPerMin, _slow);
        SharpDrive = Drive(intensity, values, EcgNoiseKeys.SharpMotionPerMin, EcgNoiseKeys.SharpMotionRestPerMin, _sharp);
        Recording = _recorded.IsOff ? null : values.Attached<NoiseRecording>(EcgNoiseKeys.RecordingFile)?.LoopFor(_rateHz);
        HasMuscle = !_muscle.IsOff;
        HasBursts = !_burst.IsOff && _burstShare > 0;
        Filter = HasMuscle || HasBursts ? new MuscleFilter(_rateHz) : null;
        _bandShares = new Lazy<double[]>(BandShares);
    }

    /// <summary>Every kind of noise, in the order in which it is told.</summary>
    public static IReadOnlyList<EcgNoiseKind> Kinds { get; } = [.. s_names.Select(n => n.Kind)];

    /// <summary>QRS peak to peak of a steady normal beat [mV].</summary>
    public double QrsPeakToPeakMv { get; }

    /// <summary>Power of the signal that the ratios speak of: (QRS peak to peak)²/8 [mV²].</summary>
    public double SignalPowerMv2 => QrsPeakToPeakMv * QrsPeakToPeakMv / 8;

    /// <summary>Drive of slow motion; null when that is off.</summary>
    internal MotionDrive? SlowDrive { get; }

    /// <summary>Drive of sharp motion; null when that is off.</summary>
    internal MotionDrive? SharpDrive { get; }

    /// <summary>The recorded noise; null when there is none.</summary>
    internal RecordingLoop? Recording { get; }

    /// <summary>The filter of muscle noise; null when there is none.</summary>
    internal MuscleFilter? Filter { get; }

    /// <summary>Whether there is ever steady muscle noise.</summary>
    internal bool HasMuscle { get; }

    /// <summary>Whether there are ever bursts of muscle noise.</summary>
    internal bool HasBursts { get; }

    /// <summary>Name of a kind, as files and tables write it.</summary>
    /// <param name="kind">The kind.</param>
    public static string Name(EcgNoiseKind kind) => s_names[(int)kind].Name;

    /// <summary>Level of a kind at a time, averaged over what is random [mV rms].</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="seconds">Body time [s].</param>
    public double RmsMv(EcgNoiseKind kind, double seconds) => kind switch
    {
        EcgNoiseKind.WhiteNoise => WhiteNoiseMv(seconds),
        EcgNoiseKind.BaselineWander => BaselineWanderMv(seconds),
        EcgNoiseKind.Breathing => Math.Abs(_breathing.Value(seconds)) * Math.Sqrt(0.5),
        EcgNoiseKind.Mains => MainsPeakMv(seconds) * Math.Sqrt(0.5 * HarmonicPower(seconds)),
        EcgNoiseKind.Muscle => MuscleMv(seconds),
        EcgNoiseKind.MuscleBursts => HasBursts ? BurstMv(seconds) * Math.Sqrt(_burstShare) : 0,
        EcgNoiseKind.SlowMotion => SlowDrive is null ? 0 : SlowMotionMv(seconds) * Math.Sqrt(SlowDrive.Relative(seconds)),
        EcgNoiseKind.SharpMotion => SharpDrive is null ? 0 : SharpMotionMv(seconds) * Math.Sqrt(SharpDrive.Relative(seconds)),
        _ => Recording is null ? 0 : RecordingMv(seconds),
    };

    /// <summary>White noise as its knob tells it [µV rms].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double WhiteNoiseUvRms(double seconds) => _white.Own(seconds, 1);

    /// <summary>Mains as its knob tells it: the fundamental, peak to peak [µV].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double MainsUvPp(double seconds) => _mains.Own(seconds, Math.Sqrt(2 / HarmonicPower(seconds)));

    /// <summary>Level of a kind between 8 and 20 Hz at a time [mV rms].</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="seconds">Body time [s].</param>
    public double BandRmsMv(EcgNoiseKind kind, double seconds)
    {
        double rms = RmsMv(kind, seconds);
        return rms == 0 ? 0 : rms * Math.Sqrt(kind == EcgNoiseKind.Mains ? MainsBandShare(seconds) : _bandShares.Value[(int)kind]);
    }

    /// <summary>Level of all noise together at a time: the powers add [mV rms].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double TotalRmsMv(double seconds)
    {
        double power = 0;
        foreach ((EcgNoiseKind kind, _) in s_names)
        {
            double rms = RmsMv(kind, seconds);
            power += rms * rms;
        }

        return Math.Sqrt(power);
    }

    /// <summary>Level of all noise together between 8 and 20 Hz at a time [mV rms].</summary>
    /// <param name="seconds">Body time [s].</param>
    public double TotalBandRmsMv(double seconds)
    {
        double power = 0;
        foreach ((EcgNoiseKind kind, _) in s_names)
        {
            double rms = BandRmsMv(kind, seconds);
            power += rms * rms;
        }

        return Math.Sqrt(power);
    }

    /// <summary>Ratio of the signal to noise of a level [dB]; null where either is 0.</summary>
    /// <param name="rmsMv">Level of the noise [mV rms].</param>
    public double? SnrDb(double rmsMv) => rmsMv > 0 && QrsPeakToPeakMv > 0
        ? Decibels.OfPower(SignalPowerMv2 / (rmsMv * rmsMv))
        : null;

    /// <summary>The courses whose changes move the level of a kind.</summary>
    /// <param name="kind">The kind.</param>
    public IReadOnlyList<Course> Courses(EcgNoiseKind kind) => kind switch
    {
        EcgNoiseKind.WhiteNoise => _white.Courses,
        EcgNoiseKind.BaselineWander => _wander.Courses,
        EcgNoiseKind.Breathing => [_breathing],
        EcgNoiseKind.Mains => [.. _mains.Courses, _second, _third],
        EcgNoiseKind.Muscle => _muscle.Courses,
        EcgNoiseKind.MuscleBursts => _burst.Courses,
        EcgNoiseKind.SlowMotion => [.. _slow.Courses, .. SlowDrive?.Courses ?? []],
        EcgNoiseKind.SharpMotion => [.. _sharp.Courses, .. SharpDrive?.Courses ?? []],
        _ => _recorded.Courses,
    };

    /// <summary>White noise [mV rms].</summary>
    internal double WhiteNoiseMv(double seconds) => _white.Mv(seconds);

    /// <summary>Baseline wander [mV rms].</summary>
    internal double BaselineWanderMv(double seconds) => _wander.Mv(seconds);

    /// <summary>Peak of the fundamental of the mains [mV]; a ratio counts fundamental and harmonics.</summary>
    internal double MainsPeakMv(double seconds) => _mains.Mv(seconds, Math.Sqrt(2 / HarmonicPower(seconds)));

    /// <summary>Steady muscle noise [mV rms].</summary>
    internal double MuscleMv(double seconds) => _muscle.Mv(seconds);

    /// <summary>Muscle noise in the middle of a burst [mV rms].</summary>
    internal double BurstMv(double seconds) => _burst.Mv(seconds);

    /// <summary>Slow motion in the reference gait [mV rms].</summary>
    internal double SlowMotionMv(double seconds) => _slow.Mv(seconds);

    /// <summary>Sharp motion in the reference gait [mV rms].</summary>
    internal double SharpMotionMv(double seconds) => _sharp.Mv(seconds);

    /// <summary>Recorded noise [mV rms].</summary>
    internal double RecordingMv(double seconds) => _recorded.Mv(seconds);

    private static MotionDrive? Drive(MovementIntensity? intensity, KeyValues values, NumberKey perMin, NumberKey restPerMin, SnrLevel level)
    {
        if (intensity is null || level.IsOff)
        {
            return null;
        }

        var drive = new MotionDrive(intensity, values[perMin], values[restPerMin]);
        return drive.IsOff ? null : drive;
    }

    // Power of the fundamental and its harmonics over that of the fundamental.
    private double HarmonicPower(double seconds)
    {
        double second = _second.Value(seconds) * 0.01;
        double third = _third.Value(seconds) * 0.01;
        return 1 + (second * second) + (third * third);
    }

    // Lines above half the rate fold back.
    private double MainsBandShare(double seconds)
    {
        double sum = 0;
        for (int multiple = 1; multiple <= 3; multiple++)
        {
            double hertz = multiple * _mainsHz;
            hertz = Math.Abs(hertz - (Math.Round(hertz / _rateHz) * _rateHz));
            double size = multiple == 1 ? 1 : 0.01 * (multiple == 2 ? _second : _third).Value(seconds);
            sum += hertz >= BandLowHz && hertz < BandHighHz ? size * size : 0;
        }

        return sum / HarmonicPower(seconds);
    }

    private double[] BandShares()
    {
        var shares = new double[s_names.Length];
        shares[(int)EcgNoiseKind.WhiteNoise] = (Math.Min(BandHighHz, 0.5 * _rateHz) - BandLowHz) / (0.5 * _rateHz);
        shares[(int)EcgNoiseKind.BaselineWander] = Quadrature.Integrate(WanderDensity, BandLowHz, BandHighHz);
        double muscle = Filter?.Share(BandLowHz, BandHighHz) ?? 0;
        shares[(int)EcgNoiseKind.Muscle] = muscle;
        shares[(int)EcgNoiseKind.MuscleBursts] = muscle;
        shares[(int)EcgNoiseKind.SlowMotion] = SlowDrive is null ? 0
            : ((1 - BaselinePower) * MotionKind.Slow.Share(BandLowHz, BandHighHz))
                + (BaselinePower * Quadrature.Integrate(MotionBaseline.Density, BandLowHz, BandHighHz));
        shares[(int)EcgNoiseKind.SharpMotion] = SharpDrive is null ? 0 : MotionKind.Sharp.Share(BandLowHz, BandHighHz);
        shares[(int)EcgNoiseKind.Recording] = Recording?.Share(BandLowHz, BandHighHz) ?? 0;
        return shares;
    }

    // The spline's spectrum over its variance, 151/315.
    private static double WanderDensity(double hertz) =>
        2 * WanderNodeSeconds * MotionBaseline.Spline(hertz * WanderNodeSeconds) * (315.0 / 151);
}
