// SPDX-License-Identifier: MIT
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pressure;

/// <summary>Systolic and diastolic pressure from the spot arrival time, after calibration by a cuff. Follows changes; no diagnosis.</summary>
/// <remarks>
/// P = P0 + gain × h(T / T0) + rate term, see <see cref="ArrivalShape"/>. Part of the distance from the nearest calibrated pressure that
/// counts as error: with one point 40 % (published slopes differ by twice and half), with two points 10 % between them; beyond
/// them what cuff errors of 5 mmHg do to the slope, 7 mmHg over the difference of the pressures, 25 % at least. Choices of this project.
/// Input: 1/1000 mmHg, µs, 1/1000 bpm, seconds.
/// Product: gain × h, 27 + 28 bits; rate term 13 + 19 bits.
/// Accumulator: 64 bits in products, 32 bits in sums.
/// Worst case: products clip at 2^31 − 1, which is implausible and refused.
/// Output: 1/1000 mmHg, rounded to nearest; a dozen long divisions per estimate.
/// </remarks>
public struct PressureEstimator
{
    private const int SecondsPerDay = 86_400;
    private const int OnePointPermille = 400;
    private const int InsidePermille = 100;
    private const int LeastOutsidePermille = 250;

    // Spread at rest where none is told: the upper end of 3 to 8 ms (finger, from memory).
    private const int UsualSpreadUs = 8_000;

    private long _timeS;
    private int _arrivalUs;
    private int _systolicMilli;
    private int _diastolicMilli;
    private int _otherSystolicMilli;
    private int _otherDiastolicMilli;
    private int _systolicGainMilli;
    private int _diastolicGainMilli;
    private int _rateMilliBpm;
    private int _reachMilli;
    private short _systolicPerBpmMilli;
    private short _diastolicPerBpmMilli;
    private ushort _longestAgeDays;
    private ushort _spreadUs;
    private ushort _outsidePermille;
    private PressureModel _model;
    private bool _isCalibrated;

    /// <summary>Why the last calibration or estimate gave nothing.</summary>
    public PressureRefusal Refusal { get; private set; }

    /// <summary>Slope of systolic pressure at the first point (of mean pressure in <see cref="PressureModel.PulsePressure"/>) [1/1000 mmHg per ms], below 0.</summary>
    public readonly int SlopeMilliMmHgPerMs => _isCalibrated ? -Slope(_systolicGainMilli) : 0;

    /// <summary>Takes a calibration in place of what was there. A refused one leaves none.</summary>
    /// <param name="calibration">The calibration.</param>
    /// <returns>Whether it holds; else <see cref="Refusal"/> says why not.</returns>
    public bool Calibrate(in PressureCalibration calibration)
    {
        this = default;
        Refusal = PressureLimits.Check(calibration);
        if (Refusal != PressureRefusal.None)
        {
            return false;
        }

        CuffPoint first = calibration.First;
        CuffPoint other = calibration.Points == 2 ? calibration.Second : first;
        _model = calibration.Model;
        _timeS = first.TimeS < other.TimeS ? first.TimeS : other.TimeS;
        _arrivalUs = first.ArrivalUs;
        _systolicMilli = first.SystolicMilli;
        _diastolicMilli = first.DiastolicMilli;
        _otherSystolicMilli = other.SystolicMilli;
        _otherDiastolicMilli = other.DiastolicMilli;
        _rateMilliBpm = first.RateMilliBpm;
        _reachMilli = calibration.ReachMilliMmHg;
        _systolicPerBpmMilli = (short)calibration.SystolicPerBpmMilli;
        _diastolicPerBpmMilli = (short)calibration.DiastolicPerBpmMilli;
        _longestAgeDays = (ushort)calibration.LongestAgeDays;
        _spreadUs = (ushort)(first.SpreadUs == 0 ? UsualSpreadUs : first.SpreadUs);
        if (calibration.Points == 2)
        {
            FitTwo(other);
        }
        else
        {
            FitOne(calibration);
        }

        _isCalibrated = PressureLimits.IsSlope(_systolicGainMilli, _arrivalUs) && Sat.Abs32(_diastolicGainMilli) <= -_systolicGainMilli;
        Refusal = _isCalibrated ? PressureRefusal.None : PressureRefusal.SlopeImplausible;
        return _isCalibrated;
    }

    /// <summary>Estimates both pressures, the spread of the arrival times not being known.</summary>
    /// <inheritdoc cref="Estimate(in Reading, in Reading, in Reading, long, out Reading, out Reading)"/>
    public bool Estimate(in Reading arrivalSpot, in Reading heartRate, long nowS, out Reading systolic, out Reading diastolic) =>
        Estimate(arrivalSpot, default, heartRate, nowS, out systolic, out diastolic);

