// SPDX-License-Identifier: MIT
using SensorSim.Body.Breathing;
using SensorSim.Signals.Courses;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Processes;
using SensorSim.Signals.Randomness;

namespace SensorSim.Body.Rhythm;

/// <summary>Length of a sinus interval: the mean plus a respiratory, a 0.1 Hz and a 1/f fluctuation, taken at the beat that begins it.</summary>
/// <remarks>Source: the two-band spectrum of McSharry et al., IEEE Trans Biomed Eng 50:289, 2003 (band width 0.01 Hz); 1/f below 0.04 Hz.</remarks>
internal sealed class Variability
{
    private const double SlowWidthHz = 0.01;
    private const double DriftLowestHz = 0.001;
    private const double DriftHighestHz = 0.038;
    private const double ShortestRrSeconds = 0.2;

    private readonly BreathingModel _breathing;
    private readonly GaussianBand _slow;
    private readonly PinkBand _drift;
    private readonly Course _rateBpm;
    private readonly Course _respiratoryMs;
    private readonly Course _slowMs;
    private readonly Course _driftMs;

    public Variability(KeyValues values, ulong seed, BreathingModel breathing)
    {
        _breathing = breathing;
        _slow = new GaussianBand(
            new KeyedRandom(seed, "heart.slow_variability"), values[HeartKeys.SlowFrequencyHz], SlowWidthHz, 1);
        _drift = new PinkBand(new KeyedRandom(seed, "heart.drift_variability"), DriftLowestHz, DriftHighestHz, 1);
        _rateBpm = values.Course(HeartKeys.RateBpm);
        VariabilityBands bands = VariabilityBands.From(values);
        bool isGiven = bands.IsGiven;
        _respiratoryMs = isGiven ? new Course(bands.RespiratoryMs) : values.Course(HeartKeys.RespiratoryVariabilityMs);
        _slowMs = isGiven ? new Course(bands.SlowMs) : values.Course(HeartKeys.SlowVariabilityMs);
        _driftMs = isGiven ? new Course(bands.DriftMs) : values.Course(HeartKeys.DriftVariabilityMs);
    }

    /// <summary>Mean interval at a time [s].</summary>
    public double MeanRrSeconds(double seconds) => 60 / _rateBpm.Value(seconds);

    /// <summary>Length of the interval that begins at a time [s]. Inspiration shortens it.</summary>
    public double RrSeconds(double seconds)
    {
        double mean = MeanRrSeconds(seconds);
        double respiratory = _respiratoryMs.Value(seconds) * 1e-3;
        double slow = _slowMs.Value(seconds) * 1e-3;
        double drift = _driftMs.Value(seconds) * 1e-3;

        // Short intervals come more often, so the mean over beats lies variance / mean below the middle of the fluctuation.
        double rr = mean + (((respiratory * respiratory) + (slow * slow) + (drift * drift)) / mean);
        rr -= respiratory == 0 ? 0 : respiratory * Math.Sqrt(2.0) * _breathing.Depth(seconds);
        rr += slow == 0 ? 0 : slow * _slow.Value(seconds);
        rr += drift == 0 ? 0 : drift * _drift.Value(seconds);
        return Math.Max(ShortestRrSeconds, rr);
    }
}
