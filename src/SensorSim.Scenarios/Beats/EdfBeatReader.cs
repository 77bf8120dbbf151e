// SPDX-License-Identifier: MIT
using System.Globalization;
using SensorSim.Files;
using SensorSim.Files.Rows;
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Marks;

namespace SensorSim.Scenarios.Beats;

/// <summary>Reads a list of beats from the annotations of an EDF+ or BDF+ file: the interval of a beat is the time to the next one.</summary>
/// <remarks>The last beat has no next one, and only ends the list.</remarks>
public static class EdfBeatReader
{
    private const int MostMistakes = 20;

    /// <summary>Reads it.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="label">Text of the annotations that are beats; null for those of <see cref="BeatAnnotations"/> and truth that was recorded here.</param>
    /// <param name="labelKey">Name of the key that gives it.</param>
    /// <param name="report">Takes what is wrong; at most 20 times.</param>
    /// <returns>The beats that could be read, intervals in seconds.</returns>
    public static IReadOnlyList<(BeatClass Class, double RrSeconds)> Read(string path, string? label, string labelKey, Action<string> report)
    {
        ArgumentNullException.ThrowIfNull(report);
        try
        {
            using EdfTruth? truth = label is null ? EdfTruth.Open(path) : EdfTruth.Open(path, label);
            if (truth is not null)
            {
                return Read(truth, report);
            }

            report(label is null
                ? $"no annotation of the file is a beat; beats are {BeatAnnotations.Known}; another text is named by {labelKey}"
                : $"no annotation of the file has the text \"{TomlNames.Shown(label)}\" that {labelKey} names");
        }
        catch (InputFileException e)
        {
            report(FileMistake.Of(e));
        }

        return [];
    }

    private static List<(BeatClass Class, double RrSeconds)> Read(EdfTruth truth, Action<string> report)
    {
        var beats = new List<(BeatClass Class, double RrSeconds)>();
        TruthEvent? last = null;
        int mistakes = 0;
        while (mistakes < MostMistakes && truth.TryRead(out TruthEvent row))
        {
            if (row.Kind != MarkKind.RPeak)
            {
                continue;
            }

            if (last is TruthEvent beat)
            {
                double rrMs = (row.TimeNs - beat.TimeNs) * 1e-6;
                if (rrMs >= BeatListReader.ShortestRrMs && rrMs <= BeatListReader.LongestRrMs)
                {
                    beats.Add((Scripted(beat.Label), rrMs / 1000));
                }
                else
                {
                    mistakes++;
                    report(string.Create(
                        CultureInfo.InvariantCulture,
                        $"the beat at {beat.TimeNs * 1e-9:0.000} s has the next one {rrMs:0.###} ms later; an interval must be {BeatListReader.ShortestRrMs} to {BeatListReader.LongestRrMs} ms"));
                }
            }

            last = row;
        }

        if (beats.Count == 0 && mistakes == 0)
        {
            report("there are fewer than two beats among the annotations; an interval needs two");
        }

        return beats;
    }

    // The classes that a list of beats can hold; a beat of no class is a normal one.
    private static BeatClass Scripted(BeatClass found) => found switch
    {
        BeatClass.AtrialPremature or BeatClass.JunctionalEscape or BeatClass.Paced or BeatClass.VentricularPremature => found,
        BeatClass.Wide or BeatClass.VentricularRun or BeatClass.VentricularEscape => BeatClass.VentricularPremature,
        _ => BeatClass.Normal,
    };
}
