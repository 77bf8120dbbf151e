// SPDX-License-Identifier: MIT
using System.Runtime.Intrinsics;

namespace SensorSim.Body.Ecg;

/// <summary>Edges of the waves of a beat.</summary>
[Flags]
public enum EcgEdge
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Begin of P.</summary>
    POnset = 1,

    /// <summary>End of P.</summary>
    PEnd = 2,

    /// <summary>Begin of the QRS: onset of Q's place.</summary>
    QrsOnset = 4,

    /// <summary>End of the QRS, the J point: end of S's place.</summary>
    QrsEnd = 8,

    /// <summary>Begin of T.</summary>
    TOnset = 16,

    /// <summary>End of T at 2 % of its peak.</summary>
    TEnd = 32,

    /// <summary>End of T by the tangent, see <see cref="EcgWave.TangentEndSeconds"/>.</summary>
    TEndTangent = 64,
}

/// <summary>Tells which edges of a beat lie under another wave.</summary>
internal static class EcgEdges
{
    private const EcgEdge OfP = EcgEdge.POnset | EcgEdge.PEnd;
    private const EcgEdge OfQrs = EcgEdge.QrsOnset | EcgEdge.QrsEnd;
    private const EcgEdge OfT = EcgEdge.TOnset | EcgEdge.TEnd | EcgEdge.TEndTangent;

    /// <summary>
    /// The overlapped edges of a beat. An edge is overlapped when it lies between onset and end (at 2 %) of another wave of the same or of a
    /// neighbouring event: P, the QRS as a whole, or T. The ST segment does not count: it joins QRS and T, and hides the edges of no
    /// wave but its own. Edges of absent waves are never named.
    /// </summary>
    /// <param name="neighbours">Other beats and P waves whose waves may reach the beat.</param>
    /// <param name="own">The beat.</param>
    public static EcgEdge Overlapped(ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own)
    {
        ref readonly EcgWave p = ref own[EcgBeat.P];
        ref readonly EcgWave t = ref own[EcgBeat.T];

        // In the order of the flags.
        var early = Vector256.Create(p.OnsetSeconds, p.EndSeconds, own[EcgBeat.Q].OnsetSeconds, own[EcgBeat.S].EndSeconds);
        var late = Vector256.Create(t.OnsetSeconds, t.EndSeconds, t.TangentEndSeconds, double.NaN);
        EcgEdge there = (p.Millivolts != 0 ? OfP : 0) | (HasQrs(own) ? OfQrs : 0) | (t.Millivolts != 0 ? OfT : 0);
        EcgEdge hidden = (UnderP(own, early, late) & ~OfP) | (UnderQrs(own, early, late) & ~OfQrs) | (UnderT(own, early, late) & ~OfT);
        foreach (ref readonly EcgBeat other in neighbours)
        {
            hidden |= UnderP(other, early, late) | UnderQrs(other, early, late) | UnderT(other, early, late);
        }

        return hidden & there;
    }

    private static EcgEdge UnderP(in EcgBeat beat, Vector256<double> early, Vector256<double> late) => Under(beat[EcgBeat.P], early, late);

    private static EcgEdge UnderT(in EcgBeat beat, Vector256<double> early, Vector256<double> late) => Under(beat[EcgBeat.T], early, late);

    private static EcgEdge UnderQrs(in EcgBeat beat, Vector256<double> early, Vector256<double> late) =>
        HasQrs(beat) ? Between(beat[EcgBeat.Q].OnsetSeconds, beat[EcgBeat.S].EndSeconds, early, late) : EcgEdge.None;

    private static EcgEdge Under(in EcgWave wave, Vector256<double> early, Vector256<double> late) =>
        wave.Millivolts != 0 ? Between(wave.OnsetSeconds, wave.EndSeconds, early, late) : EcgEdge.None;

    private static EcgEdge Between(double onset, double end, Vector256<double> early, Vector256<double> late)
    {
        var from = Vector256.Create(onset);
        var to = Vector256.Create(end);
        uint inEarly = (Vector256.GreaterThan(early, from) & Vector256.LessThan(early, to)).ExtractMostSignificantBits();
        uint inLate = (Vector256.GreaterThan(late, from) & Vector256.LessThan(late, to)).ExtractMostSignificantBits();
        return (EcgEdge)(inEarly | (inLate << 4));
    }

    private static bool HasQrs(in EcgBeat beat) =>
        beat[EcgBeat.Q].Millivolts != 0 || beat[EcgBeat.R].Millivolts != 0 || beat[EcgBeat.S].Millivolts != 0;
}
