// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pressure;

namespace SensorSim.Detection.Tests.Pressure;

/// <summary>The published forms in floating point, from their textbook constants a and b: independent of the integer arithmetic.</summary>
internal static class PressureForms
{
    public const int Minute256 = 256 * 1000 * 60;

    public static CuffPoint Cuff(double systolic, double diastolic, double arrivalMs, double spreadMs = 0, double bpm = 60, double days = 0) => new(
        (int)Math.Round(systolic * 1000), (int)Math.Round(diastolic * 1000), (int)Math.Round(arrivalMs * 1000),
        (int)Math.Round(spreadMs * 1000), (int)Math.Round(bpm * 1000), (long)(days * 86_400));

    public static Reading Spot(double ms, byte quality = 255) =>
        new(ReadingKind.ArrivalSpot, (int)Math.Round(ms * 1000), quality, 10L * Minute256, Minute256 / 2);

    public static Reading Spread(double ms) => new(ReadingKind.ArrivalSpread, (int)Math.Round(ms * 1000), 255, 10L * Minute256, Minute256 / 2);

    public static Reading Rate(double bpm, long ticks256 = 10L * Minute256) =>
        new(ReadingKind.HeartRateEcg, (int)Math.Round(bpm * 1000), 255, ticks256, Minute256 / 4);

    /// <summary>The basis function of a form at an arrival time [ms].</summary>
    public static double Basis(PressureModel model, double ms) => model switch
    {
        PressureModel.Linear => ms,
        PressureModel.Inverse => 1 / ms,
        PressureModel.InverseSquare => 1 / (ms * ms),
        _ => Math.Log(ms),
    };

    /// <summary>Constant b of a form with a slope [mmHg/ms] at an arrival time [ms].</summary>
    public static double B(PressureModel model, double slope, double ms) => model switch
    {
        PressureModel.Linear => slope,
        PressureModel.Inverse => -slope * ms * ms,
        PressureModel.InverseSquare => -slope * ms * ms * ms / 2,
        _ => slope * ms,
    };
}
