// SPDX-License-Identifier: MIT
using SensorSim.Files.Edf;
using SensorSim.Signals.Marks;

namespace SensorSim.Files.Rows;

/// <summary>Which annotations of an EDF+ or BDF+ file mark a beat: what is written here, and the letters in use for beats of ECG records.</summary>
/// <remarks>
/// The letters N, S, V, F and Q are the classes of ANSI/AAMI EC57; L, R, e and j, A, a, J and E stand for finer ones of the same classes in
/// common practice (from memory). F (a fusion beat) and Q (a beat of no known class) are beats of no class here.
/// </remarks>
public static class BeatAnnotations
{
    /// <summary>The texts that mark a beat, for messages.</summary>
    public const string Known = "r_peak, R peak, beat, or a letter for a beat (N, L, R, e, j, A, a, S, J, V, E, F, Q, /)";

    /// <summary>Whether a text marks a beat, and of which class.</summary>
    /// <param name="text">Text of the annotation.</param>
    /// <param name="beatClass">Its class; <see cref="BeatClass.None"/> when the text does not say.</param>
    public static bool TryClass(ReadOnlySpan<char> text, out BeatClass beatClass)
    {
        (bool isBeat, beatClass) = text switch
        {
            "N" or "L" or "R" or "e" => (true, BeatClass.Normal),
            "A" or "a" or "S" or "J" => (true, BeatClass.AtrialPremature),
            "V" => (true, BeatClass.VentricularPremature),
            "j" => (true, BeatClass.JunctionalEscape),
            "/" => (true, BeatClass.Paced),
            "E" => (true, BeatClass.VentricularEscape),
            "F" or "Q" => (true, BeatClass.None),
            _ when text.Equals("r_peak", StringComparison.OrdinalIgnoreCase) || text.Equals("r peak", StringComparison.OrdinalIgnoreCase) || text.Equals("beat", StringComparison.OrdinalIgnoreCase) =>
                (true, BeatClass.None),
            _ => (false, BeatClass.None),
        };
        return isBeat;
    }
}
