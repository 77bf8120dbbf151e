// SPDX-License-Identifier: MIT
using SensorSim.Scenarios.Reading;
using SensorSim.Signals.Keys;
using Tomlyn.Syntax;

namespace SensorSim.Scenarios.Sensors;

/// <summary>A sensor that a scenario is made with: values for its keys, from a file of their own.</summary>
public sealed class SensorFile
{
    internal SensorFile(string fullPath, ReferencedFile reference, KeyValues given, Dictionary<string, SourceSpan> places)
    {
        FullPath = fullPath;
        Reference = reference;
        Given = given;
        Places = places;
    }

    /// <summary>Path that leads to the file from where the program runs.</summary>
    public string FullPath { get; }

    /// <summary>What enters the identity of a stream: the path as it was said, and the SHA-256.</summary>
    public ReferencedFile Reference { get; }

    /// <summary>The values of the file.</summary>
    internal KeyValues Given { get; }

    /// <summary>Places of the values.</summary>
    internal Dictionary<string, SourceSpan> Places { get; }

    /// <summary>Gives its values to the keys that a scenario does not set itself.</summary>
    /// <param name="values">Values of the scenario.</param>
    internal void AddTo(KeyValues values)
    {
        foreach (KeyDefinition key in SensorKeys.OfAFile.Where(k => Given.IsSet(k) && !values.IsSet(k)))
        {
            switch (key)
            {
                case NumberKey number:
                    values.Set(number, Given[number]);
                    break;
                case ChoiceKey choice:
                    values.Set(choice, Given[choice]);
                    break;
                case TextKey text:
                    values.Set(text, Given[text]);
                    break;
            }
        }
    }
}
