// SPDX-License-Identifier: MIT
using SensorSim.Signals.Streams;

namespace SensorSim.Files.Edf;

/// <summary>Which of the two formats a recording is written in.</summary>
public enum EdfContainer
{
    /// <summary>EDF+ where every channel has at most 16 bits and a scale that is exact there; BDF+ otherwise.</summary>
    Auto,

    /// <summary>EDF+: 16 bits a sample.</summary>
    Edf,

    /// <summary>BDF+: 24 bits a sample.</summary>
    Bdf,
}

/// <summary>How a recording is written as EDF+ or BDF+.</summary>
public sealed record EdfWriteOptions
{
    /// <summary>Which format.</summary>
    public EdfContainer Container { get; init; }

    /// <summary>Name of the files without ending; where a recording has several devices, an underscore and the device follow.</summary>
    public string BaseName { get; init; } = "recording";

    /// <summary>Begin of the recording for the header: a whole second, 1985 to 2084. A constant, so that the same run gives the same bytes.</summary>
    public DateTime Start { get; init; } = new(2000, 1, 1);

    /// <summary>The field of the patient: code, sex, birth date, name; X when unknown. At most 80 characters of printable ASCII.</summary>
    public string Patient { get; init; } = "X X X X";

    /// <summary>Bytes for annotations in each record of a second, 256 or more; fewer where the record would become too large.</summary>
    public int AnnotationBytes { get; init; } = 2048;

    /// <summary>
    /// First tick after the recording, where it is known before: then the files are written from begin to end, without going back to the header.
    /// </summary>
    public long? EndTick { get; init; }

    /// <summary>
    /// The clocks of the channels, so that truth stands at the time that the device shows; channels without one have a true clock. Pass those
    /// of the stream (<see cref="IAcquiredStream.Clocks"/>).
    /// </summary>
    public IReadOnlyList<ChannelClock> Clocks { get; init; } = [];
}
