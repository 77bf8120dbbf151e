// SPDX-License-Identifier: MIT
namespace SensorSim.Detection.Pressure;

/// <summary>Everything that an application has to store to calibrate again after a restart. Not part of the estimator's state.</summary>
/// <remarks>Make it by <see cref="OnePoint"/> or <see cref="TwoPoint"/>, which set the usual values, and change what differs.</remarks>
public record struct PressureCalibration
{
    /// <summary>Default of <see cref="ZetaMicroPerMmHg"/>: 0.017 per mmHg (Hughes 1979 gives 0.016 to 0.018; from memory).</summary>
    public const int UsualZetaMicroPerMmHg = 17_000;

    /// <summary>
    /// Default of <see cref="LongestAgeDays"/>. Wong 2009: systolic errors of coefficients used again grew from 0.0 ± 5.3 mmHg on the same
    /// day to 1.4 ± 10.2 after six months. If their mean square grows evenly, it passes 8², the largest SD that ISO 81060-2 allows, on day 84.
    /// </summary>
    public const int UsualLongestAgeDays = 84;

    /// <summary>Default of <see cref="ReachMilliMmHg"/>: 20 mmHg, two thirds of the change that IEEE 1708a-2019 asks to test. A choice.</summary>
    public const int UsualReachMilliMmHg = 20_000;

    /// <summary>Default of <see cref="DiastolicSharePermille"/>: 0.6, between night falls of 8/11 and 4/8 (Morris 2013). A choice.</summary>
    public const int UsualDiastolicSharePermille = 600;

    /// <summary>Form of the curve.</summary>
    public PressureModel Model { get; set; }

    /// <summary>Cuff measurements: 1 or 2.</summary>
    public int Points { get; set; }

    /// <summary>The measurement that the curve goes through, and where its slope is given.</summary>
    public CuffPoint First { get; set; }

    /// <summary>The second measurement; ignored when there is one point.</summary>
    public CuffPoint Second { get; set; }

    /// <summary>Slope of systolic pressure at the first point [1/1000 mmHg per ms], below 0; 0: −2 / (ζ T). Ignored with two points.</summary>
    public int SlopeMilliMmHgPerMs { get; set; }

    /// <summary>Elasticity ζ of the arteries [10^-6 per mmHg], 5,000 to 50,000; used when there is no slope.</summary>
    public int ZetaMicroPerMmHg { get; set; }

    /// <summary>Slope of diastolic pressure, as a share of the systolic one [1/1000], 0 to 1000; ignored with two points.</summary>
    public int DiastolicSharePermille { get; set; }

    /// <summary>Systolic pressure for each bpm above the first point's rate [1/1000 mmHg], −5,000 to 5,000; 0: no such term.</summary>
    public int SystolicPerBpmMilli { get; set; }

    /// <summary>Diastolic pressure for each bpm above the first point's rate [1/1000 mmHg], −5,000 to 5,000; 0: no such term.</summary>
    public int DiastolicPerBpmMilli { get; set; }

    /// <summary>Age after which nothing is given [days], 1 to 3,650; counted from the older point.</summary>
    public int LongestAgeDays { get; set; }

    /// <summary>How far beyond the calibrated systolic pressures values are given [1/1000 mmHg], 0 to 100,000; diastolic: two thirds of it.</summary>
    public int ReachMilliMmHg { get; set; }

    /// <summary>A calibration by one cuff measurement: the slope is the published one, and may be off by a factor of two.</summary>
    /// <param name="model">Form of the curve.</param>
    /// <param name="first">The measurement.</param>
    public static PressureCalibration OnePoint(PressureModel model, CuffPoint first) => new()
    {
        Model = model,
        Points = 1,
        First = first,
        ZetaMicroPerMmHg = UsualZetaMicroPerMmHg,
        DiastolicSharePermille = UsualDiastolicSharePermille,
        LongestAgeDays = UsualLongestAgeDays,
        ReachMilliMmHg = UsualReachMilliMmHg,
    };

    /// <summary>A calibration by two cuff measurements of different pressure.</summary>
    /// <param name="model">Form of the curve.</param>
    /// <param name="first">The measurement at rest.</param>
    /// <param name="second">The other one.</param>
    public static PressureCalibration TwoPoint(PressureModel model, CuffPoint first, CuffPoint second) =>
        OnePoint(model, first) with { Points = 2, Second = second };
}
