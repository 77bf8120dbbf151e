// SPDX-License-Identifier: MIT
using System.Text;
using System.Xml.Linq;
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Naming;

namespace SensorSim.TwinWriter.Writing;

/// <summary>Documentation of the C# source as C comments.</summary>
internal static class Documentation
{
    private const int Width = 140;

    /// <summary>The comment above a declaration; nothing when the source says nothing.</summary>
    /// <param name="symbol">What is declared.</param>
    /// <param name="syntax">Where; null: where the symbol says.</param>
    /// <returns>Lines.</returns>
    public static IEnumerable<string> Of(ISymbol symbol, SyntaxNode? syntax = null)
    {
        List<string> paragraphs = [.. Paragraphs(symbol)];
        if (paragraphs.Count == 0)
        {
            SyntaxNode? place = syntax ?? symbol.DeclaringSyntaxReferences.FirstOrDefault()?.GetSyntax();
            place = place?.AncestorsAndSelf().FirstOrDefault(each => each is Microsoft.CodeAnalysis.CSharp.Syntax.MemberDeclarationSyntax);
            string remark = place is null ? "" : string.Join(' ', Comments.Of(place.GetLeadingTrivia()).Where(line => line.Length > 0)
                .Select(line => line[3..^3]).Where(line => !line.StartsWith("SPDX", StringComparison.Ordinal)));
            paragraphs = remark.Length > 0 ? [remark] : [];
        }

        return Comment(paragraphs);
    }

    /// <summary>The documentation in one line, for a member of an enumeration or a part of a struct.</summary>
    public static string InOneLine(ISymbol symbol)
    {
        string text = Paragraphs(symbol).FirstOrDefault() ?? "";
        return text.Length == 0 ? "" : " /* " + text + " */";
    }

    private static IEnumerable<string> Paragraphs(ISymbol symbol)
    {
        string xml = symbol.GetDocumentationCommentXml() ?? "";
        if (xml.Length == 0)
        {
            yield break;
        }

        XElement root = XElement.Parse(xml);
        foreach (XElement part in root.Elements())
        {
            string text = Flat(part);
            if (text.Length == 0)
            {
                continue;
            }

            switch (part.Name.LocalName)
            {
                case "summary" or "remarks" or "value":
                    yield return text;
                    break;
                case "param" when symbol is IMethodSymbol method && Names.Parameters(method).Any(each => each.Name == (string?)part.Attribute("name")):
                    yield return Snake.OfVariable((string)part.Attribute("name")!) + ": " + text;
                    break;
                case "returns":
                    yield return "Returns: " + text;
                    break;
            }
        }
    }

    private static string Flat(XElement element)
    {
        var text = new StringBuilder();
        foreach (XNode node in element.Nodes())
        {
            text.Append(node switch
            {
                XText plain => plain.Value,
                XElement { Name.LocalName: "see" or "seealso" } link => Target(link),
                XElement { Name.LocalName: "paramref" or "typeparamref" } name => Snake.OfVariable((string)name.Attribute("name")!),
                XElement { Name.LocalName: "list" or "para" or "item" or "description" or "term" } inner => " " + Flat(inner) + " ",
                XElement inner => Flat(inner),
                _ => "",
            });
        }

        return string.Join(' ', text.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace("*/", "* /", StringComparison.Ordinal);
    }

    private static string Target(XElement link)
    {
        string name = (string?)link.Attribute("cref") ?? (string?)link.Attribute("langword") ?? "";
        name = name.Contains('(', StringComparison.Ordinal) ? name[..name.IndexOf('(', StringComparison.Ordinal)] : name;
        string last = name[(name.LastIndexOfAny(['.', ':']) + 1)..];
        int generic = last.IndexOf('`', StringComparison.Ordinal);
        return Snake.Of(generic < 0 ? last : last[..generic]);
    }

    /// <summary>Paragraphs as a comment.</summary>
    public static IEnumerable<string> Comment(List<string> paragraphs)
    {
        List<string> lines = [.. paragraphs.SelectMany(Wrapped)];
        if (lines.Count == 0)
        {
            yield break;
        }

        if (lines.Count == 1)
        {
            yield return "/* " + lines[0] + " */";
            yield break;
        }

        yield return "/*";
        foreach (string line in lines)
        {
            yield return " * " + line;
        }

        yield return " */";
    }

    private static IEnumerable<string> Wrapped(string text)
    {
        var line = new StringBuilder();
        foreach (string word in text.Split(' '))
        {
            if (line.Length > 0 && line.Length + word.Length + 1 > Width)
            {
                yield return line.ToString();
                line.Clear();
            }

            line.Append(line.Length > 0 ? " " : "").Append(word);
        }

        yield return line.ToString();
    }
}
