// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Ecg;

/// <summary>The waves of one beat, in order P, Q, R, S, segment, T. A wave of 0 mV is absent.</summary>
/// <remarks>
/// Q, R and S are places: the QRS begins with Q's onset and ends with S's end whatever their heights, and R is the main deflection of
/// the QRS, also where it points down (a QS complex). The segment is the level between S and T.
/// </remarks>
[InlineArray(Count)]
public struct EcgBeat
{
    /// <summary>Waves in a beat.</summary>
    public const int Count = 6;

    /// <summary>Index of the P wave.</summary>
    public const int P = 0;

    /// <summary>Index of the Q wave.</summary>
    public const int Q = 1;

    /// <summary>Index of the R wave.</summary>
    public const int R = 2;

    /// <summary>Index of the S wave.</summary>
    public const int S = 3;

    /// <summary>Index of the ST segment.</summary>
    public const int Segment = 4;

    /// <summary>Index of the T wave.</summary>
    public const int T = 5;

    private EcgWave _first;
}
