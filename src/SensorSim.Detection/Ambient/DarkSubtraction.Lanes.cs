// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Ambient;

/// <content>The means side by side.</content>
public partial struct DarkSubtraction
{
    // What RoomLine and RoomMean do with each sample. Lanes: the latest dark, the smoothed one, the level; beside them how far off each one usually is.
    private void TakeLanes<TProbe>(
        ReadOnlySpan<int> codes, int polarity, scoped Span<int> lights, ref LitSlot other, scoped Span<int> others, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        Vector128<int> means = Vector128.Create(_line.Latest << RoomLine.Fraction, _line.Smooth, _mean.Level, 0);
        Vector128<int> errors = Vector128.Create(_line.RawError, _line.SmoothError, _mean.Swing, 0);
        Vector128<uint> meanShifts = Vector128.Create(0u, RoomLine.SmoothShift - 1, (uint)_levelShift - 1, 0);
        Vector128<uint> errorShifts = Vector128.Create((uint)RoomLine.ErrorShift - 1, RoomLine.ErrorShift - 1, (uint)_levelShift - 1, 0);
        Vector128<uint> rail = Vector128.Create((uint)RoomLine.MeanRail);
        Vector128<int> least = Vector128.Create(0, 0, RoomLine.MeanRail, RoomLine.MeanRail);
        int zero = _darkZero;
        int latest = _line.Latest;
        int slope = _line.Slope;
        bool isSmoothing = _line.IsSmoothing;
        bool hasOther = others.Length > 0;
        for (int i = 0; i < codes.Length && i < lights.Length; i++)
        {
            int dark = (codes[i] * polarity) - zero;
            Vector128<int> all = Vector128.Create(dark << RoomLine.Fraction);
            Vector128<int> off = all - means;
            Vector128<int> sizes = Vector128.Min(Vector128.Abs(off).AsUInt32(), rail).AsInt32();

            // The level has no bound but the rail.
            Vector128<uint> bound = Sse2.Shuffle((errors << 3) + Vector128.Create(16 << RoomLine.Fraction), 0).AsUInt32();
            Vector128<int> most = Vector128.Max(Vector128.Min(bound, rail).AsInt32(), least);
            slope = Sat.Narrow(dark - latest, RoomLine.SlopeRail);
            latest = dark;
            uint over = Vector128.GreaterThan(sizes, most).ExtractMostSignificantBits();
            if (over != 0)
            {
                slope = (over & 1) != 0 ? 0 : slope;
                means = (over & 2) != 0 ? means.WithElement(1, dark << RoomLine.Fraction) : means;
                off = all - means;
                sizes = Vector128.Min(sizes, most);
            }

            // The last bit of a shift by itself after one is added rounds as Shift.Round does, without room for a half. The latest is what it is.
            errors += (Avx2.ShiftRightArithmeticVariable(sizes - errors, errorShifts) + Vector128<int>.One) >> 1;
            Vector128<int> part = (Avx2.ShiftRightArithmeticVariable(off, meanShifts) + Vector128<int>.One) >> 1;
            means += Avx2.Blend(part, off, 1);

            isSmoothing = RoomLine.IsSmoother(isSmoothing, errors.ToScalar(), errors.GetElement(1));
            int smooth = Shift.Round(means.GetElement(1), RoomLine.Fraction);
            lights[i] = _own.Without(lights[i], isSmoothing ? smooth : dark + Shift.Round(slope * _own.Place256, 8));
            probe.See(ProbePoint.LightWithoutDark, lights[i]);
            if (hasOther)
            {
                others[i] = other.Without(others[i], isSmoothing ? smooth : dark + Shift.Round(slope * other.Place256, 8));
                probe.See(ProbePoint.LightWithoutDark, others[i]);
            }
        }

        _line = new RoomLine
        {
            Latest = latest,
            Slope = slope,
            Smooth = means.GetElement(1),
            RawError = errors.ToScalar(),
            SmoothError = errors.GetElement(1),
            IsSmoothing = isSmoothing,
        };
        _mean = new RoomMean { Level = means.GetElement(2), Swing = errors.GetElement(2) };
    }
}
