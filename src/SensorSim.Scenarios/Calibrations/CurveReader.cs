// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;

namespace SensorSim.Scenarios.Calibrations;

/// <summary>Reads the pressure curve of a calibration, and says which of its numbers cannot go together.</summary>
internal static class CurveReader
{
    // What chance does to two measurements, and what pulse pressures are believed; as docs/calibration.md has them.
    private const double LeastApartMs = 10;
    private const double LeastApartMmhg = 5;
    private const double LeastPulseMmhg = 10;

    private static readonly NumberKey[] s_ofOneCuff =
        [CalibrationKeys.SlopeMmhgPerMs, CalibrationKeys.ElasticityPerMmhg, CalibrationKeys.DiastolicShare];

    /// <summary>The curve; null without a measurement, or after a mistake.</summary>
    public static PressureCurve? Read(CalibrationTable table, IReadOnlyList<CalibrationTable> cuffs, MistakeList mistakes)
    {
        CuffMeasurement?[] read = [.. cuffs.Select(ReadCuff)];
        string model = table.Word(CalibrationKeys.Model);
        PressureCurve curve = Settings(table, model, [.. read.OfType<CuffMeasurement>()]);
        bool needsRate = curve.SystolicMmhgPerBpm is double and not 0 || curve.DiastolicMmhgPerBpm is double and not 0;
        foreach (CalibrationTable cuff in cuffs.Where(c => needsRate && !c.Has(CalibrationKeys.RateBpm)))
        {
            mistakes.Add(cuff.Place, $"[[cuff]] needs rate_bpm, because the pressure changes with the rate: {CalibrationKeys.RateBpm.RangeText} bpm");
        }

        if (cuffs.Count > 1)
        {
            foreach (NumberKey key in s_ofOneCuff.Where(table.Has))
            {
                table.Add(key, $"{key.Name} is for one [[cuff]]; two give both slopes themselves");
            }
        }
        else if (table.Has(CalibrationKeys.SlopeMmhgPerMs) && table.Has(CalibrationKeys.ElasticityPerMmhg))
        {
            table.Add(CalibrationKeys.ElasticityPerMmhg, "pressure.elasticity_per_mmhg gives the slope that pressure.slope_mmhg_per_ms gives already; keep one");
        }

        if (read is [CuffMeasurement first, CuffMeasurement second]
            && (Math.Abs(first.ArrivalMs - second.ArrivalMs) < LeastApartMs || Math.Abs(first.SystolicMmhg - second.SystolicMmhg) < LeastApartMmhg))
        {
            mistakes.Add(cuffs[1].Place, FormattableString.Invariant(
                $"the second [[cuff]] differs from the first by {Math.Abs(first.ArrivalMs - second.ArrivalMs):0.###} ms and {Math.Abs(first.SystolicMmhg - second.SystolicMmhg):0.###} mmHg systolic; {LeastApartMs:0} ms and {LeastApartMmhg:0} mmHg at least, as chance does less"));
        }

        return cuffs.Count == 0 || read.Contains(null) ? null : curve;
    }

    private static PressureCurve Settings(CalibrationTable table, string model, IReadOnlyList<CuffMeasurement> cuffs) => new(model, cuffs)
    {
        SlopeMmhgPerMs = table.Number(CalibrationKeys.SlopeMmhgPerMs),
        ElasticityPerMmhg = table.Number(CalibrationKeys.ElasticityPerMmhg),
        DiastolicShare = table.Number(CalibrationKeys.DiastolicShare),
        SystolicMmhgPerBpm = table.Number(CalibrationKeys.SystolicMmhgPerBpm),
        DiastolicMmhgPerBpm = table.Number(CalibrationKeys.DiastolicMmhgPerBpm),
        ValidDays = table.Number(CalibrationKeys.ValidDays),
        ReachMmhg = table.Number(CalibrationKeys.ReachMmhg),
    };

    private static CuffMeasurement? ReadCuff(CalibrationTable table)
    {
        double? arrival = table.Required(CalibrationKeys.ArrivalMs);
        double? systolic = table.Required(CalibrationKeys.SystolicMmhg);
        double? diastolic = table.Required(CalibrationKeys.DiastolicMmhg);
        double? spread = table.Number(CalibrationKeys.SpreadMs);
        double? rate = table.Number(CalibrationKeys.RateBpm);
        double? age = table.Number(CalibrationKeys.AgeDays);
        if (systolic - diastolic <= LeastPulseMmhg)
        {
            table.Add(CalibrationKeys.DiastolicMmhg, FormattableString.Invariant(
                $"cuff.diastolic_mmhg = {diastolic} lies less than {LeastPulseMmhg:0} mmHg below cuff.systolic_mmhg = {systolic}; below {systolic - LeastPulseMmhg} would do"));
        }

        return arrival is null || systolic is null || diastolic is null ? null : new CuffMeasurement(arrival.Value, systolic.Value, diastolic.Value)
        {
            SpreadMs = spread,
            RateBpm = rate,
            AgeDays = age ?? CalibrationKeys.AgeDays.Default,
        };
    }
}
