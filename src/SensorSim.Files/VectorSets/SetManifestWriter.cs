// SPDX-License-Identifier: MIT
using System.Text.Encodings.Web;
using System.Text.Json;

namespace SensorSim.Files.VectorSets;

/// <summary>Writes a manifest as JSON: the same content always gives the same bytes.</summary>
public static class SetManifestWriter
{
    private static readonly JsonWriterOptions s_options = new()
    {
        Indented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The bytes of the file.</summary>
    /// <param name="manifest">The manifest.</param>
    public static byte[] Bytes(SetManifest manifest)
    {
        ArgumentNullException.ThrowIfNull(manifest);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, s_options))
        {
            Write(json, manifest);
        }

        stream.WriteByte((byte)'\n');
        return stream.ToArray();
    }

    /// <summary>What the file beside the manifest holds.</summary>
    /// <param name="sha256">SHA-256 of the manifest, 64 lower-case hexadecimal digits.</param>
    public static byte[] Sidecar(string sha256) => System.Text.Encoding.ASCII.GetBytes($"{sha256}  {SetNames.Manifest}\n");

    private static void Write(Utf8JsonWriter json, SetManifest manifest)
    {
        json.WriteStartObject();
        json.WriteNumber("schema_version", manifest.SchemaVersion);
        json.WriteString("title", manifest.Title);
        json.WriteNumber("generator_version", manifest.GeneratorVersion);
        json.WriteString("detector", manifest.Detector);
        json.WriteString("plan_place", manifest.PlanPlace);
        json.WriteStartArray("requirements");
        foreach (ManifestRequirement requirement in manifest.Requirements)
        {
            json.WriteStartObject();
            json.WriteString("id", requirement.Id);
            json.WriteString("text", requirement.Text);
            json.WriteString("clause", requirement.Clause);
            json.WriteString("channel", requirement.Channel);
            json.WriteString("kind", requirement.Kind);
            json.WriteString("rule", requirement.Rule);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("cases");
        foreach (ManifestCase one in manifest.Cases)
        {
            Write(json, one);
        }

        json.WriteEndArray();
        json.WriteStartArray("files");
        foreach (ManifestFile file in manifest.Files)
        {
            json.WriteStartObject();
            json.WriteString("path", file.Path);
            json.WriteNumber("bytes", file.Bytes);
            json.WriteString("sha256", file.Sha256);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, ManifestCase one)
    {
        json.WriteStartObject();
        json.WriteString("name", one.Name);
        json.WriteString("about", one.About);
        json.WriteString("scenario", one.Scenario);
        json.WriteNumber("seed", one.Seed);
        json.WriteNumber("duration_s", one.DurationS);
        json.WriteString("calibration", one.Calibration);
        json.WriteString("disturbance", one.Disturbance);
        json.WriteString("level", one.Level);
        WriteList(json, "requirements", one.Requirements);
        json.WriteStartArray("known_deviations");
        foreach (ManifestDeviation deviation in one.Deviations)
        {
            json.WriteStartObject();
            json.WriteString("requirement", deviation.Requirement);
            json.WriteString("reason", deviation.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("channels");
        foreach (ManifestChannel channel in one.Channels)
        {
            json.WriteStartObject();
            json.WriteString("channel", channel.Channel);
            json.WriteNumber("rate_hz", channel.RateHz);
            json.WriteNumber("bits", channel.Bits);
            json.WriteNumber("sample_count", channel.SampleCount);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        WriteList(json, "stimulus", one.Stimulus);
        json.WriteStartObject("sha256");
        foreach ((string name, string sum) in one.Sums.All)
        {
            json.WriteString(name, sum);
        }

        json.WriteEndObject();
        json.WriteStartArray("headers");
        foreach (ManifestHeader header in one.Headers)
        {
            json.WriteStartObject();
            json.WriteString("file", header.File);
            json.WriteString("expected", header.Expected);
            WriteList(json, "channels", header.Channels);
            json.WriteNumber("bits", header.Bits);
            json.WriteNumber("keep_every", header.KeepEvery);
            json.WriteNumber("array_bytes", header.ArrayBytes);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteList(Utf8JsonWriter json, string name, IReadOnlyList<string> values)
    {
        json.WriteStartArray(name);
        foreach (string value in values)
        {
            json.WriteStringValue(value);
        }

        json.WriteEndArray();
    }
}
