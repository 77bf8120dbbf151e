// SPDX-License-Identifier: MIT
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SensorSim.FixedPoint;

namespace SensorSim.Detection.Pulses;

/// <content>Eight places at once.</content>
public static partial class CurvatureFoot
{
    // Values on both sides of the stretch are needed, and whole vectors are stored.
    private const int MostBackLanes = Word64.Length - 2 - Lanes.Count;

    // What Find does, with all values worked out before the largest is sought: values[j] is that of the place from - back - 1 + j.
    private static int FindLanes<TProbe>(in Word256 held, int from, int back, int arm, int shift, ref TProbe probe)
        where TProbe : struct, IProbe
    {
        Word64 made = default;
        Span<int> values = made;
        int count = back + 3;
        int first = from - back - 1;
        for (int done = 0; done < count; done += Lanes.Count)
        {
            if (HeldLanes.Fits(first + done, arm))
            {
                ValuesLanes(held, first + done, arm, shift).StoreUnsafe(ref MemoryMarshal.GetReference(values), (nuint)done);
            }
            else
            {
                for (int i = done; i < done + Lanes.Count && i < count; i++)
                {
                    values[i] = Value(held, first + i, arm, shift);
                }
            }
        }

        int best = 0;
        int top = int.MinValue;
        for (int i = 0; i <= back; i++)
        {
            int here = values[back + 1 - i];
            probe.See(ProbePoint.PulseCurvature, here);
            if (here > top)
            {
                top = here;
                best = i;
            }
        }

        int afterTop = values[back + 2 - best];
        int beforeTop = values[back - best];
        bool isInside = best > 0 && beforeTop <= top && afterTop <= top;
        return isInside ? Parabola.Vertex256(beforeTop, top, afterTop) - (best * 256) : None;
    }

    private static Vector256<int> ValuesLanes(in Word256 held, int at, int arm, int shift)
    {
        ref int middles = ref HeldLanes.At(held, at);
        Vector256<int> middle = Vector256.LoadUnsafe(ref middles);
        int constant = arm * (arm + 1);
        Vector256<int> sum = Vector256<int>.Zero;
        for (int k = 1; k <= arm; k++)
        {
            Vector256<int> pair = HeldLanes.Clipped(HeldLanes.Near(ref middles, k) - middle, shift)
                + HeldLanes.Clipped(HeldLanes.Near(ref middles, -k) - middle, shift);
            sum += pair * Vector256.Create((3 * k * k) - constant);
        }

        return sum;
    }
}
