// SPDX-License-Identifier: MIT
using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace SensorSim.Detection.Pulses;

/// <content>Eight samples at once, out of the samples themselves: so none waits for the sums of the one before.</content>
public partial struct WatchSlope
{
    /// <summary>Whether a stretch may go in lanes: with the half-width of the usual 100 Hz.</summary>
    internal readonly bool FitsLanes => _arm == 6;

    /// <summary>Samples have passed in lanes.</summary>
    /// <param name="before">The slope before the last of them.</param>
    /// <param name="slope">The slope with it.</param>
    /// <param name="value">The last of them.</param>
    /// <param name="leaving">The sample that came 2m + 1 before it.</param>
    internal void Pass(int before, int slope, int value, int leaving)
    {
        // What the sum has become, if the slope has become what it is.
        unchecked
        {
            _sum = ((_arm + 1) * value) + (_arm * leaving) - (slope - before);
            _weighted = slope;
        }
    }

    /// <summary>The samples of the window, eight at once, as they are passed on from vector to vector: memory that has just been written would be waited for.</summary>
    internal ref struct Window
    {
        private Vector256<int> _latest;
        private Vector256<int> _by1;
        private Vector256<int> _by2;
        private Vector256<int> _by3;
        private Vector256<int> _by4;
        private Vector256<int> _by5;
        private Vector256<int> _by7;
        private Vector256<int> _turned1;
        private Vector256<int> _turned2;
        private Vector256<int> _turned3;
        private Vector256<int> _turned4;
        private Vector256<int> _turned5;
        private Vector256<int> _turned7;

        /// <summary>Takes eight samples.</summary>
        /// <param name="samples">The samples.</param>
        /// <returns>What <see cref="WatchSlope.Next"/> gives for each of them, once sixteen have come before.</returns>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector256<int> Next(Vector256<int> samples)
        {
            Vector256<int> by8 = _latest;
            Vector256<int> by9 = _by1;
            Vector256<int> by10 = _by2;
            Vector256<int> by11 = _by3;
            Vector256<int> by12 = _by4;
            _latest = samples;

            // Turned by as many lanes as the delay; the lanes below it are those of the vector before.
            _by1 = Turn(samples, 1, 0b0000_0001, ref _turned1);
            _by2 = Turn(samples, 2, 0b0000_0011, ref _turned2);
            _by3 = Turn(samples, 3, 0b0000_0111, ref _turned3);
            _by4 = Turn(samples, 4, 0b0000_1111, ref _turned4);
            _by5 = Turn(samples, 5, 0b0001_1111, ref _turned5);
            _by7 = Turn(samples, 7, 0b0111_1111, ref _turned7);

            // A pair of samples is in every sum from its own on, so it counts as often as it is far.
            Vector256<int> pairs = samples - by12;
            Vector256<int> slope = pairs;
            pairs += _by1 - by11;
            slope += pairs;
            pairs += _by2 - by10;
            slope += pairs;
            pairs += _by3 - by9;
            slope += pairs;
            pairs += _by4 - by8;
            slope += pairs;
            pairs += _by5 - _by7;
            return slope + pairs;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static Vector256<int> Turn(Vector256<int> samples, int by, [ConstantExpected] byte older, ref Vector256<int> turned)
        {
            Vector256<int> before = turned;
            turned = Avx2.PermuteVar8x32(samples, Vector256<int>.Indices - Vector256.Create(by));
            return Avx2.Blend(turned, before, older);
        }
    }
}
