// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Plans;

namespace SensorSim.Studies.Tests.Plans;

/// <summary>A folder with a scenario, for studies that name it.</summary>
internal sealed class StudyFolder : IDisposable
{
    public const string Rest = """
        [scenario]
        duration_s = 40
        seed = 3

        [heart]
        rate_bpm = 70

        [ecg_noise]
        muscle_snr_db = 12

        [requirements]
        r_peak_sensitivity_min = 0.9
        """;

    private readonly string _path = Directory.CreateTempSubdirectory("studies-").FullName;

    public StudyFolder(string scenario = Rest) => Write("s.toml", scenario);

    public string At(string name) => Path.Combine(_path, name);

    public void Write(string name, string text) => File.WriteAllText(At(name), text);

    /// <summary>Reads a study that lies in the folder; its first two lines name the scenario.</summary>
    public StudyPlan Read(string more = "") => PlanReader.ReadText($"[study]\nscenario = \"s.toml\"\n{more}", At("a.toml"));

    /// <summary>The mistakes of a study, without the folder.</summary>
    public string Mistakes(string more)
    {
        var e = Assert.Throws<ScenarioException>(() => Read(more));
        return Without(e!.Message);
    }

    /// <summary>A message without the folder.</summary>
    public string Without(string message) => message.Replace(_path + Path.DirectorySeparatorChar, "", StringComparison.Ordinal);

    public void Dispose() => Directory.Delete(_path, recursive: true);
}
