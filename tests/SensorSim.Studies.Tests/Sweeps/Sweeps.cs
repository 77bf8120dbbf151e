// SPDX-License-Identifier: MIT
using SensorSim.Detectors;
using SensorSim.Detectors.Choices;
using SensorSim.Files.Output;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Scenarios.Requirements;
using SensorSim.Signals.Detectors;
using SensorSim.Signals.Keys;
using SensorSim.Studies.Plans;
using SensorSim.Studies.Sweeps;

namespace SensorSim.Studies.Tests.Sweeps;

/// <summary>Small studies and detectors for the tests of sweeps.</summary>
internal static class SmallStudy
{
    private const string Noisy = """
        [scenario]
        duration_s = 14
        seed = 3

        [ecg_noise]
        muscle_snr_db = 12
        """;

    /// <summary>Noise of the muscles at some levels, some seeds, two detectors of which the second is told another latency.</summary>
    public static StudyPlan Plan(double[]? levels = null, int seeds = 3, int detectors = 1)
    {
        levels ??= [12, -6];
        return new StudyPlan
        {
            Title = "noise, small",
            File = "noise.toml",
            Text = "",
            Scenario = ScenarioReader.ReadText(Noisy, "s.toml"),
            Factors = [new Factor(AllKeys.Find("ecg_noise.muscle_snr_db")!, [.. levels.Cast<object>()])],
            Points = [.. levels.Select((l, i) => new StudyPoint(i, [l]))],
            Seeds = [.. Enumerable.Range(7, seeds).Select(s => (ulong)s)],
            Detectors = [.. Enumerable.Range(1, detectors).Select(d => new DetectorChoice { Label = $"detector {d}" })],
            Requirements = [Requirement("r_peak_sensitivity_min", 0.9), Requirement("r_peak_timing_bias_ms_max", 20)],
        };
    }

    public static (RequirementDefinition Definition, double Limit) Requirement(string key, double limit) =>
        (RequirementKeys.All.First(r => r.Key.Key == key), limit);

    /// <summary>The library for each detector of a plan.</summary>
    public static IReadOnlyList<IDetectorFactory> Factories(StudyPlan plan) => [.. plan.Detectors.Select(_ => new LibraryFactory())];

    public static StudyIdentity Identity(StudyPlan plan) => StudyIdentity.Of(plan, Factories(plan));

    /// <summary>Writes all files of a sweep.</summary>
    public static void Write(OutputFolder folder, SweepResults results)
    {
        var files = new SweepFiles(folder, results);
        files.WriteSummary();
        files.WriteRunsCsv();
        files.WriteRunsParquet();
    }

    /// <summary>Makes a detector around the library.</summary>
    public sealed class Factory(string identity, Func<LibraryDetector, IDetector> make) : IDetectorFactory
    {
        public string Identity => identity;

        public IReadOnlyList<NumberKey> Constants => [];

        public IDetector Create(IReadOnlyDictionary<string, double> constants) => make(new LibraryDetector());

        public void Dispose()
        {
        }
    }
}
