// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <content>The means side by side.</content>
public partial struct DarkSubtraction
{
    // What TakeLine and TakeMean do. Lanes: the latest dark, the smoothed one, the level; beside them how far off each one usually is.
    private void TakeLanes<TProbe>(
        ReadOnlySpan<int> codes, int polarity, scoped Span<int> lights, ref LitSlot other, scoped Span<int> others, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        Vector128<int> means = Vector128.Create(_latest << Fraction, _smooth, _level, 0);
        Vector128<int> errors = Vector128.Create(_rawError, _smoothError, _swing, 0);
        Vector128<uint> meanShifts = Vector128.Create(0u, SmoothShift - 1, (uint)_levelShift - 1, 0);
        Vector128<uint> errorShifts = Vector128.Create(4u, 4, (uint)_levelShift - 1, 0);
        Vector128<uint> rail = Vector128.Create((uint)MeanRail);
        Vector128<int> least = Vector128.Create(0, 0, MeanRail, MeanRail);
        int zero = _darkZero;
        int latest = _latest;
        int slope = _slope;
        bool isSmoothing = _isSmoothing;
        bool hasOther = others.Length > 0;
        for (int i = 0; i < codes.Length && i < lights.Length; i++)
        {
            int dark = (codes[i] * polarity) - zero;
            Vector128<int> all = Vector128.Create(dark << Fraction);
            Vector128<int> off = all - means;
            Vector128<int> sizes = Vector128.Min(Vector128.Abs(off).AsUInt32(), rail).AsInt32();
            Vector128<uint> bound = Sse2.Shuffle((errors << 3) + Vector128.Create(16 << Fraction), 0).AsUInt32();
            Vector128<int> most = Vector128.Max(Vector128.Min(bound, rail).AsInt32(), least);
            slope = Sat.Narrow(dark - latest, SlopeRail);
            latest = dark;
            uint over = Vector128.GreaterThan(sizes, most).ExtractMostSignificantBits();
            if (over != 0)
            {
                slope = (over & 1) != 0 ? 0 : slope;
                means = (over & 2) != 0 ? means.WithElement(1, dark << Fraction) : means;
                off = all - means;
                sizes = Vector128.Min(sizes, most);
            }

            errors += (Avx2.ShiftRightArithmeticVariable(sizes - errors, errorShifts) + Vector128<int>.One) >> 1;
            Vector128<int> part = (Avx2.ShiftRightArithmeticVariable(off, meanShifts) + Vector128<int>.One) >> 1;
            means += Avx2.Blend(part, off, 1);

            int rawError = errors.ToScalar();
            int margin = Shift.Floor(rawError, 3);
            isSmoothing = errors.GetElement(1) < (isSmoothing ? rawError + margin : rawError - margin);
            int smooth = Shift.Round(means.GetElement(1), Fraction);
            lights[i] = _own.Without(lights[i], isSmoothing ? smooth : dark + Shift.Round(slope * _own.Place256, 8));
            probe.See(ProbePoint.LightWithoutDark, lights[i]);
            if (hasOther)
            {
                others[i] = other.Without(others[i], isSmoothing ? smooth : dark + Shift.Round(slope * other.Place256, 8));
                probe.See(ProbePoint.LightWithoutDark, others[i]);
            }
        }

        _latest = latest;
        _slope = slope;
        _smooth = means.GetElement(1);
        _level = means.GetElement(2);
        _rawError = errors.ToScalar();
        _smoothError = errors.GetElement(1);
        _swing = errors.GetElement(2);
        _isSmoothing = isSmoothing;
        _own.Pass(true);
        other.Pass(hasOther);
    }
}
