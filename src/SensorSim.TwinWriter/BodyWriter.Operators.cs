// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter;

/// <content>Operators: what C leaves open or undefined goes through helpers of sensorsim_runtime.h.</content>
internal sealed partial class BodyWriter
{
    private static string OperatorText(IBinaryOperation binary) => OperatorText(binary.OperatorKind, binary);

    private static string OperatorText(BinaryOperatorKind kind, IOperation where) => kind switch
    {
        BinaryOperatorKind.Add => "+",
        BinaryOperatorKind.Subtract => "-",
        BinaryOperatorKind.Multiply => "*",
        BinaryOperatorKind.Divide => "/",
        BinaryOperatorKind.Remainder => "%",
        BinaryOperatorKind.And => "&",
        BinaryOperatorKind.Or => "|",
        BinaryOperatorKind.ExclusiveOr => "^",
        BinaryOperatorKind.LeftShift => "<<",
        BinaryOperatorKind.RightShift or BinaryOperatorKind.UnsignedRightShift => ">>",
        BinaryOperatorKind.ConditionalAnd => "&&",
        BinaryOperatorKind.ConditionalOr => "||",
        BinaryOperatorKind.Equals => "==",
        BinaryOperatorKind.NotEquals => "!=",
        BinaryOperatorKind.LessThan => "<",
        BinaryOperatorKind.LessThanOrEqual => "<=",
        BinaryOperatorKind.GreaterThan => ">",
        BinaryOperatorKind.GreaterThanOrEqual => ">=",
        _ => throw new RefusalException(where.Syntax, $"the operator {kind} has no translation into C"),
    };

    private CExpr BinaryOf(IBinaryOperation binary)
    {
        if (binary.OperatorMethod is not null || binary.IsLifted || !IsValue(binary.LeftOperand.Type!) || !IsValue(binary.RightOperand.Type!))
        {
            throw Unknown(binary);
        }

        if (binary.OperatorKind is BinaryOperatorKind.ConditionalAnd or BinaryOperatorKind.ConditionalOr)
        {
            return ShortCut(binary);
        }

        CExpr[] parts = InOrder(
            binary, (binary.LeftOperand, () => Expr(binary.LeftOperand), false), (binary.RightOperand, () => Expr(binary.RightOperand), false));
        return Joined(binary.OperatorKind, parts[0], parts[1], binary.LeftOperand.Type!, binary.RightOperand, binary.IsChecked, binary);
    }

    private static bool IsValue(ITypeSymbol type) => TypeFacts.IsInteger(type) || type.SpecialType == SpecialType.System_Boolean;

    private static CExpr Joined(
        BinaryOperatorKind kind, CExpr left, CExpr right, ITypeSymbol type, IOperation rightOperand, bool isChecked, IOperation where)
    {
        string op = OperatorText(kind, where);
        bool isShift = kind is BinaryOperatorKind.LeftShift or BinaryOperatorKind.RightShift or BinaryOperatorKind.UnsignedRightShift;
        if (isShift)
        {
            return Shifted(kind, left, right, type, rightOperand, where);
        }

        bool isArithmetic = kind is BinaryOperatorKind.Add or BinaryOperatorKind.Subtract or BinaryOperatorKind.Multiply;
        if (isArithmetic && !isChecked && TypeFacts.IsSigned(type))
        {
            string name = kind == BinaryOperatorKind.Add ? "add" : kind == BinaryOperatorKind.Subtract ? "sub" : "mul";
            return new CExpr(FormattableString.Invariant($"ss_wrap_{name}{WordOf(type, where)}({left.Text}, {right.Text})"));
        }

        return new CExpr($"{left.AsOperand(op, true)} {op} {right.AsOperand(op, false)}", Binding.Binary, op, IsWide: TypeFacts.IsNarrow(type));
    }

    private static int WordOf(ITypeSymbol type, IOperation where) => TypeFacts.Bits(type) >= 32 ? TypeFacts.Bits(type) : throw Unknown(where);

    // C# takes the count modulo the width; C lets anything happen beyond it, and with a negative number on the left.
    private static CExpr Shifted(BinaryOperatorKind kind, CExpr left, CExpr right, ITypeSymbol type, IOperation count, IOperation where)
    {
        int bits = WordOf(type, where);
        bool isFixed = count.ConstantValue is { HasValue: true, Value: int fixedCount } && fixedCount >= 0 && fixedCount < bits;
        bool isSigned = TypeFacts.IsSigned(type);
        if (!isSigned && isFixed)
        {
            string op = kind == BinaryOperatorKind.LeftShift ? "<<" : ">>";
            return new CExpr($"{left.AsOperand(op, false)} {op} {right.AsOperand(op, false)}", Binding.Binary, op);
        }

        string name = kind switch
        {
            BinaryOperatorKind.LeftShift => "left",
            BinaryOperatorKind.RightShift => "right",
            _ => "right_zero",
        };
        string sign = isSigned ? "" : "u";
        return new CExpr(FormattableString.Invariant($"ss_shift_{name}{sign}{bits}({left.Text}, {right.Text})"));
    }

