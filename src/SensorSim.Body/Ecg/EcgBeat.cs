// SPDX-License-Identifier: MIT
using System.Runtime.CompilerServices;

namespace SensorSim.Body.Ecg;

/// <summary>The waves of one beat, in order P, Q, R, S, T.</summary>
[InlineArray(Count)]
public struct EcgBeat
{
    /// <summary>Waves in a beat.</summary>
    public const int Count = 5;

    /// <summary>Index of the P wave.</summary>
    public const int P = 0;

    /// <summary>Index of the Q wave.</summary>
    public const int Q = 1;

    /// <summary>Index of the R wave.</summary>
    public const int R = 2;

    /// <summary>Index of the S wave.</summary>
    public const int S = 3;

    /// <summary>Index of the T wave.</summary>
    public const int T = 4;

    private EcgWave _first;
}
