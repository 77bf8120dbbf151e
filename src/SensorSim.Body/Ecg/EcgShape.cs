// SPDX-License-Identifier: MIT
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Marks;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>Lays the waves of a beat round its R wave; every knob has its value at that R.</summary>
/// <remarks>
/// Narrow QRS: Q, R and S share a width of 0.0894 of the QRS duration, Q and S lie a quarter of it before and after R, so that Q onset to S
/// end at 2 % is the duration itself. Wide QRS: <see cref="WideQrs"/>. QT follows the lagged RR interval (60 s time constant: QT memory,
/// Razak et al., PMC6931985) by <see cref="QtRule"/>, the T wave's width follows QT; a wide QRS ends later, and T with it.
/// </remarks>
internal sealed class EcgShape
{
    private const double QrsOffset = 0.25;
    private const double QrsSigma = (0.5 - QrsOffset) / EcgWave.EdgeSigmas;
    private const double PSigmaSeconds = 0.0179;
    private const double TSigmaOfQt = 0.1;

    // The level is stated 60 ms after the J point. The wave that makes it reaches on to the T wave, for a QT of 0.4 s (choice).
    private const double LevelAfterJSeconds = 0.06;
    private const double SegmentAfterJOfQt = 0.2;
    private const double SegmentSigmaOfQt = 0.1375;

    private const double ShortestWideTSeconds = 0.1;

    // The T peak, 0.72 of QT after the onset, lies behind the QRS.
    private const double LeastQtOfQrs = 1.45;

    // P of another atrial focus: lower and shorter (choice).
    private const double PrematurePHeight = 0.6;
    private const double PrematurePWidth = 0.85;

    private readonly Course _p;
    private readonly Course _q;
    private readonly Course _r;
    private readonly Course _s;
    private readonly Course _t;
    private readonly Course _ventricular;
    private readonly Course _paced;
    private readonly Course _prMs;
    private readonly Course _qrsMs;
    private readonly Course _ventricularQrsMs;
    private readonly Course _pacedQrsMs;
    private readonly Course _qtcMs;
    private readonly Course _stMv;
    private readonly Course _alternansUv;
    private readonly RespiratoryTurn _breathing;
    private readonly QtRule _qtRule;
    private readonly double _sign;

    public EcgShape(KeyValues values)
    {
        _p = EcgPresets.Height(values, EcgKeys.PMv);
        _q = EcgPresets.Height(values, EcgKeys.QMv);
        _r = EcgPresets.Height(values, EcgKeys.RMv);
        _s = EcgPresets.Height(values, EcgKeys.SMv);
        _t = EcgPresets.Height(values, EcgKeys.TMv);
        _ventricular = EcgPresets.Height(values, EcgKeys.VentricularMv);
        _paced = EcgPresets.Height(values, EcgKeys.PacedMv);
        _prMs = values.Course(EcgKeys.PrMs);
        _qrsMs = values.Course(EcgKeys.QrsMs);
        _ventricularQrsMs = values.Course(EcgKeys.VentricularQrsMs);
        _pacedQrsMs = values.Course(EcgKeys.PacedQrsMs);
        _qtcMs = values.Course(EcgKeys.QtcMs);
        _stMv = values.Course(EcgKeys.StLevelMv);
        _alternansUv = values.Course(EcgKeys.TAlternansUv);
        _breathing = new RespiratoryTurn(values);
        _qtRule = new QtRule(values[EcgKeys.QtRule]);
        _sign = PolaritySign(values);
    }

    /// <summary>1, or −1 with the electrodes swapped: the sign of everything the electrodes see.</summary>
    public static double PolaritySign(KeyValues values) => values[EcgKeys.Polarity] == "swapped" ? -1 : 1;

