// SPDX-License-Identifier: MIT
namespace SensorSim.TwinWriter.Statements;

/// <summary>One line of C.</summary>
/// <param name="Indent">How deep it stands.</param>
/// <param name="Text">What it says.</param>
internal readonly record struct Line(int Indent, string Text);

/// <summary>Lines of C on their way into a function, and the place where the statement being written begins.</summary>
internal sealed class LineBuffer
{
    private List<Line> _lines = [];
    private List<Line> _anchorLines = [];
    private int _anchorAt;
    private int _anchorIndent;

    /// <summary>How deep the next line stands.</summary>
    public int Indent { get; set; }

    /// <summary>What was written.</summary>
    public IReadOnlyList<Line> Lines => _lines;

    /// <summary>Writes a line.</summary>
    public void Add(string text) => _lines.Add(new Line(Indent, text));

    /// <summary>Writes a line of declaration before the statement being written.</summary>
    public void AddDeclaration(string text) => _anchorLines.Insert(_anchorAt++, new Line(_anchorIndent, text));

    /// <summary>A statement begins here.</summary>
    /// <returns>What brings back the beginning of the statement around it.</returns>
    public IDisposable BeginStatement()
    {
        var before = new Anchor(this, _anchorLines, _anchorAt, _anchorIndent);
        (_anchorLines, _anchorAt, _anchorIndent) = (_lines, _lines.Count, Indent);
        return before;
    }

    /// <summary>Writes aside.</summary>
    /// <param name="write">What writes.</param>
    /// <returns>Its result, and the lines that it wrote, as if at depth 0.</returns>
    public (T Result, List<Line> Lines) Aside<T>(Func<T> write)
    {
        List<Line> outer = _lines;
        int indent = Indent;
        (_lines, Indent) = ([], 0);
        try
        {
            T result = write();
            return (result, _lines);
        }
        finally
        {
            (_lines, Indent) = (outer, indent);
        }
    }

    /// <summary>Writes lines that were written aside.</summary>
    public void AddAll(IEnumerable<Line> lines) => _lines.AddRange(lines.Select(line => line with { Indent = line.Indent + Indent }));

    private sealed class Anchor(LineBuffer owner, List<Line> lines, int at, int indent) : IDisposable
    {
        public void Dispose() => (owner._anchorLines, owner._anchorAt, owner._anchorIndent) = (lines, at, indent);
    }
}
