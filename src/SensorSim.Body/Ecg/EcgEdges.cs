// SPDX-License-Identifier: MIT
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
    /// <summary>
    /// The overlapped edges of a beat. An edge is overlapped when it lies between onset and end (at 2 %) of another wave of the same or of a
    /// neighbouring event: P, the QRS as a whole, or T. The ST segment does not count: it joins QRS and T, and hides the edges of no
    /// wave but its own. Edges of absent waves are never named.
    /// </summary>
    /// <param name="neighbours">Other beats and P waves whose waves may reach the beat.</param>
    /// <param name="own">The beat.</param>
    public static EcgEdge Overlapped(ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own)
    {
        EcgEdge found = EcgEdge.None;
        EcgWave p = own[EcgBeat.P];
        EcgWave t = own[EcgBeat.T];
        if (p.Millivolts != 0)
        {
            found |= Hidden(neighbours, own, EcgBeat.P, p.OnsetSeconds, EcgEdge.POnset);
            found |= Hidden(neighbours, own, EcgBeat.P, p.EndSeconds, EcgEdge.PEnd);
        }

        if (HasQrs(own))
        {
            found |= Hidden(neighbours, own, EcgBeat.R, own[EcgBeat.Q].OnsetSeconds, EcgEdge.QrsOnset);
            found |= Hidden(neighbours, own, EcgBeat.R, own[EcgBeat.S].EndSeconds, EcgEdge.QrsEnd);
        }

        if (t.Millivolts != 0)
        {
            found |= Hidden(neighbours, own, EcgBeat.T, t.OnsetSeconds, EcgEdge.TOnset);
            found |= Hidden(neighbours, own, EcgBeat.T, t.EndSeconds, EcgEdge.TEnd);
            found |= Hidden(neighbours, own, EcgBeat.T, t.TangentEndSeconds, EcgEdge.TEndTangent);
        }

        return found;
    }

    private static EcgEdge Hidden(ReadOnlySpan<EcgBeat> neighbours, in EcgBeat own, int ofWave, double seconds, EcgEdge edge)
    {
        bool isHidden = Covers(own, seconds, ofWave);
        foreach (ref readonly EcgBeat other in neighbours)
        {
            isHidden |= Covers(other, seconds, exceptWave: -1);
        }

        return isHidden ? edge : EcgEdge.None;
    }

    private static bool Covers(in EcgBeat beat, double seconds, int exceptWave) =>
        (exceptWave != EcgBeat.P && Covers(beat[EcgBeat.P], seconds))
        || (exceptWave != EcgBeat.T && Covers(beat[EcgBeat.T], seconds))
        || (exceptWave != EcgBeat.R && HasQrs(beat)
            && seconds > beat[EcgBeat.Q].OnsetSeconds && seconds < beat[EcgBeat.S].EndSeconds);

    private static bool Covers(in EcgWave wave, double seconds) =>
        wave.Millivolts != 0 && seconds > wave.OnsetSeconds && seconds < wave.EndSeconds;

    private static bool HasQrs(in EcgBeat beat) =>
        beat[EcgBeat.Q].Millivolts != 0 || beat[EcgBeat.R].Millivolts != 0 || beat[EcgBeat.S].Millivolts != 0;
}
