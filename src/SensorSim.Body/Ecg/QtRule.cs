// SPDX-License-Identifier: MIT
using SensorSim.Signals.Numerics;

namespace SensorSim.Body.Ecg;

/// <summary>How QT follows the RR interval: the formulas of QT correction, solved for QT.</summary>
/// <remarks>
/// Bazett 1920: QTc = QT / RR^(1/2). Fridericia 1920: QT / RR^(1/3). Framingham (Sagie 1992): QT + 154 ms (1 − RR). Hodges 1983:
/// QT + 1.75 ms (60/RR − 60). RR in s.
/// </remarks>
internal sealed class QtRule
{
    /// <summary>The straight lines of Framingham and Hodges would give no T wave at all at high rates: QT is held at this [s].</summary>
    public const double ShortestQtSeconds = 0.15;

    private readonly Kind _kind;

    public QtRule(string word) => _kind = word switch
    {
        "bazett" => Kind.Bazett,
        "framingham" => Kind.Framingham,
        "hodges" => Kind.Hodges,
        _ => Kind.Fridericia,
    };

    private enum Kind
    {
        Fridericia,
        Bazett,
        Framingham,
        Hodges,
    }

    /// <summary>QT [s] of a QT at 60 bpm [s], an RR interval [s] and its natural logarithm.</summary>
    public double QtSeconds(double qtcSeconds, double rrSeconds, double logRr) => Math.Max(ShortestQtSeconds, _kind switch
    {
        Kind.Bazett => qtcSeconds * Math.Sqrt(rrSeconds),
        Kind.Framingham => qtcSeconds - (0.154 * (1 - rrSeconds)),
        Kind.Hodges => qtcSeconds - (0.105 * ((1 / rrSeconds) - 1)),
        _ => qtcSeconds * PortableMath.Exp(logRr / 3),
    });
}
