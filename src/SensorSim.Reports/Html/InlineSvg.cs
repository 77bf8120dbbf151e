// SPDX-License-Identifier: MIT
namespace SensorSim.Reports.Html;

/// <summary>Makes the text of an SVG file part of a page.</summary>
internal static class InlineSvg
{
    private static readonly string[] s_dropped = ["xmlns", "xmlns:xlink", "width", "height"];

    /// <summary>The element without prolog, name spaces and size: the page gives it its width. Names inside get a prefix, so that no two pictures share one.</summary>
    internal static string Of(string svg, string prefix)
    {
        int from = svg.IndexOf("<svg", StringComparison.Ordinal);
        int open = from < 0 ? -1 : svg.IndexOf('>', from);
        if (open < 0)
        {
            throw new InvalidOperationException("This is no SVG.");
        }

        string head = svg[from..open];
        foreach (string name in s_dropped)
        {
            head = Without(head, name);
        }

        string rest = svg[open..].TrimEnd()
            .Replace("id=\"cl_", $"id=\"{prefix}cl_", StringComparison.Ordinal)
            .Replace("url(#cl_", $"url(#{prefix}cl_", StringComparison.Ordinal);
        return head + rest;
    }

    private static string Without(string head, string name)
    {
        string key = $" {name}=\"";
        int at = head.IndexOf(key, StringComparison.Ordinal);
        return at < 0 ? head : head.Remove(at, head.IndexOf('"', at + key.Length) + 1 - at);
    }
}
