// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;

namespace SensorSim.Detection.Beats;

/// <summary>The latest eight samples of each signal that the band-pass holds, the oldest in the first lane.</summary>
internal struct BandLanes
{
    /// <summary>Codes, before the delay of the filter of the spikes.</summary>
    public Vector256<int> Codes;

    /// <summary>The ECG behind it.</summary>
    public Vector256<int> Ecg;

    /// <summary>First sums.</summary>
    public Vector256<int> Firsts;

    /// <summary>Second sums.</summary>
    public Vector256<int> Seconds;

    /// <summary>The eight second sums before those.</summary>
    public Vector256<int> Older;
}
