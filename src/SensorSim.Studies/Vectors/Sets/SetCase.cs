// SPDX-License-Identifier: MIT
using SensorSim.Files.VectorSets;
using SensorSim.Scenarios.VectorPlans;

namespace SensorSim.Studies.Vectors.Sets;

/// <summary>A case of a set on the disk.</summary>
/// <param name="Folder">Path of its folder.</param>
/// <param name="Facts">What the manifest says of it.</param>
/// <param name="Planned">What the plan says of it.</param>
public sealed record SetCase(string Folder, ManifestCase Facts, PlannedCase Planned)
{
    /// <summary>Name.</summary>
    public string Name => Facts.Name;

    /// <summary>Path of its truth.</summary>
    public string TruthPath => Path.Combine(Folder, SetNames.Truth);

    /// <summary>Path of its acquisition.</summary>
    public string AcquisitionPath => Path.Combine(Folder, SetNames.Acquisition);

    /// <summary>Path of what every detector has to answer.</summary>
    public string AcceptancePath => Path.Combine(Folder, SetNames.Acceptance);

    /// <summary>Path of what the library answers.</summary>
    public string ExpectedPath => Path.Combine(Folder, SetNames.Expected);
}
