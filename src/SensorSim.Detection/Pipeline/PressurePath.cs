// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Pipeline;

/// <summary>From a spot arrival time to pressures and their trend, once in 5 s. Does nothing without a calibration.</summary>
/// <remarks>
/// One trend, of systolic pressure: diastolic pressure follows from the same arrival time by the same curve, so a second trend would bring
/// no news and as many false alarms again.
/// </remarks>
internal struct PressurePath
{
    private PressureEstimator _estimator;
    private PressureTrend _trend;
    private TrendSettings _settings;
    private long _startS;
    private bool _isThere;

    /// <summary>Why there is no pressure.</summary>
    public readonly PressureRefusal Refusal => _estimator.Refusal;

    /// <summary>Forgets, and takes the calibration if there is one.</summary>
    /// <param name="options">What the library was told.</param>
    public void Start(in LibraryOptions options)
    {
        this = default;
        _settings = options.Trend;
        _startS = options.StartS;
        if (options.Pressure.Points > 0)
        {
            _ = Calibrate(options.Pressure);
        }
    }

    /// <summary>Takes a calibration in place of what was there, and begins the trend anew, as its usual values were the old curve's.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <returns>Whether it holds; a refused one leaves none.</returns>
    public bool Calibrate(in PressureCalibration calibration)
    {
        _trend = default;
        _isThere = _estimator.Calibrate(calibration);
        return _isThere;
    }

    /// <summary>Takes a spot arrival time.</summary>
    /// <param name="clock">The common clock.</param>
    /// <param name="spot">The arrival time.</param>
    /// <param name="spread">Spread of its beats.</param>
    /// <param name="rate">Heart rate of the same time; of value 0 when there is none.</param>
    /// <param name="systolic">Systolic pressure.</param>
    /// <param name="diastolic">Diastolic pressure.</param>
    /// <param name="change">The trend; of its kind only when one is told.</param>
    /// <returns>Whether there are pressures; the trend is told with them only.</returns>
    public bool Estimate(
        CommonClock clock, in Reading spot, in Reading spread, in Reading rate, out Reading systolic, out Reading diastolic, out Reading change)
    {
        change = default;
        systolic = default;
        diastolic = default;
        if (!_isThere)
        {
            return false;
        }

        long nowS = _startS + clock.Seconds(spot.Ticks256);
        bool isNew = _estimator.Estimate(spot, spread, rate, nowS, out systolic, out diastolic);
        if (isNew)
        {
            _ = _trend.Add(_settings, clock, systolic, rate, nowS, out change);
        }

        return isNew;
    }
}
