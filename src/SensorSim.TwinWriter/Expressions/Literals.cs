// SPDX-License-Identifier: MIT
using System.Globalization;
using Microsoft.CodeAnalysis;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter.Expressions;

/// <summary>Constants as C numbers.</summary>
internal static class Literals
{
    /// <summary>A value of a type.</summary>
    /// <param name="value">The value, as the compiler tells it.</param>
    /// <param name="type">The type.</param>
    /// <param name="written">How the source writes it; empty when it does not.</param>
    /// <returns>The C number; null when the type is none that C has.</returns>
    public static CExpr? Of(object? value, ITypeSymbol type, string written = "")
    {
        if (value is bool flag)
        {
            return new CExpr(flag ? "true" : "false");
        }

        if (value is null || !TypeFacts.IsInteger(type))
        {
            return null;
        }

        decimal number = Convert.ToDecimal(value, CultureInfo.InvariantCulture);
        string digits = Digits(number, written);
        return TypeFacts.Integer(type) switch
        {
            SpecialType.System_UInt32 => new CExpr($"UINT32_C({digits})"),
            SpecialType.System_UInt64 => new CExpr($"UINT64_C({digits})"),
            SpecialType.System_Int64 => number switch
            {
                long.MinValue => new CExpr("INT64_MIN"),
                long.MaxValue => new CExpr("INT64_MAX"),
                < 0 => new CExpr($"-INT64_C({digits})", Binding.Unary),
                _ => new CExpr($"INT64_C({digits})"),
            },
            _ => number switch
            {
                int.MinValue => new CExpr("INT32_MIN"),
                int.MaxValue => new CExpr("INT32_MAX"),
                < 0 => new CExpr("-" + digits, Binding.Unary),
                _ => new CExpr(digits),
            },
        };
    }

    private static string Digits(decimal number, string written)
    {
        string plain = written.Replace("_", "", StringComparison.Ordinal).TrimEnd('u', 'U', 'l', 'L');
        return plain.StartsWith("0x", StringComparison.OrdinalIgnoreCase) && number >= 0
            ? "0x" + plain[2..].ToUpperInvariant() : Math.Abs(number).ToString(CultureInfo.InvariantCulture);
    }
}
