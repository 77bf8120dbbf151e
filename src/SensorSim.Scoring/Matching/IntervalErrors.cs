// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Matching;

/// <summary>Errors of intervals: of two neighbouring truths that both pair, detected − true interval, when nothing lies between.</summary>
/// <remarks>Source: ANSI/AAMI EC57, from memory: RMS of RR differences over matched consecutive pairs, in ms and per cent of the mean.</remarks>
public sealed class IntervalErrors
{
    private long _truthNs;
    private long _detectionNs;
    private bool _hasLast;
    private Int128 _trueSum;

    /// <summary>Errors of the intervals [ms].</summary>
    public ErrorSums Errors { get; } = new(1e-6);

    /// <summary>Root mean square error in per cent of the mean true interval [%]; null without an interval.</summary>
    public double? RmsPercent => Errors.Rms is double rms ? 100 * rms / ((double)_trueSum / Errors.Count * 1e-6) : null;

    internal void AddPair(long truthNs, long detectionNs, bool isTimed)
    {
        // Pairs of a tangle may close out of order: then there is no interval.
        if (isTimed && _hasLast && truthNs > _truthNs && detectionNs > _detectionNs)
        {
            Errors.Add(detectionNs - _detectionNs - (truthNs - _truthNs));
            _trueSum += truthNs - _truthNs;
        }

        (_truthNs, _detectionNs, _hasLast) = (truthNs, detectionNs, isTimed);
    }

    internal void Break() => _hasLast = false;
}
