// SPDX-License-Identifier: MIT
namespace SensorSim.TwinWriter.Expressions;

/// <summary>How tightly the outermost part of a C expression binds.</summary>
internal enum Binding
{
    /// <summary>A name, a call, a member, a number.</summary>
    Primary,

    /// <summary>A sign or a cast before a primary.</summary>
    Unary,

    /// <summary>Two operands.</summary>
    Binary,

    /// <summary>A choice.</summary>
    Choice,
}

/// <summary>A C expression.</summary>
/// <param name="Text">Its text.</param>
/// <param name="Binding">How tightly its outermost part binds.</param>
/// <param name="Operator">The operator between its two operands; empty when there are none.</param>
/// <param name="IsWide">Whether C takes it for an int though its C# type is narrower: it needs a cast where it is stored.</param>
internal readonly record struct CExpr(string Text, Binding Binding = Binding.Primary, string Operator = "", bool IsWide = false)
{
    /// <summary>The text, in parentheses unless it binds at least so tightly.</summary>
    public string Within(Binding most) => Binding <= most ? Text : "(" + Text + ")";

    /// <summary>The text as an operand; the same operator on the left needs no parentheses.</summary>
    public string AsOperand(string op, bool isLeft) => Binding <= Binding.Unary || (isLeft && Binding == Binding.Binary && IsChain(op)) ? Text : "(" + Text + ")";

    /// <summary>The address of what the text stands for.</summary>
    public string Address => Text.StartsWith("(*", StringComparison.Ordinal) && ClosesAtEnd(Text) ? Text[2..^1] : "&" + Within(Binding.Primary);

    /// <summary>A member of what the text stands for.</summary>
    public string Member(string name) => Text.StartsWith("(*", StringComparison.Ordinal) && ClosesAtEnd(Text)
        ? Text[2..^1] + "->" + name : Within(Binding.Primary) + "." + name;

    private bool IsChain(string op) => Operator == op ? op is "+" or "-" or "&&" or "||" or "|" or "&" or "*" : Operator is "+" or "-" && op is "+" or "-";

    private static bool ClosesAtEnd(string text)
    {
        int depth = 0;
        for (int i = 0; i < text.Length; i++)
        {
            depth += text[i] == '(' ? 1 : text[i] == ')' ? -1 : 0;
            if (depth == 0)
            {
                return i == text.Length - 1;
            }
        }

        return false;
    }
}
