// SPDX-License-Identifier: MIT
using SensorSim.Signals.Keys;
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>Lays the waves of a beat round its R wave.</summary>
/// <remarks>
/// QRS: Q, R and S share a width of 0.0894 of the QRS duration, Q and S lie a quarter of it before and after R, so that Q onset to S
/// end at 2 % is the duration itself. QT follows Fridericia's cube root of the lagged RR interval (60 s time constant: QT memory,
/// Razak et al., PMC6931985), the T wave's width follows QT.
/// </remarks>
internal sealed class EcgShape
{
    private const double QrsOffset = 0.25;
    private const double QrsSigma = (0.5 - QrsOffset) / EcgWave.EdgeSigmas;
    private const double PSigmaSeconds = 0.0179;
    private const double TSigmaOfQt = 0.1;

    private readonly double _p;
    private readonly double _q;
    private readonly double _r;
    private readonly double _s;
    private readonly double _t;
    private readonly double _prSeconds;
    private readonly double _qrsSeconds;
    private readonly double _qtcSeconds;

    public EcgShape(KeyValues values)
    {
        _p = values[EcgKeys.PMv];
        _q = values[EcgKeys.QMv];
        _r = values[EcgKeys.RMv];
        _s = values[EcgKeys.SMv];
        _t = values[EcgKeys.TMv];
        _prSeconds = values[EcgKeys.PrMs] * 1e-3;
        _qrsSeconds = values[EcgKeys.QrsMs] * 1e-3;
        _qtcSeconds = values[EcgKeys.QtcMs] * 1e-3;
    }

    /// <summary>The waves of a beat.</summary>
    /// <param name="rSeconds">Centre of the R wave [s].</param>
    /// <param name="laggedRrSeconds">Lagged RR interval [s].</param>
    public EcgBeat Lay(double rSeconds, double laggedRrSeconds)
    {
        double sigma = QrsSigma * _qrsSeconds;
        double offset = QrsOffset * _qrsSeconds;
        double onset = rSeconds - offset - (EcgWave.EdgeSigmas * sigma);
        double logRr = PortableMath.Log(laggedRrSeconds);
        double pr = _prSeconds * PortableMath.Exp(0.25 * logRr);
        double qt = _qtcSeconds * PortableMath.Exp(logRr / 3);
        double tSigma = TSigmaOfQt * qt;
        EcgBeat beat = default;
        beat[EcgBeat.P] = new EcgWave(onset - pr + (EcgWave.EdgeSigmas * PSigmaSeconds), PSigmaSeconds, _p);
        beat[EcgBeat.Q] = new EcgWave(rSeconds - offset, sigma, _q);
        beat[EcgBeat.R] = new EcgWave(rSeconds, sigma, _r);
        beat[EcgBeat.S] = new EcgWave(rSeconds + offset, sigma, _s);
        beat[EcgBeat.T] = new EcgWave(onset + qt - (EcgWave.EdgeSigmas * tSigma), tSigma, _t);
        return beat;
    }
}
