// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>Wide humps early after a usual beat: believed where the one before was, unless they come after every beat.</summary>
internal sealed class BeatEarlyTwin(BeatWindows w, BeatLevelsTwin levels, BeatRhythmTwin rhythm)
{
    private double _coupling;
    private double _wave;
    private int _row;
    private int _waveRow;
    private bool _hasWide;
    private bool _isAfterUsual;
    private bool _isPair;
    private double _pair;
    private double _sinceUsual;

    /// <summary>By how much the latest beat, a wide one, came too early; else 0.</summary>
    public double EarlyBy { get; private set; }

    public void Forget()
    {
        (_coupling, _wave, EarlyBy, _pair, _sinceUsual) = (0, 0, 0, 0, 0);
        (_row, _waveRow) = (0, 0);
        (_hasWide, _isAfterUsual, _isPair) = (false, false, false);
    }

    public bool IsOnTime(double since) => EarlyBy > 0 && rhythm.IsUsual(since + _sinceUsual);

    public bool IsEarly(double since) => _isAfterUsual && since < 0.875 * Usual;

    // The median; half of two usual beats with a wide one between, where that is longer, up to three medians.
    private double Usual => _pair / 2 > rhythm.Median && _pair / 2 < 3 * rhythm.Median ? _pair / 2 : rhythm.Median;

    /// <summary>Whether it is where the one before was; and whether it is one, but elsewhere.</summary>
    public (bool IsAgain, bool IsNew) Look(double since, BeatCandidateTwin c, bool isWave)
    {
        bool isEarlyWide = _isAfterUsual && rhythm.Count == 8 && since >= w.Refractory && since < 0.875 * Usual
            && BeatTemplateTwin.SpreadOf(c.Slopes) > w.WideSpread;
        if (!isEarlyWide)
        {
            return (false, false);
        }

        double near = Usual / 16;
        bool isWaveAgain = Math.Abs(since - _wave) <= near;
        if (isWave || c.Height <= levels.Threshold || (isWaveAgain && _waveRow >= 2))
        {
            (_wave, _waveRow) = (since, isWaveAgain ? Math.Min(2, _waveRow + 1) : 0);
            return (false, false);
        }

        if (c.Height < levels.Signal / 2 || c.Height < 2.5 * levels.Noise || c.Height > 1.25 * levels.Signal)
        {
            return (false, false);
        }

        bool isSame = Math.Abs(since - _coupling) <= near;
        (_coupling, _hasWide) = (since, true);
        return (isSame && _row < 3, !isSame);
    }

    public void Beat(double since, bool isUsual, bool isDoubtful)
    {
        _sinceUsual += double.IsFinite(since) ? since : 0;
        if (isDoubtful)
        {
            return;
        }

        EarlyBy = !isUsual && IsEarly(since) ? (2 * Usual) - rhythm.Median - since : 0;
        if (isUsual)
        {
            (_row, _hasWide) = (_hasWide ? Math.Min(3, _row + 1) : 0, false);
            _pair = _isPair ? _sinceUsual : _sinceUsual < 0.75 * _pair ? 0 : _pair;
            _sinceUsual = 0;
        }

        (_isPair, _isAfterUsual) = (!isUsual && _isAfterUsual, isUsual);
    }
}
