// SPDX-License-Identifier: MIT
using SensorSim.Scoring.Statistics;

namespace SensorSim.Scoring.Oxygen;

/// <summary>Accuracy of oxygen saturation by ISO 80601-2-61: A_rms, bias and precision, of all readings and by bands of the true value.</summary>
/// <remarks>
/// A_rms = √(Σ(estimate − truth)² / n); bias = mean of the differences; precision = standard deviation of the estimates about their least-squares line on the
/// true value, divisor n − 2 (definitions as in ISO 80601-2-61, from memory). The usual limit is 4 points over 70 to 100 % (from memory). A simulation checks
/// arithmetic and noise: accuracy on people needs desaturation studies against a co-oximeter.
/// </remarks>
public sealed class SaturationAccuracy
{
    /// <summary>Lower edges of the bands and the upper edge of the last [%]: 70 to 80, 80 to 90, 90 to 100; the upper edge belongs to the last band only.</summary>
    public static readonly IReadOnlyList<double> EdgesPercent = [70, 80, 90, 100];

    private readonly PairSums[] _bands = [new(), new(), new()];
    private readonly PairSums _claimed = new();

    /// <summary>Readings with a true value of 70 to 100 %.</summary>
    public PairSums Claimed => _claimed;

    /// <summary>Readings by band of the true value, in order of <see cref="EdgesPercent"/>.</summary>
    public IReadOnlyList<PairSums> Bands => _bands;

    /// <summary>Readings whose true value lies outside 70 to 100 %: in no figure.</summary>
    public long OutsideCount { get; private set; }

    /// <summary>A_rms of 70 to 100 % [points]; null without a reading.</summary>
    public double? Arms => _claimed.Rms;

    /// <summary>Mean of estimate − truth [points]; null without a reading.</summary>
    public double? Bias => _claimed.Bias;

    /// <summary>Standard deviation about the line, divisor n − 2 [points]; null with fewer than three readings, or when the truth did not vary.</summary>
    public double? Precision => _claimed.ResidualSd;

    /// <summary>Standard deviation of estimate − truth, divisor n − 1 [points]; null with fewer than two readings.</summary>
    public double? Sd => _claimed.Sd;

    /// <summary>Adds a reading.</summary>
    /// <param name="truthPercent">True saturation [%].</param>
    /// <param name="estimatePercent">Reading [%].</param>
    public void Add(double truthPercent, double estimatePercent)
    {
        if (!(truthPercent >= EdgesPercent[0] && truthPercent <= EdgesPercent[^1]))
        {
            OutsideCount++;
            return;
        }

        int band = 0;
        while (band < _bands.Length - 1 && truthPercent >= EdgesPercent[band + 1])
        {
            band++;
        }

        _bands[band].Add(truthPercent, estimatePercent);
        _claimed.Add(truthPercent, estimatePercent);
    }

    /// <summary>Adds the readings of other figures.</summary>
    /// <param name="other">The figures; unchanged.</param>
    public void Add(SaturationAccuracy other)
    {
        ArgumentNullException.ThrowIfNull(other);
        OutsideCount += other.OutsideCount;
        _claimed.Add(other._claimed);
        for (int i = 0; i < _bands.Length; i++)
        {
            _bands[i].Add(other._bands[i]);
        }
    }
}
