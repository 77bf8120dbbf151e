// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Edf;

/// <summary>What the header of an EDF, EDF+, BDF or BDF+ file says.</summary>
/// <remarks>
/// Kemp et al., Electroencephalography and Clinical Neurophysiology 82:391-393 (1992) for EDF; Kemp and Olivan, Clinical Neurophysiology
/// 114:1755-1761 (2003) for EDF+. BDF is the same with 24 bits a sample.
/// </remarks>
public sealed record EdfHeader
{
    /// <summary>Whether samples have 24 bits (BDF) instead of 16 (EDF).</summary>
    public bool IsBdf { get; init; }

    /// <summary>Whether records follow each other without a gap, and whether annotations are there.</summary>
    public EdfContinuity Continuity { get; init; }

    /// <summary>The field of the patient, at most 80 characters; with annotations: code, sex, birth date and name, each X when unknown.</summary>
    public string Patient { get; init; } = "X X X X";

    /// <summary>The field of the recording, at most 80 characters; with annotations: Startdate, date, code, technician and equipment.</summary>
    public required string Recording { get; init; }

    /// <summary>Begin of the recording, whole seconds, 1985 to 2084.</summary>
    public required DateTime Start { get; init; }

    /// <summary>Number of records; −1 while the file is still being written.</summary>
    public long RecordCount { get; init; } = -1;

    /// <summary>Duration of a record [s].</summary>
    public required decimal RecordDurationS { get; init; }

    /// <summary>The signals, those with annotations among them, in the order of the file.</summary>
    public required IReadOnlyList<EdfSignal> Signals { get; init; }

    /// <summary>Bytes of a sample: 2 or 3.</summary>
    public int BytesPerSample => IsBdf ? 3 : 2;

    /// <summary>Bytes of the header.</summary>
    public int HeaderBytes => EdfFields.FixedBytes * (Signals.Count + 1);

    /// <summary>Bytes of a record.</summary>
    public long RecordBytes => Signals.Sum(s => (long)s.SamplesPerRecord) * BytesPerSample;

    /// <summary>Lowest sample that the format holds.</summary>
    public int LowestSample => IsBdf ? -0x800000 : short.MinValue;

    /// <summary>Highest sample that the format holds.</summary>
    public int HighestSample => IsBdf ? 0x7FFFFF : short.MaxValue;
}

/// <summary>Whether records follow each other, and whether annotations are there.</summary>
public enum EdfContinuity
{
    /// <summary>EDF or BDF as first published: no annotations, no gaps.</summary>
    Plain,

    /// <summary>EDF+C or BDF+C: annotations, records without a gap.</summary>
    Continuous,

    /// <summary>EDF+D or BDF+D: annotations, and records that say themselves when they begin.</summary>
    Discontinuous,
}
