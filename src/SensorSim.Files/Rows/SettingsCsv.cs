// SPDX-License-Identifier: MIT
namespace SensorSim.Files.Rows;

/// <summary>Columns of <c>settings.csv</c>.</summary>
internal static class SettingsCsv
{
    internal const string Header = "channel,setting,value,effective_ns";
}
