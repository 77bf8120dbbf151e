// SPDX-License-Identifier: MIT
namespace SensorSim.Files.VectorSets;

/// <summary>What a vector set says of itself: versions, requirements, cases, and the sum of every file but itself and its own sum.</summary>
public sealed record SetManifest
{
    /// <summary>Version of the manifest's form that this program writes.</summary>
    public const int CurrentSchema = 1;

    /// <summary>Version of the form.</summary>
    public int SchemaVersion { get; init; } = CurrentSchema;

    /// <summary>Title.</summary>
    public required string Title { get; init; }

    /// <summary>Version of the generator that made samples, truth, acquisition and acceptance.</summary>
    public required int GeneratorVersion { get; init; }

    /// <summary>Name and version of the detector that gave the expected answers.</summary>
    public required string Detector { get; init; }

    /// <summary>Where the plan stood among the files it names: a path in the folder <c>sources</c>, where no copy of it lies.</summary>
    public required string PlanPlace { get; init; }

    /// <summary>Requirements.</summary>
    public required IReadOnlyList<ManifestRequirement> Requirements { get; init; }

    /// <summary>Cases.</summary>
    public required IReadOnlyList<ManifestCase> Cases { get; init; }

    /// <summary>Every file of the set but the manifest and its sum, in ordinal order of paths.</summary>
    public required IReadOnlyList<ManifestFile> Files { get; init; }
}

/// <summary>A requirement.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Text">What it asks, in a sentence.</param>
/// <param name="Clause">Standard and clause, or <c>own</c>.</param>
/// <param name="Channel">Channel; empty: any.</param>
/// <param name="Kind">Kind of answer.</param>
/// <param name="Rule">What kind of demand it is.</param>
public sealed record ManifestRequirement(string Id, string Text, string Clause, string Channel, string Kind, string Rule);

/// <summary>A file.</summary>
/// <param name="Path">Path from the set's folder on, parted by slashes.</param>
/// <param name="Bytes">Size.</param>
/// <param name="Sha256">SHA-256, 64 lower-case hexadecimal digits.</param>
public sealed record ManifestFile(string Path, long Bytes, string Sha256);

/// <summary>A case.</summary>
public sealed record ManifestCase
{
    /// <summary>Name, which is its folder's.</summary>
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    public required string About { get; init; }

    /// <summary>Path of the scenario as the plan says it.</summary>
    public required string Scenario { get; init; }

    /// <summary>Seed.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Length [s].</summary>
    public required double DurationS { get; init; }

    /// <summary>Path of the calibration as the plan says it; empty: none.</summary>
    public required string Calibration { get; init; }

    /// <summary>What disturbs it.</summary>
    public required string Disturbance { get; init; }

    /// <summary>How hard it is.</summary>
    public required string Level { get; init; }

    /// <summary>Names of its requirements.</summary>
    public required IReadOnlyList<string> Requirements { get; init; }

    /// <summary>Requirements that the library is known not to meet, with the reason.</summary>
    public required IReadOnlyList<ManifestDeviation> Deviations { get; init; }

    /// <summary>Its channels.</summary>
    public required IReadOnlyList<ManifestChannel> Channels { get; init; }

    /// <summary>Forms in which its samples are in the set.</summary>
    public required IReadOnlyList<string> Stimulus { get; init; }

    /// <summary>One sum for each stream.</summary>
    public required StreamSums Sums { get; init; }

    /// <summary>Its C headers.</summary>
    public required IReadOnlyList<ManifestHeader> Headers { get; init; }
}

/// <summary>A known deviation.</summary>
/// <param name="Requirement">Name of the requirement.</param>
/// <param name="Reason">Why.</param>
public sealed record ManifestDeviation(string Requirement, string Reason);

/// <summary>A channel of a case.</summary>
/// <param name="Channel">Its name.</param>
/// <param name="RateHz">Rate [Hz].</param>
/// <param name="Bits">Bits of the converter.</param>
/// <param name="SampleCount">Samples that came.</param>
public sealed record ManifestChannel(string Channel, int RateHz, int Bits, long SampleCount);

/// <summary>One SHA-256 for each stream of a case.</summary>
/// <param name="Stimulus">Of the sums of its raw files, shipped or not, one line each as <c>sha256sum</c> prints them.</param>
/// <param name="Truth">Of <c>truth.csv</c>.</param>
/// <param name="Acquisition">Of <c>acquisition.csv</c>.</param>
/// <param name="Acceptance">Of <c>acceptance.csv</c>.</param>
/// <param name="Expected">Of <c>expected.csv</c>.</param>
public sealed record StreamSums(string Stimulus, string Truth, string Acquisition, string Acceptance, string Expected)
{
    /// <summary>Names and sums, in the order of the files.</summary>
    public IEnumerable<(string Name, string Sha256)> All =>
        [("stimulus", Stimulus), ("truth", Truth), ("acquisition", Acquisition), ("acceptance", Acceptance), ("expected", Expected)];
}

/// <summary>A C header of a case.</summary>
/// <param name="File">Path from the set's folder on.</param>
/// <param name="Expected">Path of the answers to its samples.</param>
/// <param name="Channels">Its channels.</param>
/// <param name="Bits">Width of a code.</param>
/// <param name="KeepEvery">Every how many-th sample is kept.</param>
/// <param name="ArrayBytes">Size of its arrays as compiled.</param>
public sealed record ManifestHeader(string File, string Expected, IReadOnlyList<string> Channels, int Bits, int KeepEvery, long ArrayBytes);
