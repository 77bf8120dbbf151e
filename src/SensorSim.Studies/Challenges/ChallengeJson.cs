// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;
using SensorSim.Scenarios;
using SensorSim.Scenarios.Reading;
using SensorSim.Studies.Results;

namespace SensorSim.Studies.Challenges;

/// <summary>Writes the result of a challenge as one JSON document: snake_case keys with units, null where undefined.</summary>
public static class ChallengeJson
{
    private static readonly JsonWriterOptions s_options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes the document, with a line feed at the end.</summary>
    /// <param name="stream">Receives UTF-8 text; left open.</param>
    /// <param name="result">The result.</param>
    public static void Write(Stream stream, ChallengeResult result)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(result);
        using (var json = new Utf8JsonWriter(stream, s_options))
        {
            json.WriteStartObject();
            json.WriteNumber("schema_version", SummaryJson.SchemaVersion);
            json.WriteString("scenario", result.Scenario.File);
            json.WriteString("title", result.Scenario.Title);
            json.WriteString("detector", result.Detector);
            json.WriteNumber("seed", result.Scenario.Seed);
            json.WriteNumber("generator_version", Scenario.GeneratorVersion);
            json.WriteBoolean("is_broken", result.Found is not null);
            Tried(json, result);
            Found(json, result);
            Alone(json, result);
            json.WriteEndObject();
        }

        stream.WriteByte((byte)'\n');
    }

    private static void Tried(Utf8JsonWriter json, ChallengeResult result)
    {
        json.WriteStartObject("search");
        json.WriteNumber("search_seed", result.Settings.Seed);
        json.WriteNumber("runs_max", result.Settings.MostRuns);
        json.WriteNumber("runs", result.RunCount);
        json.WriteNumber("runs_before_shrinking", result.SearchRunCount);
        json.WriteNumber("inputs", result.InputCount);
        json.WriteNumber("contradictory_inputs", result.ContradictionCount);
        json.WriteNumber("check_seeds", result.Settings.CheckSeeds);
        json.WriteNumber("check_least", result.Settings.CheckLeast);
        json.WriteString("harshness", "sum over the disturbances of weight times (least + (1 - least) times level); level 0 is the scenario's own value, 1 the harsh end");
        Number(json, "harshest_held", result.HarshestHeld?.Harshness);
        json.WriteEndObject();
    }

    private static void Found(Utf8JsonWriter json, ChallengeResult result)
    {
        if (result.Found is not Trial found)
        {
            json.WriteNull("found");
            return;
        }

        json.WriteStartObject("found");
        Breach(json, found);
        json.WriteNumber("harshness", found.Input.Harshness);
        Number(json, "harshness_before_shrinking", result.FoundHarshness);
        json.WriteNumber("duration_s", found.Input.DurationS);
        json.WriteNumber("check_seeds_run", found.CheckRuns);
        json.WriteNumber("check_seeds_broken", found.CheckBroken);
        json.WriteStartObject("at_full_length");
        json.WriteNumber("duration_s", result.AtFullLength!.Input.DurationS);
        Number(json, "figure", result.AtFullLength.Breach!.Figure);
        json.WriteNumber("check_seeds_run", result.AtFullLength.CheckRuns);
        json.WriteNumber("check_seeds_broken", result.AtFullLength.CheckBroken);
        json.WriteEndObject();
        json.WriteStartArray("disturbances");
        foreach (Disturbance disturbance in found.Input.Disturbances)
        {
            Disturbance(json, disturbance, found.Input, result.Scenario);
        }

        json.WriteEndArray();
        json.WriteStartObject("moment");
        json.WriteNumber("body_time_s", result.Moment!.TimeS);
        json.WriteString("what", result.Moment.What);
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void Breach(Utf8JsonWriter json, Trial trial)
    {
        json.WriteString("requirement", trial.Breach!.Requirement);
        json.WriteString("subject", trial.Breach.Subject);
        Number(json, "limit", trial.Breach.Limit);
        Number(json, "figure", trial.Breach.Figure);
    }

    private static void Disturbance(Utf8JsonWriter json, Disturbance disturbance, ChallengeInput input, Scenario scenario)
    {
        KnobRange range = input.RangeOf(disturbance);
        json.WriteStartObject();
        json.WriteString("key", range.Knob.Key.Name);
        json.WriteNumber("value", disturbance.Value);
        json.WriteString("unit", range.Knob.Key.Unit);
        json.WriteNumber("level", range.LevelOf(disturbance.Value));
        json.WriteNumber("weight", range.Knob.Weight);
        json.WriteNumber("least", range.Knob.Least);
        json.WriteNumber("from", range.From);
        json.WriteNumber("harsh", range.Knob.Harsh);
        json.WriteString("source", range.Knob.Source);
        Along(json, disturbance, input, scenario);
        json.WriteEndObject();
    }

    private static void Along(Utf8JsonWriter json, Disturbance disturbance, ChallengeInput input, Scenario scenario)
    {
        json.WriteStartArray("along");
        foreach (KeyValue along in input.AlongWith(disturbance, scenario))
        {
            json.WriteStringValue($"{along.Key.Name} = {along.Text}");
        }

        json.WriteEndArray();
    }

    private static void Alone(Utf8JsonWriter json, ChallengeResult result)
    {
        json.WriteStartArray("alone");
        foreach ((KnobRange range, Trial? trial) in result.Ranges.Zip(result.Alone))
        {
            json.WriteStartObject();
            json.WriteString("knob", range.Knob.Name);
            json.WriteString("unit", range.Knob.Key.Unit);
            json.WriteNumber("from", range.From);
            json.WriteNumber("harsh", range.Knob.Harsh);
            Number(json, "breaks_at", trial?.Input.Disturbances[0].Value);
            if (trial is not null)
            {
                Along(json, trial.Input.Disturbances[0], trial.Input, result.Scenario);
                Breach(json, trial);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
