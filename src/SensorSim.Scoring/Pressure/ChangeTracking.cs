// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Pressure;

/// <summary>Whether estimates follow changes since calibration, against an estimate that never changes.</summary>
/// <remarks>
/// A calibrated device can meet every criterion of absolute error by repeating the value of its calibration. So the error is set against that of "no change
/// since calibration": skill = 1 − Σ(estimate − truth)² / Σ(calibration − truth)². 1 is perfect, 0 no better than the repeated value, below 0 worse. (The
/// skill score of forecasting, Murphy, Mon Weather Rev 116:2417-2424, 1988, from memory, with the calibration as the reference forecast.) Changes are
/// measured from each subject's own calibration.
/// </remarks>
public sealed class ChangeTracking
{
    private double _errors;
    private double _unchanged;
    private double _estimateChanges;
    private double _products;

    /// <summary>Readings added.</summary>
    public long Count { get; private set; }

    /// <summary>Root mean square of estimate − truth; null without a reading.</summary>
    public double? Rms => Count == 0 ? null : Math.Sqrt(_errors / Count);

    /// <summary>Root mean square of calibration − truth: the error of "no change"; null without a reading.</summary>
    public double? NoChangeRms => Count == 0 ? null : Math.Sqrt(_unchanged / Count);

    /// <summary>1 − (mean square error / that of "no change"); null when the truth never changed.</summary>
    public double? Skill => _unchanged > 0 ? 1 - (_errors / _unchanged) : null;

    /// <summary>Whether the error is below that of "no change"; null when the truth never changed.</summary>
    public bool? BeatsNoChange => Skill is double s ? s > 0 : null;

    /// <summary>Slope of estimated on true change, line through the calibration: 1 follows in full, 0 not at all; null when the truth never changed.</summary>
    public double? Slope => _unchanged > 0 ? _products / _unchanged : null;

    /// <summary>Cosine of estimated and true changes, −1 to 1 (a correlation about the calibration); null when either never changed.</summary>
    public double? Correlation => _unchanged > 0 && _estimateChanges > 0
        ? Math.Clamp(_products / Math.Sqrt(_unchanged) / Math.Sqrt(_estimateChanges), -1, 1)
        : null;

    /// <summary>Adds the readings of a subject.</summary>
    /// <param name="pairs">Its pairs of truth and estimate.</param>
    /// <param name="calibration">Its value at calibration, in the same unit.</param>
    public void Add(PairSums pairs, double calibration)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        Count += pairs.Count;
        _errors += pairs.ErrorSquares;
        _unchanged += pairs.TruthSquaresAbout(calibration);
        _estimateChanges += pairs.EstimateSquaresAbout(calibration);
        _products += pairs.ProductsAbout(calibration);
    }
}
