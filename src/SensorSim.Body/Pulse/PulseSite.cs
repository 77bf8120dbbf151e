// SPDX-License-Identifier: MIT
namespace SensorSim.Body.Pulse;

/// <summary>How the place of the sensor shapes the pulse, against the finger.</summary>
/// <remarks>
/// Choice of this project. Pulses of different places differ in rise and rounding (Allen and Murray, Physiol Meas 24:297, 2003, from
/// memory: ear, thumb, toe); the finger shows the sharpest rise and the clearest notch, the trunk the roundest wave (common practice).
/// No table gives figures that could be carried over.
/// </remarks>
/// <param name="Rise">Factor of the time to the peak of the forward wave.</param>
/// <param name="Rounding">Factor of the width of the reflected wave.</param>
/// <param name="Reflection">Factor of the size of the reflected wave and the run-off.</param>
public readonly record struct PulseSite(double Rise, double Rounding, double Reflection)
{
    /// <summary>Finger: sharp, clear notch.</summary>
    public static readonly PulseSite Finger = new(1, 1, 1);

    /// <summary>Wrist: a little slower, rounder and less reflected.</summary>
    public static readonly PulseSite Wrist = new(1.06, 1.05, 0.9);

    /// <summary>Ear: as fast as the finger, weakly reflected.</summary>
    public static readonly PulseSite Ear = new(1.02, 1.05, 0.8);

    /// <summary>Chest: slow and round.</summary>
    public static readonly PulseSite Chest = new(1.2, 1.2, 0.75);

    /// <summary>The site that a word of <see cref="Site.SiteKeys.Site"/> names.</summary>
    /// <param name="word">One of the key's choices.</param>
    /// <exception cref="ArgumentOutOfRangeException">The word is none of them.</exception>
    public static PulseSite Named(string word) => word switch
    {
        "finger" => Finger,
        "wrist" => Wrist,
        "ear" => Ear,
        "chest" => Chest,
        _ => throw new ArgumentOutOfRangeException(nameof(word), word, "No pulse shape is known for this site."),
    };
}