    /// <summary>Estimates both pressures.</summary>
    /// <param name="arrivalSpot">Spot arrival time.</param>
    /// <param name="arrivalSpread">Spread of the beats in it; anything else stands for a spread that is not known.</param>
    /// <param name="heartRate">Heart rate of the same time; needed only for a rate term.</param>
    /// <param name="nowS">Now [s], on the clock of the calibration.</param>
    /// <param name="systolic">Systolic pressure, of the place and window of the arrival time.</param>
    /// <param name="diastolic">Diastolic pressure, alike.</param>
    /// <returns>Whether there are values; else <see cref="Refusal"/> says why not.</returns>
    public bool Estimate(
        in Reading arrivalSpot, in Reading arrivalSpread, in Reading heartRate, long nowS, out Reading systolic, out Reading diastolic)
    {
        systolic = default;
        diastolic = default;
        long ageDays = (nowS - _timeS) / SecondsPerDay;
        Refusal = !_isCalibrated ? PressureRefusal.NotCalibrated
            : nowS < _timeS ? PressureRefusal.TimeBeforeCalibration
            : nowS - _timeS > (long)_longestAgeDays * SecondsPerDay ? PressureRefusal.CalibrationTooOld
            : arrivalSpot.Kind != ReadingKind.ArrivalSpot || arrivalSpot.Quality == 0 ? PressureRefusal.ArrivalMissing
            : !PressureLimits.IsArrival(arrivalSpot.ValueMilli) ? PressureRefusal.ArrivalImplausible
            : HasRateTerm() && !IsRateOf(heartRate, arrivalSpot) ? PressureRefusal.HeartRateMissing
            : PressureRefusal.None;
        if (Refusal != PressureRefusal.None)
        {
            return false;
        }

        At(arrivalSpot.ValueMilli, heartRate.ValueMilli, out int systolicMilli, out int diastolicMilli);
        int systolicOff = Distance(systolicMilli, _systolicMilli, _otherSystolicMilli, out int systolicBeyond);
        int diastolicOff = Distance(diastolicMilli, _diastolicMilli, _otherDiastolicMilli, out int diastolicBeyond);
        int spreadUs = SpreadOfBoth(arrivalSpread.Kind == ReadingKind.ArrivalSpread ? arrivalSpread.ValueMilli : UsualSpreadUs);
        byte trust = PressureError.Quality(PressureError.Centi(true, (int)ageDays, Slope(OwnGain(true)), spreadUs, systolicOff));
        byte diastolicTrust = PressureError.Quality(PressureError.Centi(false, (int)ageDays, Slope(OwnGain(false)), spreadUs, diastolicOff));
        Refusal = systolicBeyond > _reachMilli || diastolicBeyond * 3L > _reachMilli * 2L ? PressureRefusal.OutsideCalibratedRange
            : !PressureLimits.ArePlausible(systolicMilli, diastolicMilli) ? PressureRefusal.ValueImplausible
            : trust == 0 || diastolicTrust == 0 ? PressureRefusal.TooUncertain
            : PressureRefusal.None;
        if (Refusal != PressureRefusal.None)
        {
            return false;
        }

        systolic = Make(ReadingKind.Systolic, systolicMilli, trust, arrivalSpot);
        diastolic = Make(ReadingKind.Diastolic, diastolicMilli, diastolicTrust, arrivalSpot);
        return true;
    }

    private static Reading Make(ReadingKind kind, int milli, byte trust, in Reading source) =>
        new(kind, milli, trust < source.Quality ? trust : source.Quality, source.Ticks256, source.WindowTicks256);

    private static bool IsRateOf(in Reading rate, in Reading spot) =>
        rate.Kind <= ReadingKind.HeartRateFused && rate.ValueMilli > 0 && rate.ValueMilli <= 400_000 && rate.Quality > 0
        && rate.Ticks256 >= spot.Ticks256 - spot.WindowTicks256 && rate.Ticks256 <= spot.Ticks256 + spot.WindowTicks256;

    private readonly bool HasRateTerm() => _systolicPerBpmMilli != 0 || _diastolicPerBpmMilli != 0;

    private readonly int Slope(int gainMilli) => LongDivision.Rounded((ulong)Sat.Abs32(gainMilli) * 1000, (uint)_arrivalUs);

    private readonly int SpreadOfBoth(int spreadUs)
    {
        uint now = spreadUs is < 0 or > ushort.MaxValue ? ushort.MaxValue : (uint)spreadUs;

        // Both halved, so that the sum of their squares has room.
        return (int)(2 * IntegerRoot.Floor(((now >> 1) * (now >> 1)) + (((uint)_spreadUs >> 1) * ((uint)_spreadUs >> 1))));
    }

    private readonly int RateTerm(int perBpmMilli, int rateMilliBpm) =>
        perBpmMilli == 0 ? 0 : (int)((long)perBpmMilli * (rateMilliBpm - _rateMilliBpm) / 1000);

