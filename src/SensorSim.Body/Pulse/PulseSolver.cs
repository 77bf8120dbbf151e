// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>Finds the landmarks of a pulse on its continuous waveform, and places a pulse so that its foot falls where wanted.</summary>
/// <remarks>Derivatives are analytic; every landmark is found to 1e-7 s or better, of an ordinary pulse to 5e-9 s (2e-8 s for a diastolic peak that hardly rises), on the waveform of this pulse and the earlier ones.</remarks>
public static class PulseSolver
{
    /// <summary>
    /// How far before the foot the earlier beats are asked for, for a scale of 1 [s]: give <see cref="PulseSum.AddEarlier"/> the foot less
    /// this × scale.
    /// </summary>
    public const double ReachSeconds = 0.2;

    /// <summary>Places a pulse so that its foot by tangents falls at a time, and solves for its landmarks.</summary>
    /// <param name="sum">The earlier beats; receives the beat's own components.</param>
    /// <param name="footSeconds">Wanted foot by tangents [s].</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times, see <see cref="PulseContour.Scale"/>.</param>
    /// <param name="height">Height of the forward wave [pulse units]; at 0 there is no pulse.</param>
    /// <param name="beat">
    /// Receives the components. A pulse that can have no foot there is laid where one would lie that is alone.
    /// </param>
    /// <returns>The landmarks; <see cref="PulseLandmarks.None"/> when the pulse has no foot.</returns>
    public static PulseLandmarks Place(
        PulseSum sum, double footSeconds, in PulseContour contour, double scale, double height, out PulseBeat beat)
    {
        ArgumentNullException.ThrowIfNull(sum);
        PulseGuess guess = new(contour);
        return Place(sum, footSeconds, contour, scale, height, ref guess, out beat);
    }

    /// <summary>The same, from landmarks of another beat.</summary>
    /// <param name="sum">The earlier beats; receives the beat's own components.</param>
    /// <param name="footSeconds">Wanted foot by tangents [s].</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="height">Height of the forward wave [pulse units]; at 0 there is no pulse.</param>
    /// <param name="guess">Where to begin; receives the landmarks of an ordinary pulse.</param>
    /// <param name="beat">Receives the components.</param>
    internal static PulseLandmarks Place(
        PulseSum sum, double footSeconds, in PulseContour contour, double scale, double height, ref PulseGuess guess, out PulseBeat beat)
    {
        double alone = footSeconds - (contour.FootGuess * scale);
        beat = contour.Lay(alone, scale, height);
        sum.SetOwn(beat);
        if (!(height > 0))
        {
            return PulseLandmarks.None;
        }

        PulseFoot foot = default;
        foot.StartSeconds = footSeconds - (guess.Tangent * scale);
        bool hadNotch = guess.HasNotch;
        bool hasFoot = PulseNewton.TryFind(sum, scale, footSeconds, ref guess, ref foot) && HasNotchStill(hadNotch, foot);
        if (!hasFoot)
        {
            foot.StartSeconds = alone;
            PulseGuess anew = new(contour);
            hasFoot = PulseNewton.TryFind(sum, scale, footSeconds, ref anew, ref foot);
            guess = hasFoot ? anew : guess;
        }

        if (!hasFoot)
        {
            foot.StartSeconds = alone;
            hasFoot = PulseSearch.TryPlace(sum, contour, scale, height, footSeconds, ref foot) && PulseSearch.TryRest(sum, scale, ref foot);
        }

        beat = contour.Lay(hasFoot ? foot.StartSeconds : alone, scale, height);
        sum.SetOwn(beat);
        return hasFoot ? Landmarks(foot) : PulseLandmarks.None;
    }

    /// <summary>Solves for the landmarks of a pulse that is already placed: among earlier beats of other gains it has others.</summary>
    /// <param name="sum">The earlier beats, their gains relative to that of this beat; receives the beat's own components.</param>
    /// <param name="beat">The components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <returns>The landmarks, heights in units of this beat's gain; <see cref="PulseLandmarks.None"/> when the pulse has no foot.</returns>
    public static PulseLandmarks Solve(PulseSum sum, in PulseBeat beat, in PulseContour contour, double scale)
    {
        ArgumentNullException.ThrowIfNull(sum);
        return Solve(sum, beat, contour, scale, new PulseGuess(contour));
    }

    /// <summary>The same, from landmarks of another light.</summary>
    /// <param name="sum">The earlier beats; receives the beat's own components.</param>
    /// <param name="beat">The components.</param>
    /// <param name="contour">Shape of the pulse.</param>
    /// <param name="scale">Factor of all times.</param>
    /// <param name="guess">Where to begin.</param>
    internal static PulseLandmarks Solve(PulseSum sum, in PulseBeat beat, in PulseContour contour, double scale, PulseGuess guess)
    {
        sum.SetOwn(beat);
        PulseFoot foot = default;
        foot.StartSeconds = sum.OwnStartSeconds;
        PulseGuess anew = new(contour);
        bool hadNotch = guess.HasNotch;
        bool hasFoot = (PulseNewton.TryFind(sum, scale, double.NaN, ref guess, ref foot) && HasNotchStill(hadNotch, foot))
            || PulseNewton.TryFind(sum, scale, double.NaN, ref anew, ref foot)
            || (PulseSearch.TryFind(sum, contour, scale, ref foot) && foot.IsInOrder && PulseSearch.TryRest(sum, scale, ref foot));
        return hasFoot ? Landmarks(foot) : PulseLandmarks.None;
    }

    /// <summary>The middle pulse of a steady train of pulses whose forward waves have height 1.</summary>
    /// <param name="sum">Scratch; forgets what it held.</param>
    /// <param name="contour">Shape of the pulses.</param>
    /// <param name="rrSeconds">Time between pulses [s], at least 0.2.</param>
    /// <param name="footValue">Receives the value at the foot minimum.</param>
    /// <returns>The landmarks, the pulse starting at 0; the height of the train is what a pulse unit is.</returns>
    public static PulseLandmarks Steady(PulseSum sum, in PulseContour contour, double rrSeconds, out double footValue)
    {
        ArgumentNullException.ThrowIfNull(sum);
        double scale = PulseContour.Scale(60 / rrSeconds);
        sum.Clear();
        for (int k = PulseSum.Beats; k > 0; k--)
        {
            sum.AddEarlier(contour.Lay(-k * rrSeconds, scale, 1), 1, 0);
        }

        PulseLandmarks landmarks = Solve(sum, contour.Lay(0, scale, 1), contour, scale);
        footValue = sum.At(landmarks.FootMinimumSeconds).Value;
        return landmarks.Before(contour.Lay(rrSeconds, scale, 1));
    }

    // From another beat's shoulder a step may lead to an inflection that is none: that the notch is gone is believed only from the pulse's own guess.
    private static bool HasNotchStill(bool hadNotch, in PulseFoot foot) => !hadNotch || !double.IsNaN(foot.Notch);

    private static PulseLandmarks Landmarks(in PulseFoot foot)
    {
        double start = foot.StartSeconds;
        return new PulseLandmarks(
            start + foot.Minimum,
            foot.TangentSeconds,
            start + foot.Curved,
            start + foot.Steepest,
            start + foot.Peak,
            start + foot.Notch,
            start + foot.Diastolic,
            foot.High - foot.Low,
            HasFoot: true);
    }
}
