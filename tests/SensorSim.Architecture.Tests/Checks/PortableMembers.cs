// SPDX-License-Identifier: MIT
using Mono.Cecil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Which members of the framework give the same bits on every machine, and which are refused: rule 1.</summary>
/// <remarks>
/// IEEE 754-2019 (5.3 to 5.5) fixes the results of +, -, *, /, square root, rounding to integer, comparison and bit operations. Sine,
/// exponential and the like come from the platform's C library, and differ between libraries and even between CPUs with one library.
/// The operator % on doubles is exact by definition (ISO C, F.10.7.1) and stays allowed.
/// </remarks>
internal static class PortableMembers
{
    /// <summary>Members of System.Math and System.Double with exact or correctly rounded results.</summary>
    private static readonly HashSet<string> ExactMath = new(StringComparer.Ordinal)
    {
        "Abs", "Sqrt", "Floor", "Ceiling", "Truncate", "Min", "Max", "Clamp", "CopySign", "Sign", "DivRem", "BigMul",
    };

    private static readonly HashSet<string> ExactDouble = new(StringComparer.Ordinal)
    {
        "Abs", "Sqrt", "Floor", "Ceiling", "Truncate", "Min", "Max", "Clamp", "CopySign", "Sign", "CompareTo", "Equals",
        "IsNaN", "IsFinite", "IsInfinity", "IsPositiveInfinity", "IsNegativeInfinity", "IsNegative", "IsPositive", "IsNormal",
        "IsSubnormal", "IsInteger", "op_Equality", "op_Inequality", "op_LessThan", "op_GreaterThan",
    };

    private static readonly HashSet<string> BitCasts = new(StringComparer.Ordinal)
    {
        "DoubleToInt64Bits", "DoubleToUInt64Bits", "Int64BitsToDouble", "UInt64BitsToDouble",
    };

    private static readonly HashSet<string> RefusedTypes = new(StringComparer.Ordinal)
    {
        "System.MathF", "System.Single", "System.Half", "System.Decimal", "System.Runtime.InteropServices.NFloat",
        "System.Random", "System.HashCode", "System.Environment", "System.OperatingSystem", "System.TimeProvider", "System.TimeZoneInfo",
        "System.Linq.ParallelEnumerable", "System.Diagnostics.Stopwatch", "System.Diagnostics.Process", "System.Threading.Thread",
        "System.Runtime.InteropServices.RuntimeInformation", "System.Security.Cryptography.RandomNumberGenerator",
    };

    private static readonly HashSet<string> RefusedMembers = new(StringComparer.Ordinal)
    {
        "System.DateTime::get_Now", "System.DateTime::get_UtcNow", "System.DateTime::get_Today", "System.DateTime::ToLocalTime",
        "System.DateTimeOffset::get_Now", "System.DateTimeOffset::get_UtcNow", "System.DateTimeOffset::ToLocalTime",
        "System.Guid::NewGuid", "System.Guid::CreateVersion7",
    };

    /// <summary>Why a member may not be used, or null when it may.</summary>
    /// <param name="member">Method as called.</param>
    /// <param name="isText">Whether the caller is one of the places that read and write numbers as text.</param>
    public static string? Refusal(MethodReference member, bool isText)
    {
        string owner = IlTypes.Name(member.DeclaringType);
        string name = member.Name;
        int count = member.Parameters.Count;
        if (RefusedTypes.Contains(owner) || RefusedMembers.Contains($"{owner}::{name}"))
        {
            return "differs between machines, runs or moments";
        }

        if (name == "GetHashCode")
        {
            return "hash codes differ between runs and machines";
        }

        if (owner.StartsWith("System.Runtime.Intrinsics.", StringComparison.Ordinal))
        {
            return Intrinsics.Refusal(member);
        }

        if (owner.StartsWith("System.Numerics.", StringComparison.Ordinal) && owner != "System.Numerics.BitOperations")
        {
            return "width, order or method of System.Numerics depends on the machine";
        }

        return owner switch
        {
            "System.Math" => ExactMath.Contains(name) || (name == "Round" && count == 1) ? null : "not exact on every machine",
            "System.Double" => ExactDouble.Contains(name) || (name == "Round" && count == 1) ? null : DoubleText(member, isText),
            "System.BitConverter" => BitCasts.Contains(name) ? null : "depends on the byte order of the machine",
            "System.Globalization.CultureInfo" or "System.Globalization.NumberFormatInfo"
                => name is "get_InvariantCulture" or "get_InvariantInfo" ? null : "text must be invariant",
            _ => null,
        };
    }

    private static string? DoubleText(MethodReference member, bool isText)
    {
        if (member.Name is not ("Parse" or "TryParse" or "ToString" or "TryFormat"))
        {
            return "not exact on every machine";
        }

        if (!isText)
        {
            return "numbers become text, and text numbers, only in " + string.Join(" and ", Rooms.TextNamespaces);
        }

        bool hasCulture = member.Parameters.Any(parameter => parameter.ParameterType.FullName == "System.IFormatProvider");
        return hasCulture ? null : "needs CultureInfo.InvariantCulture";
    }
}
