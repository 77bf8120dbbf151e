// SPDX-License-Identifier: MIT
using System.Text.Json;
using SensorSim.Scenarios.Acquisition;

namespace SensorSim.Studies.Results;

/// <summary>Writes the noise of the ECG as JSON.</summary>
internal static class EcgNoiseJson
{
    /// <summary>Writes a property of an object; null when there is none.</summary>
    /// <param name="json">Inside an object.</param>
    /// <param name="name">Name of the property.</param>
    /// <param name="noise">The noise, or null.</param>
    public static void WriteProperty(Utf8JsonWriter json, string name, EcgNoiseFigures? noise)
    {
        if (noise is null)
        {
            json.WriteNull(name);
            return;
        }

        json.WriteStartObject(name);
        json.WriteNumber("at_s", noise.AtSeconds);
        Figures(json, noise.All);
        json.WriteStartArray("sources");
        foreach (EcgNoiseFigure source in noise.Sources)
        {
            json.WriteStartObject();
            json.WriteString("source", source.Source);
            Figures(json, source);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Figures(Utf8JsonWriter json, EcgNoiseFigure figure)
    {
        json.WriteNumber("rms_uv", figure.RmsUv);
        Decibel(json, "snr_db", figure.SnrDb);
        Decibel(json, "snr_8_to_20_hz_db", figure.BandSnrDb);
    }

    private static void Decibel(Utf8JsonWriter json, string name, double? value)
    {
        if (value is double decibel)
        {
            json.WriteNumber(name, decibel);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
