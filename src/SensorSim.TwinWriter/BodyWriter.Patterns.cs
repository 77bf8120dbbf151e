// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;

namespace SensorSim.TwinWriter;

/// <content>Patterns and choices among them.</content>
internal sealed partial class BodyWriter
{
    private CExpr Pattern(IIsPatternOperation pattern)
    {
        CExpr value = Simple(pattern.Value);
        return Test(value, pattern.Pattern);
    }

    // What is asked several times is computed once.
    private CExpr Simple(IOperation operation)
    {
        bool isSimple = IsVariable(operation) && !operation.DescendantsAndSelf().OfType<IInvocationOperation>().Any();
        return isSimple ? Expr(operation) : Keep(Expr(operation), operation.Type!, WishFor(operation));
    }

    private CExpr Test(CExpr value, IPatternOperation pattern)
    {
        switch (pattern)
        {
            case IConstantPatternOperation constant:
                return Compared(value, "==", constant.Value);
            case IRelationalPatternOperation relation:
                return Compared(value, OperatorText(relation.OperatorKind, relation), relation.Value);
            case IBinaryPatternOperation both when both.OperatorKind is BinaryOperatorKind.And or BinaryOperatorKind.Or:
                string op = both.OperatorKind == BinaryOperatorKind.And ? "&&" : "||";
                return new CExpr(
                    $"{Test(value, both.LeftPattern).AsOperand(op, true)} {op} {Test(value, both.RightPattern).AsOperand(op, false)}", Binding.Binary, op);
            case INegatedPatternOperation not:
                return new CExpr("!" + Test(value, not.Pattern).Within(Binding.Primary), Binding.Unary);
            default:
                throw Unknown(pattern);
        }
    }

    private CExpr Compared(CExpr value, string op, IOperation constant) =>
        new($"{value.AsOperand(op, true)} {op} {Expr(constant).AsOperand(op, false)}", Binding.Binary, op);

    private CExpr SwitchChoice(ISwitchExpressionOperation choice)
    {
        CExpr value = Simple(choice.Value);
        ISwitchExpressionArmOperation last = choice.Arms[^1];
        if (last.Pattern is not IDiscardPatternOperation)
        {
            throw new RefusalException(choice.Syntax, "a switch expression needs a last arm _ to have a translation into C");
        }

        ITypeSymbol type = choice.Type!;
        CExpr result = Arm(last);
        foreach (ISwitchExpressionArmOperation arm in choice.Arms.Reverse().Skip(1))
        {
            CExpr yes = Arm(arm);
            string test = Test(value, arm.Pattern).Within(Binding.Unary);
            result = new CExpr($"{test} ? {yes.Within(Binding.Unary)} : {result.Within(Binding.Unary)}", Binding.Choice, IsWide: TypeFacts.IsNarrow(type));
        }

        return result;
    }

    private CExpr Arm(ISwitchExpressionArmOperation arm)
    {
        if (arm.Guard is not null)
        {
            throw Unknown(arm.Guard);
        }

        (CExpr value, List<Line> lines) = _out.Aside(() => Expr(arm.Value));
        return lines.Count == 0 ? value : throw new RefusalException(arm.Syntax, "an arm that changes something has no translation into C; use if and else");
    }
}
