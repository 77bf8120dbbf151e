// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Tests.Twins.Models;

/// <summary>What fixed point cost one stage on one signal: the difference from its twin.</summary>
/// <param name="SignalRms">Standard deviation of the twin's output, in steps of the stage's word.</param>
/// <param name="ErrorMean">Mean of fixed point − twin [steps].</param>
/// <param name="ErrorSd">Standard deviation of it [steps].</param>
/// <param name="ErrorMax">Largest magnitude of it [steps].</param>
internal readonly record struct StageCost(double SignalRms, double ErrorMean, double ErrorSd, double ErrorMax)
{
    /// <summary>Error (mean included) over signal [dB]; minus infinity when there is none.</summary>
    public double Decibels => 20 * Math.Log10(Math.Sqrt((ErrorSd * ErrorSd) + (ErrorMean * ErrorMean)) / SignalRms);

    /// <summary>Compares two series of the same length.</summary>
    public static StageCost Of(double[] fixedPoint, double[] twin)
    {
        double mean = twin.Average();
        double[] errors = [.. fixedPoint.Zip(twin, (a, b) => a - b)];
        double errorMean = errors.Average();
        return new StageCost(
            Math.Sqrt(twin.Average(v => (v - mean) * (v - mean))),
            errorMean,
            Math.Sqrt(errors.Average(e => (e - errorMean) * (e - errorMean))),
            errors.Max(Math.Abs));
    }
}
