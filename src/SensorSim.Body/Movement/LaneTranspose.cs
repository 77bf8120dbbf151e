// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Body.Movement;

/// <summary>Four vectors of four numbers with rows and columns exchanged.</summary>
internal static class LaneTranspose
{
    /// <summary>Lane i of vector j becomes lane j of vector i.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void Exchange(ref Vector256<double> a, ref Vector256<double> b, ref Vector256<double> c, ref Vector256<double> d)
    {
        if (Avx.IsSupported)
        {
            Vector256<double> abLow = Avx.UnpackLow(a, b);
            Vector256<double> abHigh = Avx.UnpackHigh(a, b);
            Vector256<double> cdLow = Avx.UnpackLow(c, d);
            Vector256<double> cdHigh = Avx.UnpackHigh(c, d);
            a = Avx.Permute2x128(abLow, cdLow, 0x20);
            b = Avx.Permute2x128(abHigh, cdHigh, 0x20);
            c = Avx.Permute2x128(abLow, cdLow, 0x31);
            d = Avx.Permute2x128(abHigh, cdHigh, 0x31);
            return;
        }

        Vector256<double> one = Vector256.Create(a.GetElement(0), b.GetElement(0), c.GetElement(0), d.GetElement(0));
        Vector256<double> two = Vector256.Create(a.GetElement(1), b.GetElement(1), c.GetElement(1), d.GetElement(1));
        Vector256<double> three = Vector256.Create(a.GetElement(2), b.GetElement(2), c.GetElement(2), d.GetElement(2));
        d = Vector256.Create(a.GetElement(3), b.GetElement(3), c.GetElement(3), d.GetElement(3));
        a = one;
        b = two;
        c = three;
    }
}
