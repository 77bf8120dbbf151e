// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Schemas;
using SensorSim.Scenarios.StudyFiles;
using SensorSim.Signals.Keys;
using SensorSim.Signals.Streams;

namespace SensorSim.Scenarios.VectorPlans;

/// <summary>Keys of <c>[[case.header]]</c>.</summary>
public static class PlanHeaderKeys
{
    internal const string Section = "case.header";

    /// <summary>Name.</summary>
    public static readonly TextKey Name = PlanSetKeys.Line("case.header.name", "Name of the header without .h: lower-case letters, digits, hyphens; the case's unless given.", 60);

    /// <summary>Channels.</summary>
    public static readonly FreeKey Channels = PlanCaseKeys.Free("header.channels", "Channels whose samples the header holds; must be given.", "a list of channels, for example [\"ecg\"]", new(ValueForm.Texts) { Choices = ChannelNames.All, LeastItems = 1, IsUnlike = true });

    /// <summary>Width.</summary>
    public static readonly NumberKey Bits = new()
    {
        Name = "case.header.bits",
        Unit = "bit",
        Meaning = "Width of a code, 16 or 32; wider codes are shifted right and rounded.",
        Source = PlanSetKeys.Own,
        IsWhole = true,
        Minimum = 16,
        Maximum = 32,
        Default = 16,
    };

    /// <summary>Decimation.</summary>
    public static readonly NumberKey KeepEvery = StudySectionKeys.Count("case.header.keep_every", "Every how many-th sample is kept; no filter is applied before.", 1000, 1);

    /// <summary>Size.</summary>
    public static readonly NumberKey MaxBytes = StudySectionKeys.Count("case.header.max_bytes", "Largest size of the arrays together, as compiled; what is larger is refused.", 1 << 24, 65536) with { Unit = "bytes" };

    /// <summary>Every key of the section.</summary>
    public static IReadOnlyList<KeyDefinition> All { get; } = [Name, Channels, Bits, KeepEvery, MaxBytes];
}
