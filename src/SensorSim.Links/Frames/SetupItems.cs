// SPDX-License-Identifier: MIT
namespace SensorSim.Links.Frames;

/// <summary>Numbers of the items of a <c>setup</c> frame: everything that the library is told of its sensor and its wearer.</summary>
/// <remarks>
/// The same table stands in <c>docs/link-protocol.md</c> and in <c>src/firmware/link/sensorsim_link.h</c>. What is not told keeps its usual value.
/// Numbers are hexadecimal and never get another meaning; a new one gets a new number.
/// </remarks>
public static class SetupItems
{
    /// <summary>Local time at tick 0 [s], counted from a midnight, at least one day.</summary>
    public const ushort StartS = 0x0001;

    /// <summary>No two beats lie closer than this [ms].</summary>
    public const ushort BeatRefractoryMs = 0x0100;

    /// <summary>Up to this long after a beat a candidate may be its T wave [ms].</summary>
    public const ushort BeatTWaveMs = 0x0101;

    /// <summary>Threshold of beats, of the usual one [%].</summary>
    public const ushort BeatThresholdPercent = 0x0102;

    /// <summary>No two pulses lie closer than this [ms].</summary>
    public const ushort PulseRefractoryMs = 0x0103;

    /// <summary>Thresholds of pulses, of the usual ones [%].</summary>
    public const ushort PulseThresholdPercent = 0x0104;

    /// <summary>A gate that shut stays shut for this long at least [ms].</summary>
    public const ushort GateShutMs = 0x0105;

    /// <summary>Features of the last beats that may stand out when the gate of the ECG opens.</summary>
    public const ushort EcgFaultsToOpen = 0x0106;

    /// <summary>Features of the last pulses that may stand out when the gate of the light opens.</summary>
    public const ushort LightFaultsToOpen = 0x0107;

    /// <summary>After a signal that was not convincing for this many beats or pulses, as many must be before a gate opens.</summary>
    public const ushort Doubt = 0x0108;

    /// <summary>Pairs of the oxygen table; comes before them, and empties it.</summary>
    public const ushort OxygenPairs = 0x0200;

    /// <summary>Ratio of ratios of pair index [1/10,000].</summary>
    public const ushort OxygenRatio = 0x0201;

    /// <summary>Saturation of pair index [1/1000 %].</summary>
    public const ushort OxygenMilliPercent = 0x0202;

    /// <summary>Cuff measurements of the pressure's calibration, 0 to 2; 0: no pressures.</summary>
    public const ushort PressurePoints = 0x0300;

    /// <summary>Form of the curve: 0 linear, 1 logarithmic, 2 inverse, 3 inverse square, 4 pulse pressure.</summary>
    public const ushort PressureModel = 0x0301;

    /// <summary>Slope of systolic pressure at the first point [1/1000 mmHg per ms].</summary>
    public const ushort PressureSlopeMilli = 0x0302;

    /// <summary>Elasticity of the arteries [10⁻⁶ per mmHg].</summary>
    public const ushort PressureZetaMicro = 0x0303;

    /// <summary>Slope of diastolic pressure, as a share of the systolic one [1/1000].</summary>
    public const ushort PressureDiastolicSharePermille = 0x0304;

    /// <summary>Systolic pressure for each bpm above the first point's rate [1/1000 mmHg].</summary>
    public const ushort PressureSystolicPerBpmMilli = 0x0305;

    /// <summary>Diastolic pressure for each bpm above the first point's rate [1/1000 mmHg].</summary>
    public const ushort PressureDiastolicPerBpmMilli = 0x0306;

    /// <summary>Age after which nothing is given [days].</summary>
    public const ushort PressureLongestAgeDays = 0x0307;

    /// <summary>How far beyond the calibrated systolic pressures values are given [1/1000 mmHg].</summary>
    public const ushort PressureReachMilli = 0x0308;

    /// <summary>Systolic pressure of point index [1/1000 mmHg].</summary>
    public const ushort CuffSystolicMilli = 0x0310;

    /// <summary>Diastolic pressure of point index [1/1000 mmHg].</summary>
    public const ushort CuffDiastolicMilli = 0x0311;

    /// <summary>Arrival time of point index [µs].</summary>
    public const ushort CuffArrivalUs = 0x0312;

    /// <summary>Spread of the single beats' arrival times of point index [µs], 0 not known.</summary>
    public const ushort CuffSpreadUs = 0x0313;

    /// <summary>Heart rate of point index [1/1000 bpm], 0 not known.</summary>
    public const ushort CuffRateMilli = 0x0314;

    /// <summary>Local time of point index [s], counted as <see cref="StartS"/>.</summary>
    public const ushort CuffTimeS = 0x0315;

    /// <summary>Allowance of the trend [1/256 standard deviation].</summary>
    public const ushort TrendAllowance256 = 0x0400;

    /// <summary>Threshold of the trend [1/256 standard deviation].</summary>
    public const ushort TrendThreshold256 = 0x0401;

    /// <summary>Days with readings before a change may be told.</summary>
    public const ushort TrendLearningDays = 0x0402;

    /// <summary>Standard deviation from day to day that is assumed at first [1/16 mmHg].</summary>
    public const ushort TrendFirstSd16 = 0x0403;

    /// <summary>Days that the assumed deviation weighs.</summary>
    public const ushort TrendFirstSdDays = 0x0404;

    /// <summary>Smallest quality of a spot reading that counts.</summary>
    public const ushort TrendLeastQuality = 0x0405;

    /// <summary>Pressure for each bpm away from the usual rate that is taken off [1/1000 mmHg].</summary>
    public const ushort TrendPerBpmMilli = 0x0406;

    /// <summary>Spots at a rate this far above the usual one do not count [bpm].</summary>
    public const ushort TrendRestMarginBpm = 0x0407;

    /// <summary>First number that belongs to the detector itself.</summary>
    public const ushort FirstOfDetector = 0x8000;
}
