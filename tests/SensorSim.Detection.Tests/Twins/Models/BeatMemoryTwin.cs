// SPDX-License-Identifier: MIT
using SensorSim.Detection.Beats;

namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>The usual beats and one other kind, in doubles; limits of likeness in 1/256 as the stage has them.</summary>
internal sealed class BeatMemoryTwin
{
    private BeatTemplateTwin _usual = new();
    private BeatTemplateTwin _other = new();
    private double _fitLevel;
    private int _strangeRun;

    public bool IsLearning => _usual.Count < 3;

    public double UsualSpread => _usual.Count == 0 ? 0 : _usual.Spread;

    public void Forget()
    {
        (_usual, _other) = (new BeatTemplateTwin(), new BeatTemplateTwin());
        (_fitLevel, _strangeRun) = (0, 0);
    }

    public bool IsLike(BeatCandidateTwin c) =>
        c.Fit >= Math.Clamp(_fitLevel - 44, 154, 212) && !(_other.Count > 3 && c.OtherFit > c.Fit + 16) && c.Size > _usual.Size / 2 && c.Size / 2 < _usual.Size;

    public bool IsSure(BeatCandidateTwin c) => c.Fit >= _fitLevel - 20 && c.Size > 0.75 * _usual.Size && c.Size < 1.3125 * _usual.Size;

    public bool IsKin(BeatCandidateTwin c) =>
        _other.Count > 0 && c.OtherFit >= (_other.Count == 1 ? 243 : 230) && IsOfOtherSize(c);

    public bool IsEctopic(BeatWindows w, BeatCandidateTwin c) =>
        _other.Count >= 3 && _other.Spread > w.WideSpread && _other.Spread <= 1.5 * w.WideSpread
        && c.OtherFit >= Math.Clamp(_fitLevel - 20, 180, 230) && IsOfOtherSize(c);

    public double SpreadOf(BeatCandidateTwin c) =>
        IsLike(c) ? _usual.Spread : IsKin(c) ? _other.Spread : BeatTemplateTwin.SpreadOf(c.Slopes);

    /// <summary>Locates the complex of a hump and says what it looks like.</summary>
    public BeatCandidateTwin Look(BeatShapeTwin shape, BeatLocatorTwin locator, int middle, int last, double height)
    {
        BeatCandidateTwin c = Describe(shape, locator.Locate(middle, last), height);
        if (_usual.Count < 3 || c.Fit >= 230 || (c.OtherFit >= 230 && IsKin(c)))
        {
            return c;
        }

        (int at, double fit) = shape.Find(middle, _usual);
        if (fit <= c.Fit + 8)
        {
            return c;
        }

        BeatCandidateTwin other = Describe(shape, locator.LocateNear(middle + at, last), height);
        return IsLike(other) || other.Fit > c.Fit ? other : c;
    }

    public void Learn(BeatWindows w, BeatCandidateTwin c, bool mayBegin, bool isKinTrusted, bool isEarlyAgain)
    {
        if (_usual.Count == 0)
        {
            _usual.Begin(c.Slopes, c.Scale);
            return;
        }

        if (_usual.Count < 3 ? c.Fit >= 180 : IsLike(c))
        {
            _usual.Add(c.Slopes, c.Size);
            _fitLevel = _fitLevel == 0 ? c.Fit : _fitLevel + ((c.Fit - _fitLevel) / 16);
            _strangeRun = 0;
            return;
        }

        double least = isEarlyAgain || (isKinTrusted && _other.Count >= 3) ? 180 : isKinTrusted ? 205 : double.PositiveInfinity;
        if (_other.Count > 0 && c.OtherFit >= least)
        {
            _other.Add(c.Slopes, c.OtherSize);
        }
        else if (mayBegin || (_other.Count < 2 && !c.IsLookedBack))
        {
            _other.Begin(c.Slopes, c.Scale);
        }

        _strangeRun++;
        bool isUsualEctopic = _usual.Count < 8 && _other.Count >= 3 && _other.Size < 2 * _usual.Size && _other.Spread < _usual.Spread / 2
            && _other.Spread > w.WideSpread / 4;
        bool isMore = _other.Count > _usual.Count && (_other.Spread <= 2 * _usual.Spread || _usual.Spread <= w.WideSpread / 4);
        if (isUsualEctopic || isMore || (_strangeRun >= 6 && _other.Count >= 4))
        {
            (_usual, _other) = (_other, _usual);
            (_strangeRun, _fitLevel) = (0, 0);
        }
        else if (_strangeRun >= 12)
        {
            Forget();
            _usual.Begin(c.Slopes, c.Scale);
        }
    }

    private bool IsOfOtherSize(BeatCandidateTwin c) => c.OtherSize > 0.75 * _other.Size && c.OtherSize < 1.5 * _other.Size;

    private BeatCandidateTwin Describe(BeatShapeTwin shape, BeatPlace place, double height)
    {
        (double[] slopes, int scale) = shape.Read((int)Math.Floor(place.Position + 0.5));
        return new BeatCandidateTwin
        {
            Slopes = slopes,
            Scale = scale,
            Position = place.Position,
            Deviation = place.Deviation,
            Slope = place.Slope,
            Height = height,
            Fit = _usual.Fit(slopes),
            Size = _usual.SizeOf(slopes, scale),
            OtherFit = _other.Fit(slopes),
            OtherSize = _other.SizeOf(slopes, scale),
        };
    }
}
