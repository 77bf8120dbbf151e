// SPDX-License-Identifier: MIT
using SensorSim.Links.Frames;
using SensorSim.Signals.Detectors;

namespace SensorSim.Tests.Boards;

/// <summary>How a <see cref="LibraryBoard"/> behaves; as it stands, well.</summary>
internal sealed record BoardHabits
{
    /// <summary>Frames of samples that it can hold.</summary>
    public uint Credit { get; init; } = 8;

    /// <summary>Says nothing at all, though it reads.</summary>
    public bool IsSilent { get; init; }

    /// <summary>Says nothing more after so many frames of samples.</summary>
    public int? FallsSilentAfter { get; init; }

    /// <summary>Closes the link after so many frames of samples.</summary>
    public int? DiesAfter { get; init; }

    /// <summary>Forgets its session, as after a reset, after so many frames of samples; once.</summary>
    public int? ForgetsAfter { get; init; }

    /// <summary>Sends bytes that are no frames instead of anything else, from so many frames of samples on; 0 from the begin.</summary>
    public int? RavesAfter { get; init; }

    /// <summary>Tells of a fault after so many frames of samples.</summary>
    public int? FaultAfter { get; init; }

    /// <summary>Time that it takes for a frame of samples [ms].</summary>
    public int SlowMs { get; init; }

    /// <summary>Claims to have given its marks a second earlier than it did.</summary>
    public bool Lies { get; init; }

    /// <summary>Gives the same mark so many times with each one.</summary>
    public int Copies { get; init; } = 1;

    /// <summary>Gives no marks.</summary>
    public bool IsMute { get; init; }

    /// <summary>Says that it sent so many marks more than it did; below 0 fewer.</summary>
    public int Miscounts { get; init; }

    /// <summary>Answers hello with trouble 3.</summary>
    public bool SpeaksAnotherVersion { get; init; }

    /// <summary>Version that it says it has chosen.</summary>
    public byte Version { get; init; } = 1;

    /// <summary>Largest payload that it says it takes [bytes].</summary>
    public ushort LargestPayload { get; init; } = 240;

    /// <summary>Name and version that it gives its detector.</summary>
    public string Detector { get; init; } = "test board 1.0";

    /// <summary>Says after so many frames of samples that it has stopped, though nobody told it to; and goes on.</summary>
    public int? ClaimsStopAfter { get; init; }

    /// <summary>Figures that it tells at the end beside its own; null: none.</summary>
    public IReadOnlyList<BoardFigure>? Figures { get; init; }

    /// <summary>Does not say which frame its troubles are about.</summary>
    public bool NamesNoFrame { get; init; }

    /// <summary>What stands around its detector; null: nothing.</summary>
    public Func<IDetector, IDetector>? Around { get; init; }

    /// <summary>Lines of a log with each frame of samples.</summary>
    public int LogLines { get; init; }
}
