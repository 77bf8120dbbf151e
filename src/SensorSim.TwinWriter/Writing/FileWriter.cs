// SPDX-License-Identifier: MIT
using System.Text;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter.Writing;

/// <summary>The text of one generated file.</summary>
internal sealed class FileWriter
{
    /// <summary>How every generated file begins.</summary>
    public const string FirstWords = "/* Generated from ";

    private readonly StringBuilder _text = new();
    private bool _isEmptyLine;

    /// <summary>Begins a file.</summary>
    /// <param name="source">What it comes from.</param>
    public FileWriter(string source)
    {
        Add(FirstWords + source + "; change that and run: dotnet run --project src/SensorSim.TwinWriter */");
        Add("/* SPDX-License-Identifier: MIT */");
    }

    /// <summary>The text so far.</summary>
    public override string ToString() => _text.ToString();

    /// <summary>Adds a line.</summary>
    public void Add(string line) => Add(new Line(0, line));

    /// <summary>Adds a line; never two empty ones in a row.</summary>
    public void Add(Line line)
    {
        bool isEmpty = line.Text.Length == 0;
        if (!(isEmpty && _isEmptyLine))
        {
            LineWrap.Append(_text, line);
        }

        _isEmptyLine = isEmpty;
    }

    /// <summary>Adds lines.</summary>
    public void AddAll(IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            Add(line);
        }
    }

    /// <summary>Adds a function.</summary>
    public void AddFunction(WrittenMethod method, string prefix)
    {
        Add(prefix + method.Head);
        Add("{");
        bool isBegin = true;
        foreach (Line line in method.Body)
        {
            if (!(isBegin && line.Text.Length == 0))
            {
                Add(line);
                isBegin = false;
            }
        }

        Add("}");
        Add("");
    }
}
