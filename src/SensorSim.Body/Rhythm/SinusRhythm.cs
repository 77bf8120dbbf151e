// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Sinus rhythm: each RR interval is the mean plus a respiratory and a slow fluctuation, both taken at the beat that begins it.</summary>
/// <remarks>Source: the two-band spectrum of McSharry et al., IEEE Trans Biomed Eng 50:289, 2003; band width 0.01 Hz.</remarks>
internal sealed class SinusRhythm
{
    private const double SlowWidthHz = 0.01;
    private const double ShortestRrSeconds = 0.2;

    private readonly BreathingModel _breathing;
    private readonly GaussianBand _slow;
    private readonly double _meanRrSeconds;
    private readonly double _centreSeconds;
    private readonly double _respiratorySeconds;

    public SinusRhythm(KeyValues values, ulong seed, BreathingModel breathing)
    {
        _breathing = breathing;
        _meanRrSeconds = 60 / values[HeartKeys.RateBpm];
        _respiratorySeconds = values[HeartKeys.RespiratoryVariabilityMs] * 1e-3;

        // Short intervals come more often, so the mean over beats lies variance / mean below the middle of the fluctuation.
        double slowSeconds = values[HeartKeys.SlowVariabilityMs] * 1e-3;
        double variance = (_respiratorySeconds * _respiratorySeconds) + (slowSeconds * slowSeconds);
        _centreSeconds = _meanRrSeconds + (variance / _meanRrSeconds);
        _slow = new GaussianBand(
            new KeyedRandom(seed, "heart.slow_variability"),
            values[HeartKeys.SlowFrequencyHz],
            SlowWidthHz,
            slowSeconds);
    }

    public double MeanRrSeconds => _meanRrSeconds;

    /// <summary>Length of the RR interval that begins at a time [s]. Inspiration shortens it.</summary>
    public double RrSeconds(double seconds)
    {
        double respiratory = _respiratorySeconds == 0 ? 0 : _respiratorySeconds * Math.Sqrt(2.0) * _breathing.Depth(seconds);
        return Math.Max(ShortestRrSeconds, _centreSeconds - respiratory + _slow.Value(seconds));
    }
}
