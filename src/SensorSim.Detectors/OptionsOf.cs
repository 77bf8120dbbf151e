// SPDX-License-Identifier: MIT
using SensorSim.Detection.Pipeline;
using SensorSim.Detection.Pressure;
using SensorSim.Detection.Readings;
using SensorSim.Signals.Detectors;

namespace SensorSim.Detectors;

/// <summary>What the library is told of sensor and wearer, from what the user calibrated.</summary>
internal static class OptionsOf
{
    private const long SecondsPerDay = 86_400;

    public static LibraryOptions Calibration(DetectorCalibration? calibration)
    {
        LibraryOptions options = LibraryOptions.Default;
        if (calibration is null)
        {
            return options;
        }

        options.StartS += (long)Math.Round(calibration.TimeOfDayH * 3600);
        if (calibration.Oxygen is IReadOnlyList<OxygenPair> pairs)
        {
            options.Oxygen = Table(pairs);
        }

        if (calibration.Pressure is PressureCurve curve)
        {
            options.Pressure = Curve(curve, options.StartS);
        }

        if (calibration.Trend is TrendSearch trend)
        {
            options.Trend = Search(trend);
        }

        return options;
    }

    /// <summary>A pair as the library takes it: ratio in 1/10,000, saturation in 1/1000 %.</summary>
    public static (int Ratio, int MilliPercent) Pair(OxygenPair pair) => ((int)Math.Round(pair.Ratio * 10_000), Milli(pair.SaturationPercent));

    private static OxygenTable Table(IReadOnlyList<OxygenPair> pairs)
    {
        OxygenTable table = default;
        foreach (OxygenPair pair in pairs)
        {
            (int ratio, int milliPercent) = Pair(pair);
            if (!table.Add(ratio, milliPercent))
            {
                throw new NotSupportedException(FormattableString.Invariant(
                    $"The library cannot take the oxygen pair {pair.Ratio}, {pair.SaturationPercent} %: up to {OxygenTable.MostPairs} pairs, ratios rising, saturations falling."));
            }
        }

        return table;
    }

    private static PressureCalibration Curve(PressureCurve curve, long startS)
    {
        var model = (PressureModel)Array.IndexOf([.. PressureCurve.Models], curve.Model);
        PressureCalibration usual = PressureCalibration.OnePoint(model, Point(curve.Cuffs[0], startS));
        usual = curve.Cuffs.Count > 1 ? PressureCalibration.TwoPoint(model, usual.First, Point(curve.Cuffs[1], startS)) : usual;
        return usual with
        {
            SlopeMilliMmHgPerMs = Milli(curve.SlopeMmhgPerMs ?? 0),
            ZetaMicroPerMmHg = curve.ElasticityPerMmhg is double zeta ? (int)Math.Round(zeta * 1e6) : usual.ZetaMicroPerMmHg,
            DiastolicSharePermille = curve.DiastolicShare is double share ? Milli(share) : usual.DiastolicSharePermille,
            SystolicPerBpmMilli = Milli(curve.SystolicMmhgPerBpm ?? 0),
            DiastolicPerBpmMilli = Milli(curve.DiastolicMmhgPerBpm ?? 0),
            LongestAgeDays = curve.ValidDays is double days ? (int)Math.Round(days) : usual.LongestAgeDays,
            ReachMilliMmHg = curve.ReachMmhg is double reach ? Milli(reach) : usual.ReachMilliMmHg,
        };
    }

    private static CuffPoint Point(CuffMeasurement cuff, long startS) => new(
        Milli(cuff.SystolicMmhg),
        Milli(cuff.DiastolicMmhg),
        Milli(cuff.ArrivalMs),
        Milli(cuff.SpreadMs ?? 0),
        Milli(cuff.RateBpm ?? 0),
        startS - (long)Math.Round(cuff.AgeDays * SecondsPerDay));

    private static TrendSettings Search(TrendSearch search)
    {
        TrendSettings usual = search.FalseAlarmDays is double days ? TrendSettings.Create((int)Math.Round(days)) : TrendSettings.Create();
        return usual with
        {
            LearningDays = search.LearningDays is double learning ? (byte)Math.Round(learning) : usual.LearningDays,
            PerBpmMilli = (short)Milli(search.SystolicMmhgPerBpm ?? 0),
            RestMarginBpm = search.RestMarginBpm is double margin ? (byte)Math.Round(margin) : usual.RestMarginBpm,
        };
    }

    private static int Milli(double value) => (int)Math.Round(value * 1000);
}
