// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.Signals.Numerics;

namespace SensorSim.Sensing.Electrodes;

/// <summary>Sudden events behind the analog two-pole low-pass of the front end, in closed form at the sampling instants.</summary>
/// <remarks>
/// <para>The low-pass ω²/(s + ω)² answers an event a·e^(−αt) that begins at 0 with a·K·[e^(−αt) − e^(−ωt)·(1 + (ω − α)t)],
/// K = ω²/(ω − α)²; α = 0 is a step. So the sum of any number of events is three numbers, which each sample multiplies by
/// constants: one decays with α, two with ω. Of the slow one the next four values are kept: each follows the one four samples before, whatever
/// the cuts are, and four are added at once. The fast ones go on sample by sample.</para>
/// <para>The part with ω is dropped when it has fallen to e^(−40) of the latest event, the other one at e^(−70).</para>
/// </remarks>
internal struct FrontEndResponse
{
    /// <summary>Corner (−3 dB) of the low-pass in parts of the sampling rate.</summary>
    public const double CornerShare = 0.4;

    private const int Lanes = 4;
    private const double FastEnds = 40;
    private const double SlowEnds = 70;

    private readonly double _alpha;
    private readonly double _omega;
    private readonly double _scale;
    private readonly double _step;
    private readonly double _keepSlow;
    private readonly double _keepFour;
    private readonly double _keepFast;
    private readonly int _fastSamples;
    private readonly long _slowSamples;
    private Vector256<double> _slow;
    private double _fast;
    private double _fastSlope;
    private int _fastLeft;
    private long _slowLeft;

    /// <summary>Creates the response.</summary>
    /// <param name="omega">ω [rad/s], see <see cref="Omega"/>.</param>
    /// <param name="decaySeconds">1/α [s]; infinity for steps that stay.</param>
    /// <param name="stepSeconds">Time between samples [s].</param>
    public FrontEndResponse(double omega, double decaySeconds, double stepSeconds)
    {
        // Where both decay alike the formula is 0/0; a thousandth beside it is the same response to some 1e-3 of itself.
        double alpha = 1 / decaySeconds;
        alpha = Math.Abs(alpha - omega) < 1e-3 * omega ? omega * (1 - 1e-3) : alpha;
        _alpha = alpha;
        _omega = omega;
        _scale = omega / (omega - alpha) * (omega / (omega - alpha));
        _step = stepSeconds;
        _keepSlow = PortableMath.Exp(-alpha * stepSeconds);
        _keepFour = _keepSlow * _keepSlow * (_keepSlow * _keepSlow);
        _keepFast = PortableMath.Exp(-omega * stepSeconds);
        _fastSamples = (int)Math.Ceiling(FastEnds / (omega * stepSeconds));
        _slowSamples = alpha > 0 ? (long)Math.Ceiling(SlowEnds / (alpha * stepSeconds)) : long.MaxValue;
    }

    /// <summary>Whether nothing is left of any event.</summary>
    public readonly bool IsOver => _slowLeft == 0 && _fastLeft == 0;

    /// <summary>ω of the critically damped low-pass whose response has fallen by 3 dB at <see cref="CornerShare"/> of a sampling rate.</summary>
    /// <param name="rateHz">Sampling rate [Hz].</param>
    /// <returns>[rad/s].</returns>
    public static double Omega(double rateHz) => 2 * Math.PI * CornerShare * rateHz / Math.Sqrt(Math.Sqrt(2.0) - 1);

    /// <summary>∫ of the squared response to an event of size 1, from its begin on [s]: by Campbell's theorem a train's power over its rate.</summary>
    /// <param name="omega">ω [rad/s].</param>
    /// <param name="decaySeconds">1/α [s].</param>
    public static double Energy(double omega, double decaySeconds)
    {
        double alpha = 1 / decaySeconds;
        double b = omega - alpha;
        double sum = omega + alpha;
        double twice = 2 * omega;
        double k = omega / b * (omega / b);
        return k * k * ((1 / (2 * alpha)) - (2 * ((1 / sum) + (b / (sum * sum))))
            + (1 / twice) + (2 * b / (twice * twice)) + (2 * b * b / (twice * twice * twice)));
    }

    /// <summary>Adds an event.</summary>
    /// <param name="size">Its size.</param>
    /// <param name="age">Time from its begin to the sample that comes next, at least 0 [s].</param>
    public void Begin(double size, double age)
    {
        double part = size * _scale;
        double fast = part * PortableMath.Exp(-_omega * age);
        double slow = part * PortableMath.Exp(-_alpha * age);
        double third = slow * _keepSlow * _keepSlow;
        _slow += Vector256.Create(slow, slow * _keepSlow, third, third * _keepSlow);
        _fast += fast * (1 + ((_omega - _alpha) * age));
        _fastSlope += fast * (_omega - _alpha);
        _fastLeft = _fastSamples;
        _slowLeft = _slowSamples;
    }

    /// <summary>Adds what the events give to consecutive samples, and moves on behind them.</summary>
    /// <param name="buffer">The samples.</param>
    public void AddTo(Span<double> buffer)
    {
        if (IsOver)
        {
            return;
        }

        AddSlow(buffer[..(int)Math.Min(buffer.Length, _slowLeft)]);
        AddFast(buffer[..Math.Min(buffer.Length, _fastLeft)]);
    }

    private void AddSlow(Span<double> buffer)
    {
        Vector256<double> slow = _slow;
        var keep = Vector256.Create(_keepFour);
        Span<Vector256<double>> groups = MemoryMarshal.Cast<double, Vector256<double>>(buffer);
        for (int i = 0; i < groups.Length; i++)
        {
            groups[i] += slow;
            slow *= keep;
        }

        for (int done = groups.Length * Lanes; done < buffer.Length; done++)
        {
            // The lane that is used up makes room at the end.
            double now = slow.ToScalar();
            buffer[done] += now;
            slow = Vector256.Create(slow.GetElement(1), slow.GetElement(2), slow.GetElement(3), now * _keepFour);
        }

        _slowLeft -= buffer.Length;
        _slow = _slowLeft == 0 ? Vector256<double>.Zero : slow;
    }

    private void AddFast(Span<double> buffer)
    {
        foreach (ref double value in buffer)
        {
            value -= _fast;
            _fast = _keepFast * (_fast + (_step * _fastSlope));
            _fastSlope *= _keepFast;
        }

        _fastLeft -= buffer.Length;
        if (_fastLeft == 0)
        {
            _fast = 0;
            _fastSlope = 0;
        }
    }
}
