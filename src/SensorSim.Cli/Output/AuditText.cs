// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;
using SensorSim.Detectors.Probing;

namespace SensorSim.Cli.Output;

/// <summary>The headroom audit as lines of text and as JSON.</summary>
internal static class AuditText
{
    private const string Head =
        "stage                    format  declared  used  headroom       lowest      highest     values  clipped  dropped  noise";

    /// <summary>Lines of text, the heading first.</summary>
    /// <param name="audit">What was seen.</param>
    public static IEnumerable<string> Of(StageAudit audit)
    {
        yield return Head;
        foreach (StageRow row in audit.Rows)
        {
            StageRecord r = row.Record;
            string rounding = r.RoundedCount == 0 ? "      -      -" : Invariant($"{r.DroppedBits,7} {r.RoundingNoise,6:0.000}");
            yield return Invariant(
                $"{row.Point.Text(),-24} {row.Format.Q,6} {row.Format.Bits,9} {r.UsedBits,5} {Headroom(row),9} {r.Lowest,12} {r.Highest,12} {r.Count,10} {r.ClippedCount,8}  {rounding}");
        }
    }

    /// <summary>Writes the array <c>audit</c> into a document.</summary>
    /// <param name="json">The document, inside its object.</param>
    /// <param name="audit">What was seen.</param>
    public static void Write(Utf8JsonWriter json, StageAudit audit)
    {
        json.WriteStartArray("audit");
        foreach (StageRow row in audit.Rows)
        {
            StageRecord r = row.Record;
            json.WriteStartObject();
            json.WriteString("stage", row.Point.Text());
            json.WriteString("format", row.Format.Q);
            json.WriteString("unit", row.Format.Unit);
            json.WriteNumber("declared_bits", row.Format.Bits);
            json.WriteNumber("used_bits", r.UsedBits);
            Number(json, "headroom_bits", r.HeadroomBits(row.Format));
            json.WriteNumber("lowest", r.Lowest);
            json.WriteNumber("highest", r.Highest);
            json.WriteNumber("value_count", r.Count);
            json.WriteNumber("rail", row.Format.Rail);
            json.WriteNumber("clipped_count", r.ClippedCount);
            json.WriteNumber("rounded_count", r.RoundedCount);
            json.WriteNumber("dropped_bits", r.DroppedBits);
            Number(json, "rounding_mean_steps", r.RoundingMean);
            Number(json, "rounding_noise_steps", r.RoundingNoise);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static string Headroom(in StageRow row)
    {
        double bits = row.Record.HeadroomBits(row.Format);
        return double.IsNaN(bits) ? "-" : Invariant($"{bits:0.0}");
    }

    private static void Number(Utf8JsonWriter json, string name, double value)
    {
        if (double.IsFinite(value))
        {
            json.WriteNumber(name, Math.Round(value, 4));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
