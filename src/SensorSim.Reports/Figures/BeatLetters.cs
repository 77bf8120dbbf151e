// SPDX-License-Identifier: MIT
using SensorSim.Signals.Marks;

namespace SensorSim.Reports.Figures;

/// <summary>The letters that the trade writes above beats.</summary>
/// <remarks>
/// N, V, A, J and P are common practice. Escape and premature beats of the ventricle share the V: their place in time tells them apart.
/// A beat conducted out of atrial fibrillation or flutter is an N, as in annotated databases: its own conduction is normal, the
/// rhythm around it is not the beat's.
/// </remarks>
public static class BeatLetters
{
    /// <summary>The letter of a class; empty where the class states no origin (a wide complex, a P wave without a beat).</summary>
    /// <param name="beat">Class of the beat.</param>
    public static string Letter(BeatClass beat) => beat switch
    {
        BeatClass.Normal or BeatClass.AtrialArrhythmia => "N",
        BeatClass.VentricularPremature or BeatClass.VentricularRun or BeatClass.VentricularEscape => "V",
        BeatClass.AtrialPremature => "A",
        BeatClass.JunctionalEscape => "J",
        BeatClass.Paced => "P",
        _ => "",
    };

    /// <summary>What the letters of these beats mean, each once, for a legend; empty when there is none.</summary>
    /// <param name="beats">The beats of a figure.</param>
    public static string Meaning(IEnumerable<StripBeat> beats)
    {
        HashSet<string> used = [.. beats.Select(beat => Letter(beat.Class))];
        (string Letter, string Text)[] all =
            [("N", "normally conducted"), ("V", "ventricular"), ("A", "atrial premature"), ("J", "junctional escape"), ("P", "paced")];
        return string.Join(" · ", all.Where(row => used.Contains(row.Letter)).Select(row => $"{row.Letter} {row.Text}"));
    }
}