    private readonly void At(int arrivalUs, int rateMilliBpm, out int systolicMilli, out int diastolicMilli)
    {
        int shape = ArrivalShape.Q24(_model, arrivalUs, _arrivalUs);
        if (_model == PressureModel.PulsePressure)
        {
            int pulse = _systolicMilli - _diastolicMilli;
            int mean = Sat.Add32(MeanMilli(_systolicMilli, _diastolicMilli), ArrivalShape.Times(_systolicGainMilli, shape));
            pulse = ArrivalShape.Times(pulse, ArrivalShape.SquareQ24(_arrivalUs, arrivalUs));
            diastolicMilli = Sat.Sub32(mean, (pulse + 1) / 3);
            systolicMilli = Sat.Add32(diastolicMilli, pulse);
        }
        else
        {
            systolicMilli = Sat.Add32(_systolicMilli, ArrivalShape.Times(_systolicGainMilli, shape));
            diastolicMilli = Sat.Add32(_diastolicMilli, ArrivalShape.Times(_diastolicGainMilli, shape));
        }

        systolicMilli = Sat.Add32(systolicMilli, RateTerm(_systolicPerBpmMilli, rateMilliBpm));
        diastolicMilli = Sat.Add32(diastolicMilli, RateTerm(_diastolicPerBpmMilli, rateMilliBpm));
    }

    private static int MeanMilli(int systolicMilli, int diastolicMilli) => diastolicMilli + ((systolicMilli - diastolicMilli + 1) / 3);

    private void FitOne(in PressureCalibration calibration)
    {
        // −2/ζ in 1/1000 mmHg from ζ in 10^-6 per mmHg.
        _systolicGainMilli = calibration.SlopeMilliMmHgPerMs < 0
            ? -LongDivision.Rounded((ulong)-(long)calibration.SlopeMilliMmHgPerMs * (ulong)_arrivalUs, 1000)
            : -LongDivision.Rounded(2_000_000_000, (uint)calibration.ZetaMicroPerMmHg);
        _diastolicGainMilli = _model == PressureModel.PulsePressure
            ? _systolicGainMilli : -LongDivision.Rounded((ulong)-(long)_systolicGainMilli * (ulong)calibration.DiastolicSharePermille, 1000);
        _outsidePermille = OnePointPermille;
    }

    private void FitTwo(in CuffPoint other)
    {
        int shape = ArrivalShape.Q24(_model, other.ArrivalUs, _arrivalUs);
        int systolic = other.SystolicMilli - RateTerm(_systolicPerBpmMilli, other.RateMilliBpm) - _systolicMilli;
        int diastolic = other.DiastolicMilli - RateTerm(_diastolicPerBpmMilli, other.RateMilliBpm) - _diastolicMilli;
        if (_model == PressureModel.PulsePressure)
        {
            systolic = diastolic + ((systolic - diastolic) / 3);
            diastolic = systolic;
        }

        _systolicGainMilli = Quotient(systolic, shape);
        _diastolicGainMilli = Quotient(diastolic, shape);
        uint apart = (uint)Sat.Abs32(_otherSystolicMilli - _systolicMilli);
        int permille = LongDivision.Rounded(7_000UL * 1000, apart);
        _outsidePermille = (ushort)(permille < LeastOutsidePermille ? LeastOutsidePermille : permille);
    }

    private static int Quotient(int milli, int shape)
    {
        int magnitude = LongDivision.Rounded((ulong)Sat.Abs32(milli) << Log2.FractionBits, (uint)Sat.Abs32(shape));
        return milli < 0 == shape < 0 ? magnitude : -magnitude;
    }

    // What of the way from the calibrated pressures counts as error, and how far beyond them the value lies.
    private readonly int Distance(int milli, int firstMilli, int otherMilli, out int beyondMilli)
    {
        int low = firstMilli < otherMilli ? firstMilli : otherMilli;
        int high = firstMilli < otherMilli ? otherMilli : firstMilli;
        int below = Sat.Sub32(low, milli);
        int above = Sat.Sub32(milli, high);
        beyondMilli = below > 0 ? below : above > 0 ? above : 0;
        if (beyondMilli > 0)
        {
            return LongDivision.Rounded((ulong)beyondMilli * _outsidePermille, 1000);
        }

        int nearer = below > above ? -below : -above;
        return LongDivision.Rounded((ulong)nearer * InsidePermille, 1000);
    }

    // The slope of each pressure itself; that of the mean is steeper for systolic by 4/3, flatter for diastolic by 2/3 of the pulse pressure.
    private readonly int OwnGain(bool isSystolic)
    {
        int gain = isSystolic ? _systolicGainMilli : _diastolicGainMilli;
        int third = _model == PressureModel.PulsePressure ? (_systolicMilli - _diastolicMilli) / 3 : 0;
        return isSystolic ? gain - (4 * third) : gain + (2 * third);
    }
}
