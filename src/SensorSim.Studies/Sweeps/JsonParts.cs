// SPDX-License-Identifier: MIT
using System.Text.Json;

namespace SensorSim.Studies.Sweeps;

/// <summary>What the documents about studies and comparisons are written with.</summary>
internal static class JsonParts
{
    /// <summary>Writes an array.</summary>
    public static void Array<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartArray(name);
        foreach (T item in items)
        {
            write(json, item);
        }

        json.WriteEndArray();
    }

    /// <summary>Writes a number; null where there is none or it is infinite.</summary>
    public static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (FailurePointTable.Finite(value) is double number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }
}