    // The right side is computed only when the left one leaves it open.
    private CExpr ShortCut(IBinaryOperation binary)
    {
        string op = OperatorText(binary);
        CExpr left = Expr(binary.LeftOperand);
        (CExpr right, List<Line> lines) = _out.Aside(() => Expr(binary.RightOperand));
        if (lines.Count == 0)
        {
            return new CExpr($"{left.AsOperand(op, true)} {op} {right.AsOperand(op, false)}", Binding.Binary, op);
        }

        string name = _locals.Fresh("is_so");
        _out.Add($"bool {name} = {left.Text};");
        _out.Add(op == "&&" ? $"if ({name}) {{" : $"if (!{name}) {{");
        _out.Indent++;
        _out.AddAll(lines);
        _out.Add($"{name} = {right.Text};");
        _out.Indent--;
        _out.Add("}");
        return new CExpr(name);
    }

    private CExpr UnaryOf(IUnaryOperation unary)
    {
        if (unary.OperatorMethod is not null || unary.IsLifted)
        {
            throw Unknown(unary);
        }

        CExpr operand = Expr(unary.Operand);
        bool isWrapping = unary.OperatorKind == UnaryOperatorKind.Minus && !unary.IsChecked && TypeFacts.IsSigned(unary.Type!);
        return unary.OperatorKind switch
        {
            UnaryOperatorKind.Minus when isWrapping => new CExpr(FormattableString.Invariant($"ss_wrap_neg{WordOf(unary.Type!, unary)}({operand.Text})")),
            UnaryOperatorKind.Minus => new CExpr("-" + operand.Within(Binding.Primary), Binding.Unary),
            UnaryOperatorKind.Not => new CExpr("!" + operand.Within(Binding.Primary), Binding.Unary),
            UnaryOperatorKind.BitwiseNegation => new CExpr("~" + operand.Within(Binding.Primary), Binding.Unary, IsWide: TypeFacts.IsNarrow(unary.Type!)),
            _ => throw Unknown(unary),
        };
    }

    private CExpr ChoiceOf(IConditionalOperation choice)
    {
        if (choice.IsRef || choice.WhenFalse is null)
        {
            throw Unknown(choice);
        }

        CExpr condition = Expr(choice.Condition);
        (CExpr yes, List<Line> yesLines) = _out.Aside(() => Expr(choice.WhenTrue));
        (CExpr no, List<Line> noLines) = _out.Aside(() => Expr(choice.WhenFalse));
        ITypeSymbol type = choice.Type!;
        if (yesLines.Count + noLines.Count == 0)
        {
            return new CExpr($"{condition.Within(Binding.Unary)} ? {yes.Within(Binding.Unary)} : {no.Within(Binding.Unary)}", Binding.Choice, IsWide: TypeFacts.IsNarrow(type));
        }

        string name = _locals.Fresh("chosen");
        _out.Add($"{TypeName(type)} {name};");
        Branch(condition, name, Stored(yes, type), yesLines, "if (" + condition.Text + ") {");
        Branch(condition, name, Stored(no, type), noLines, "else {");
        return new CExpr(name);
    }

    private void Branch(CExpr condition, string name, CExpr value, List<Line> lines, string head)
    {
        _out.Add(head);
        _out.Indent++;
        _out.AddAll(lines);
        _out.Add($"{name} = {value.Text};");
        _out.Indent--;
        _out.Add("}");
    }

    private CExpr IncrementValue(IIncrementOrDecrementOperation increment)
    {
        CExpr target = Place(increment.Target);
        if (increment.IsPostfix)
        {
            CExpr before = Keep(target, increment.Type!, WishFor(increment.Target));
            Increment(increment, target);
            return before;
        }

        Increment(increment, target);
        return target;
    }

    private void Increment(IIncrementOrDecrementOperation increment, CExpr target)
    {
        if (increment.OperatorMethod is not null || !TypeFacts.IsInteger(increment.Type!) || HasChangingCall(increment.Target))
        {
            throw Unknown(increment);
        }

        bool isUp = increment.Kind == OperationKind.Increment;
        if (!increment.IsChecked && TypeFacts.IsSigned(increment.Type!) && !TypeFacts.IsNarrow(increment.Type!))
        {
            _out.Add(FormattableString.Invariant($"{target.Text} = ss_wrap_{(isUp ? "add" : "sub")}{TypeFacts.Bits(increment.Type!)}({target.Text}, 1);"));
            return;
        }

        _out.Add(target.Text + (isUp ? "++;" : "--;"));
    }

    private bool HasChangingCall(IOperation operation) =>
        operation.Descendants().OfType<IInvocationOperation>().Any(call => _effects.Of(call).HasEffect);
}
