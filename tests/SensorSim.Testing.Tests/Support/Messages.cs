// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.RegularExpressions;
using NUnit.Framework.Constraints;
using NUnit.Framework.Internal;

namespace SensorSim.Testing.Tests.Support;

/// <summary>What a constraint says when a test fails.</summary>
internal static class Messages
{
    /// <summary>Message of a constraint that must fail.</summary>
    public static string OfFailure(object actual, IConstraint constraint)
    {
        ConstraintResult result = constraint.ApplyTo(actual);
        Assert.That(result.IsSuccess, Is.False, "it should fail");
        using var writer = new TextMessageWriter();
        result.WriteMessageTo(writer);
        return writer.ToString();
    }

    /// <summary>The numbers that a pattern finds in a text, one a group.</summary>
    public static double[] Numbers(string text, string pattern)
    {
        Match match = Regex.Match(text, pattern);
        Assert.That(match.Success, Is.True, $"{pattern} in: {text}");
        return [.. match.Groups.Cast<Group>().Skip(1).Select(g => double.Parse(g.Value, CultureInfo.InvariantCulture))];
    }
}
