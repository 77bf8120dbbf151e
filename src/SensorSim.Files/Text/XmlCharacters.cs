// SPDX-License-Identifier: MIT
using System.Text;
using System.Xml;

namespace SensorSim.Files.Text;

/// <summary>Text for XML 1.0.</summary>
internal static class XmlCharacters
{
    /// <summary>The text with U+FFFD in place of each character that XML 1.0 does not allow.</summary>
    /// <param name="text">The text.</param>
    public static string Allowed(string text)
    {
        var allowed = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; i++)
        {
            if (XmlConvert.IsXmlChar(text[i]))
            {
                allowed.Append(text[i]);
            }
            else if (i + 1 < text.Length && XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i]))
            {
                allowed.Append(text[i]).Append(text[++i]);
            }
            else
            {
                allowed.Append('\uFFFD');
            }
        }

        return allowed.ToString();
    }
}
