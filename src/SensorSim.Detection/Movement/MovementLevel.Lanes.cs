// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Movement;

/// <content>All axes at once.</content>
public partial struct MovementLevel
{
    // The fourth lane is 0 and stays so. Products are bounded before the shift, for none of 64 bits keeps the sign.
    private int SquaresInLanes(int x, int y, int z)
    {
        Vector256<int> codes = Avx2.ConvertToVector256Int64(Vector128.Create(x, y, z, 0)).AsInt32();
        Vector256<long> products = Avx2.Multiply(codes, Vector256.Create(_scale)) + Vector256.Create(1L << 15);
        products = Vector256.Min(Vector256.Max(products, Vector256.Create(-((long)Rail << 16))), Vector256.Create((long)Rail << 16));
        Vector128<int> value = AcrossLanes.LowerHalves(products) >> 16;
        Vector128<int> gravity = Vector128.LoadUnsafe(ref _gravity[0]);
        Vector128<int> high = value - ((gravity + Vector128.Create(1 << 11)) >> 12);
        high = Vector128.Min(Vector128.Max(high, Vector128.Create(-Rail)), Vector128.Create(Rail));
        Vector128<int> change = (value << 12) - gravity + Vector128.Create((1 << _gravityShift) >> 1);
        (gravity + (change >> _gravityShift)).StoreUnsafe(ref _gravity[0]);
        return AcrossLanes.Sum(high * high);
    }
}