    /// <summary>The waves of a beat.</summary>
    public EcgBeat Lay(in EcgPlan plan)
    {
        double r = plan.RSeconds;
        double narrow = _qrsMs.Value(r) * 1e-3;
        double logRr = PortableMath.Log(plan.LaggedRrSeconds);
        double qt = Math.Max(LeastQtOfQrs * narrow, _qtRule.QtSeconds(_qtcMs.Value(r) * 1e-3, plan.LaggedRrSeconds, logRr));
        double tSigma = TSigmaOfQt * qt;
        EcgBeat beat = default;
        double t;
        double tEnd;
        if (plan.IsWide)
        {
            double qrs = plan.Class == BeatClass.Paced ? _pacedQrsMs.Value(r) * 1e-3 : _ventricularQrsMs.Value(r) * 1e-3;
            t = WideQrs.Lay(ref beat, plan.Class, r, qrs, Main(plan.Class, r));
            double all = Math.Min(qt + Math.Max(0, qrs - narrow), Math.Max(plan.LongestQtSeconds, qrs + ShortestWideTSeconds));
            tEnd = beat[EcgBeat.Q].OnsetSeconds + all;

            // A wide QRS goes over into T without a flat stretch between.
            tSigma = 0.999 * (all - qrs) / (2 * EcgWave.EdgeSigmas);
        }
        else
        {
            double sigma = QrsSigma * narrow;
            double offset = QrsOffset * narrow;
            beat[EcgBeat.Q] = new EcgWave(r - offset, sigma, _q.Value(r));
            beat[EcgBeat.R] = new EcgWave(r, sigma, _r.Value(r));
            beat[EcgBeat.S] = new EcgWave(r + offset, sigma, _s.Value(r));
            t = _t.Value(r);
            tEnd = r - offset - (EcgWave.EdgeSigmas * sigma) + qt;
        }

        double segment = plan.IsWide ? 0 : _stMv.Value(r);
        beat[EcgBeat.Segment] = Segment(beat[EcgBeat.S].EndSeconds, qt, segment);
        beat[EcgBeat.T] = new EcgWave(tEnd - (EcgWave.EdgeSigmas * tSigma), tSigma, t);
        double pr = double.IsNaN(plan.PrSeconds) ? _prMs.Value(r) * 1e-3 * PortableMath.Exp(0.25 * logRr) : plan.PrSeconds;
        beat[EcgBeat.P] = PWave(beat[EcgBeat.Q].OnsetSeconds - pr, plan.Class, plan.HasP ? _p.Value(r) : 0);
        Finish(ref beat, plan);
        return beat;
    }

    /// <summary>A P wave that no beat follows; the other waves are absent and stand at its place.</summary>
    /// <param name="pOnsetSeconds">Its onset [s].</param>
    /// <param name="depth">Breathing depth there, −1 to 1.</param>
    public EcgBeat LayP(double pOnsetSeconds, double depth)
    {
        EcgWave p = PWave(pOnsetSeconds, BeatClass.Normal, _sign * _p.Value(pOnsetSeconds));
        EcgBeat beat = default;
        for (int i = 0; i < EcgBeat.Count; i++)
        {
            beat[i] = p with { Millivolts = i == EcgBeat.P ? p.Millivolts : 0 };
        }

        _breathing.Apply(ref beat, pOnsetSeconds, depth);
        return beat;
    }

    /// <summary>PR interval by the knob and its rule [s].</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="laggedRrSeconds">Lagged RR interval [s].</param>
    public double PrSeconds(double seconds, double laggedRrSeconds) =>
        _prMs.Value(seconds) * 1e-3 * PortableMath.Exp(0.25 * PortableMath.Log(laggedRrSeconds));

    /// <summary>From P onset to the centre of R of a beat that is conducted as usual [s].</summary>
    /// <param name="seconds">Time [s].</param>
    /// <param name="laggedRrSeconds">Lagged RR interval [s].</param>
    public double POnsetToRSeconds(double seconds, double laggedRrSeconds) =>
        PrSeconds(seconds, laggedRrSeconds) + (0.5 * _qrsMs.Value(seconds) * 1e-3);

    // High enough to have the wanted level 60 ms after the J point.
    private static EcgWave Segment(double jSeconds, double qt, double level)
    {
        double after = SegmentAfterJOfQt * qt;
        double sigma = SegmentSigmaOfQt * qt;
        double x = (after - LevelAfterJSeconds) / sigma;
        return new EcgWave(jSeconds + after, sigma, level == 0 ? 0 : level * PortableMath.Exp(0.5 * x * x));
    }

    private static EcgWave PWave(double onset, BeatClass kind, double height)
    {
        bool isPremature = kind == BeatClass.AtrialPremature;
        double sigma = isPremature ? PrematurePWidth * PSigmaSeconds : PSigmaSeconds;
        return new EcgWave(onset + (EcgWave.EdgeSigmas * sigma), sigma, isPremature ? PrematurePHeight * height : height);
    }

    private double Main(BeatClass kind, double seconds) => kind switch
    {
        BeatClass.Wide => _r.Value(seconds),
        BeatClass.Paced => _paced.Value(seconds),
        BeatClass.VentricularEscape => -0.7 * _ventricular.Value(seconds),
        _ => _ventricular.Value(seconds),
    };

    // Breathing, then alternans of T by its full size whatever the breathing, then the electrodes.
    private void Finish(ref EcgBeat beat, in EcgPlan plan)
    {
        _breathing.Apply(ref beat, plan.RSeconds, plan.Depth);
        double half = _alternansUv.Value(plan.RSeconds) * 0.5e-3;
        if (half != 0)
        {
            EcgWave wave = beat[EcgBeat.T];
            beat[EcgBeat.T] = wave with { Millivolts = wave.Millivolts + (plan.IsAlternate ? half : -half) };
        }

        if (_sign < 0)
        {
            for (int i = 0; i < EcgBeat.Count; i++)
            {
                beat[i] = beat[i] with { Millivolts = -beat[i].Millivolts };
            }
        }
    }
}
