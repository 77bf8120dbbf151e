// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Reading;
using SensorSim.TwinWriter.Statements;
using SensorSim.TwinWriter.Writing;

namespace SensorSim.TwinWriter;

/// <content>Loops and switches.</content>
internal sealed partial class BodyWriter
{
    private void For(IForLoopOperation loop)
    {
        _locals.Push();
        string start = Join(loop.Before, loop);
        (CExpr? condition, List<Line> lines) = _out.Aside(() => loop.Condition is null ? (CExpr?)null : Expr(loop.Condition));
        string step = Join(loop.AtLoopBottom, loop);
        if (lines.Count == 0)
        {
            Nested($"for ({start}; {condition?.Text}; {step}) {{", loop.Body);
        }
        else
        {
            Looping($"for ({start}; ; {step}) {{", lines, condition!.Value, loop.Body);
        }

        _locals.Pop();
    }

    // Statements that fit into the head of a loop.
    private string Join(IReadOnlyList<IOperation> statements, IOperation where)
    {
        (_, List<Line> lines) = _out.Aside(() =>
        {
            foreach (IOperation statement in statements)
            {
                Statement(statement);
            }

            return 0;
        });
        string[] texts = [.. lines.Select(line => line.Text.TrimEnd(';'))];
        bool isDeclaration = statements is [IVariableDeclarationGroupOperation];
        if (isDeclaration && texts.Length > 1)
        {
            string type = texts[0][..texts[0].IndexOf(' ', StringComparison.Ordinal)];
            string[] rest = [.. texts[1..].Select(text => text.StartsWith(type + " ", StringComparison.Ordinal) ? text[(type.Length + 1)..] : "{")];
            texts = [texts[0], .. rest];
        }

        if (texts.Any(text => text.Contains('{', StringComparison.Ordinal) || text.Contains(';', StringComparison.Ordinal)) || (!isDeclaration && texts.Length > statements.Count))
        {
            throw new RefusalException(where.Syntax, "the head of this loop does not fit into one of C; move parts of it out");
        }

        return string.Join(", ", texts);
    }

    private void Looping(string head, List<Line> lines, CExpr condition, IOperation body)
    {
        _out.Add(head);
        _out.Indent++;
        _locals.Push();
        _out.AddAll(lines);
        _out.Add($"if (!{condition.Within(Binding.Primary)}) {{");
        _out.Indent++;
        _out.Add("break;");
        _out.Indent--;
        _out.Add("}");
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

    private void While(IWhileLoopOperation loop)
    {
        if (loop.ConditionIsUntil || loop.Condition is null)
        {
            throw Unknown(loop);
        }

        if (!loop.ConditionIsTop)
        {
            DoWhile(loop);
            return;
        }

        (CExpr condition, List<Line> lines) = _out.Aside(() => Expr(loop.Condition));
        if (lines.Count == 0)
        {
            Nested($"while ({condition.Text}) {{", loop.Body);
        }
        else
        {
            Looping("while (true) {", lines, condition, loop.Body);
        }
    }

    private void DoWhile(IWhileLoopOperation loop)
    {
        Nested("do {", loop.Body);
        (CExpr condition, List<Line> lines) = _out.Aside(() => Expr(loop.Condition!));
        if (lines.Count > 0)
        {
            throw new RefusalException(loop.Condition!.Syntax, "the condition at the end of this loop needs lines of its own in C; compute it in the loop");
        }

        _out.Add($"while ({condition.Text});");
    }

    private void ForEach(IForEachLoopOperation loop)
    {
        IOperation collection = loop.Collection is IConversionOperation { IsImplicit: true } conversion && TypeFacts.IsSpan(conversion.Operand.Type)
            ? conversion.Operand : loop.Collection;
        if (!TypeFacts.IsSpan(collection.Type) || loop.LoopControlVariable is not IVariableDeclaratorOperation { Symbol.RefKind: RefKind.None } variable)
        {
            throw Unknown(loop);
        }

        _locals.Push();
        CExpr view = Keep(Expr(collection), collection.Type!, "each");
        string at = _locals.Fresh("at");
        _out.Add($"for (int32_t {at} = 0; {at} < {view.Member("length")}; {at}++) {{");
        _out.Indent++;
        _out.Add($"{TypeName(variable.Symbol.Type)} {_locals.Declare(variable.Symbol)} = {view.Member("at")}[{at}];");
        _locals.Push();
        Statements((IBlockOperation)loop.Body);
        _locals.Pop();
        _out.Indent--;
        _out.Add("}");
        _locals.Pop();
    }

    private void Switch(ISwitchOperation choice)
    {
        CExpr value = Simple(choice.Value);
        _out.Add($"switch ({value.Text}) {{");
        _out.Indent++;
        foreach (ISwitchCaseOperation section in choice.Cases)
        {
            foreach (ICaseClauseOperation clause in section.Clauses)
            {
                foreach (string comment in Comments.Before(clause.Syntax))
                {
                    _out.Add(comment);
                }

                _out.Add(clause switch
                {
                    ISingleValueCaseClauseOperation single => $"case {Expr(single.Value).Text}:",
                    IDefaultCaseClauseOperation => "default:",
                    _ => throw Unknown(clause),
                });
            }

            _out.Indent++;
            _locals.Push();
            foreach (IOperation statement in section.Body)
            {
                Statement(statement);
            }

            _locals.Pop();
            _out.Indent--;
        }

        _out.Indent--;
        _out.Add("}");
    }
}
