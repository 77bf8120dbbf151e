// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scoring.Definitions;
using SensorSim.Scoring.Oxygen;
using SensorSim.Scoring.Pressure;
using SensorSim.Scoring.Statistics;
using SensorSim.Scoring.Statistics.Agreement;
using SensorSim.Signals.Marks;
using SensorSim.Studies.Results;

namespace SensorSim.Studies.Agreement;

/// <summary>Writes <see cref="AgreementFigures"/> as JSON: snake_case keys, in the kind's unit unless a key names another, null where undefined.</summary>
public static class AgreementJson
{
    /// <summary>Writes the figures of several kinds as the properties <c>agreement</c> (an array) and <c>agreement_definitions</c>.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="figures">The figures.</param>
    public static void WriteProperties(Utf8JsonWriter json, IEnumerable<AgreementFigures> figures)
    {
        ArgumentNullException.ThrowIfNull(json);
        ArgumentNullException.ThrowIfNull(figures);
        json.WriteStartArray("agreement");
        foreach (AgreementFigures one in figures)
        {
            Write(json, one);
        }

        json.WriteEndArray();
        json.WriteStartObject("agreement_definitions");
        foreach (ScoreDefinition definition in ScoreDefinitions.Agreement)
        {
            json.WriteString(definition.Key, definition.Text);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, AgreementFigures f)
    {
        json.WriteStartObject();
        json.WriteString("kind", f.Kind.Text());
        json.WriteString("unit", f.Kind.Info().ValueUnit);
        json.WriteNumber("subjects", f.SubjectCount);
        json.WriteNumber("count", f.All.Count);
        ScoreJson.Number(json, "bias", f.All.Bias);
        Interval(json, "bias", f.BiasInterval);
        ScoreJson.Number(json, "sd", f.All.Sd);
        ScoreJson.Number(json, "rms", f.All.Rms);
        ScoreJson.Number(json, "mean_abs", f.All.MeanAbsolute);
        ScoreJson.Number(json, "pearson", f.All.Pearson);
        Limits(json, f);
        ConcordanceCorrelation? c = f.Concordance;
        ScoreJson.Number(json, "concordance", c?.Concordance);
        Interval(json, "concordance", c?.Interval95);
        if (f.Criteria is PressureCriteria criteria)
        {
            Pressure(json, f, criteria);
        }

        if (f.Saturation is SaturationAccuracy saturation)
        {
            Saturation(json, saturation);
        }

        json.WriteEndObject();
    }

    private static void Limits(Utf8JsonWriter json, AgreementFigures f)
    {
        ScoreJson.Number(json, "pooled_lower_limit", f.Pooled?.LowerLimit);
        ScoreJson.Number(json, "pooled_upper_limit", f.Pooled?.UpperLimit);
        RepeatedAgreement? r = f.Repeated;
        ScoreJson.Number(json, "between_variance", r?.BetweenVariance);
        ScoreJson.Number(json, "within_variance", r?.WithinVariance);
        ScoreJson.Number(json, "lower_limit", r?.LowerLimit);
        Interval(json, "lower_limit", f.LowerLimitInterval);
        ScoreJson.Number(json, "upper_limit", r?.UpperLimit);
        Interval(json, "upper_limit", f.UpperLimitInterval);
    }

    private static void Pressure(Utf8JsonWriter json, AgreementFigures f, PressureCriteria c)
    {
        json.WriteStartObject("pressure");
        Truth(json, "meets_criterion_1", c.MeetsFirst);
        ScoreJson.Number(json, "subject_mean_mmhg", c.SubjectMeanMmhg);
        ScoreJson.Number(json, "subject_sd_mmhg", c.SubjectSdMmhg);
        ScoreJson.Number(json, "subject_sd_limit_mmhg", c.SubjectSdLimitMmhg);
        Truth(json, "meets_criterion_2", c.MeetsSecond);
        PressureBands bands = f.Bands!;
        ScoreJson.Number(json, "within_5_share", bands.Share(bands.Within5));
        ScoreJson.Number(json, "within_10_share", bands.Share(bands.Within10));
        ScoreJson.Number(json, "within_15_share", bands.Share(bands.Within15));
        json.WriteString("share_grade", bands.Grade?.ToString());
        json.WriteString("mean_abs_grade", f.MeanAbsoluteGrade?.ToString());
        ScoreJson.Number(json, "tracking_rms_mmhg", f.Tracking?.Rms);
        ScoreJson.Number(json, "no_change_rms_mmhg", f.Tracking?.NoChangeRms);
        ScoreJson.Number(json, "tracking_skill", f.Tracking?.Skill);
        ScoreJson.Number(json, "tracking_slope", f.Tracking?.Slope);
        Truth(json, "beats_no_change", f.Tracking?.BeatsNoChange);
        json.WriteEndObject();
    }

    private static void Saturation(Utf8JsonWriter json, SaturationAccuracy s)
    {
        json.WriteStartObject("saturation");
        ScoreJson.Number(json, "a_rms_points", s.Arms);
        ScoreJson.Number(json, "bias_points", s.Bias);
        ScoreJson.Number(json, "precision_points", s.Precision);
        json.WriteNumber("outside_70_to_100_percent", s.OutsideCount);
        json.WriteStartArray("bands");
        for (int i = 0; i < s.Bands.Count; i++)
        {
            json.WriteStartObject();
            json.WriteNumber("from_percent", SaturationAccuracy.EdgesPercent[i]);
            json.WriteNumber("to_percent", SaturationAccuracy.EdgesPercent[i + 1]);
            json.WriteNumber("count", s.Bands[i].Count);
            ScoreJson.Number(json, "a_rms_points", s.Bands[i].Rms);
            ScoreJson.Number(json, "bias_points", s.Bands[i].Bias);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Interval(Utf8JsonWriter json, string name, Interval? interval)
    {
        ScoreJson.Number(json, name + "_low", interval?.Low);
        ScoreJson.Number(json, name + "_high", interval?.High);
    }

    private static void Truth(Utf8JsonWriter json, string name, bool? value)
    {
        if (value is bool known)
        {
            json.WriteBoolean(name, known);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
