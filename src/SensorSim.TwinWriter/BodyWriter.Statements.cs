// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.TwinWriter;

/// <content>Statements.</content>
internal sealed partial class BodyWriter
{
    /// <summary>Writes the body.</summary>
    /// <returns>Its lines, one level deep.</returns>
    public IReadOnlyList<Line> Write()
    {
        _out.Indent = 1;
        if (_method.Symbol.MethodKind == MethodKind.Constructor)
        {
            WriteConstructor();
            return _out.Lines;
        }

        switch (_method.Body)
        {
            case IMethodBodyOperation { BlockBody: IBlockOperation block }:
                Statements(block);
                break;
            case IMethodBodyOperation { ExpressionBody: IBlockOperation block }:
                Statements(block);
                break;
            case IBlockOperation block:
                Statements(block);
                break;
            default:
                throw new RefusalException(_method.Syntax, "this body has no translation into C");
        }

        return _out.Lines;
    }

    private void Statements(IBlockOperation block)
    {
        foreach (IOperation statement in block.Operations)
        {
            Statement(statement);
        }

        foreach (string comment in Comments.AtEnd(block.Syntax))
        {
            _out.Add(comment);
        }
    }

    private void Statement(IOperation statement)
    {
        if (statement is IConditionalOperation { WhenFalse: null } choice && Lanes.AreAskedFor(choice.Condition))
        {
            return;
        }

        foreach (string comment in Comments.Before(statement.Syntax))
        {
            _out.Add(comment);
        }

        using (_out.BeginStatement())
        {
            StatementItself(statement);
        }
    }

    private void StatementItself(IOperation statement)
    {
        switch (statement)
        {
            case IBlockOperation block:
                Nested("{", block);
                break;
            case IVariableDeclarationGroupOperation group:
                foreach (IVariableDeclaratorOperation declarator in group.Declarations.SelectMany(each => each.Declarators))
                {
                    Declaration(declarator);
                }

                break;
            case IExpressionStatementOperation expression:
                Effect(expression.Operation);
                break;
            case IConditionalOperation choice:
                If(choice);
                break;
            case IReturnOperation result:
                Return(result);
                break;
            case IBranchOperation { BranchKind: BranchKind.Break }:
                _out.Add("break;");
                break;
            case IBranchOperation { BranchKind: BranchKind.Continue }:
                _out.Add("continue;");
                break;
            case IForLoopOperation loop:
                For(loop);
                break;
            case IWhileLoopOperation loop:
                While(loop);
                break;
            case IForEachLoopOperation loop:
                ForEach(loop);
                break;
            case ISwitchOperation choice:
                Switch(choice);
                break;
            case IEmptyOperation:
                break;
            default:
                throw Unknown(statement);
        }
    }

    private void Nested(string head, IOperation body)
    {
        _out.Add(head);
        _out.Indent++;
        _locals.Push();
        if (body is IBlockOperation block)
        {
            Statements(block);
        }
        else
        {
            Statement(body);
        }

        _locals.Pop();
        _out.Indent--;
        _out.Add("}");
    }

    private void Declaration(IVariableDeclaratorOperation declarator)
    {
        ILocalSymbol local = declarator.Symbol;
        // A local constant stands as its number wherever it is named.
        if (TypeFacts.IsProbe(local.Type) || local.IsConst)
        {
            return;
        }

        IOperation? value = (declarator.Initializer ?? (declarator.Parent as IVariableDeclarationOperation)?.Initializer)?.Value;
        if (local.RefKind != RefKind.None)
        {
            string constant = local.RefKind == RefKind.RefReadOnly ? "const " : "";
            string address = AddressOf(value ?? throw Unknown(declarator));
            _out.Add($"{constant}{TypeName(local.Type)} *{_locals.Declare(local)} = {address};");
            return;
        }

        if (value is null)
        {
            _out.Add($"{TypeName(local.Type)} {_locals.Declare(local)};");
            return;
        }

        string text = value is IDefaultValueOperation && TypeFacts.IsStruct(local.Type) ? "{ 0 }" : Stored(Expr(value), local.Type).Text;
        _out.Add($"{TypeName(local.Type)} {_locals.Declare(local)} = {text};");
    }

    // A statement that is an expression: only what it changes counts.
    private void Effect(IOperation operation)
    {
        switch (operation)
        {
            case ISimpleAssignmentOperation assignment:
                Assign(assignment);
                break;
            case IDeconstructionAssignmentOperation { Target: ITupleOperation targets } exchange:
                Exchange(targets, exchange.Value is IConversionOperation { Operand: IOperation inner } ? inner : exchange.Value);
                break;
            case ICompoundAssignmentOperation assignment:
                Compound(assignment);
                break;
            case IIncrementOrDecrementOperation increment:
                Increment(increment, Place(increment.Target));
                break;
            case IInvocationOperation call when TypeFacts.IsProbe(call.Instance?.Type):
                if (call.Arguments.Any(argument => _effects.Of(argument.Value).HasEffect))
                {
                    throw new RefusalException(call.Syntax, "the probe would see a value whose computing changes something; compute it before");
                }

                break;
            case IInvocationOperation call:
                _out.Add((call.Type!.SpecialType == SpecialType.System_Void ? "" : "(void)") + Expr(call).Text + ";");
                break;
            default:
                throw Unknown(operation);
        }
    }

    private void If(IConditionalOperation choice)
    {
        IOperation? at = choice;
        bool isFirst = true;
        while (at is IConditionalOperation step)
        {
            if (Lanes.AreAskedFor(step.Condition))
            {
                at = step.WhenFalse;
                continue;
            }

            (CExpr condition, List<Line> lines) = _out.Aside(() => Expr(step.Condition));
            if (!isFirst && lines.Count > 0)
            {
                // What the second condition needs is computed only when the first one did not hold.
                _out.Add("else {");
                _out.Indent++;
                _locals.Push();
                Statement(step);
                _locals.Pop();
                _out.Indent--;
                _out.Add("}");
                return;
            }

            _out.AddAll(lines);
            Nested((isFirst ? "if (" : "else if (") + condition.Text + ") {", step.WhenTrue);
            isFirst = false;
            at = step.WhenFalse;
        }

        if (at is not null)
        {
            Nested(isFirst ? "{" : "else {", at);
        }
    }

    private void Return(IReturnOperation result)
    {
        if (result.ReturnedValue is null)
        {
            _out.Add("return;");
            return;
        }

        IMethodSymbol method = _method.Symbol;
        string text = method.RefKind == RefKind.None ? Stored(Expr(result.ReturnedValue), method.ReturnType).Text : AddressOf(result.ReturnedValue);
        Use(method.ReturnType);
        _out.Add($"return {text};");
    }
}
