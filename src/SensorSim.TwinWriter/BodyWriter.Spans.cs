// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter;

/// <content>Views of consecutive values: a pointer and a length.</content>
internal sealed partial class BodyWriter
{
    private CExpr SpanProperty(IPropertyReferenceOperation reference)
    {
        IOperation instance = reference.Instance ?? throw Unknown(reference);
        switch (reference.Property.Name)
        {
            case "Length":
                return new CExpr(View(instance).Member("length"));
            case "IsEmpty":
                return new CExpr(View(instance).Member("length") + " == 0", Binding.Binary, "==");
            case "this[]":
                IOperation index = reference.Arguments[0].Value;
                if (instance is IPropertyReferenceOperation { Property: IPropertySymbol property } && _twin.FindTable(property) is TwinTable)
                {
                    Tables.Add(property);
                    return new CExpr($"{_names.Table(property)}[{Expr(index).Text}]");
                }

                CExpr[] parts = InOrder(reference, (instance, () => View(instance), true), (index, () => Index(index), false));
                return new CExpr($"{parts[0].Member("at")}[{parts[1].Text}]");
            default:
                throw Unknown(reference);
        }
    }

    // A view that is more than a name becomes a variable, so that its parts can be named.
    private CExpr View(IOperation operation) =>
        IsVariable(operation) ? Expr(operation) : Keep(Expr(operation), operation.Type!, "view");

    private CExpr SpanCall(IInvocationOperation call)
    {
        if (call.TargetMethod.Name != "Slice" || call.Instance is null)
        {
            throw Unknown(call);
        }

        CExpr[] parts = InOrder(
            call, [(call.Instance, () => Expr(call.Instance), false), .. call.Arguments.Select(each => (each.Value, (Func<CExpr>)(() => Expr(each.Value)), false))]);
        string view = _names.View(call.Instance.Type!);
        return parts.Length == 3
            ? new CExpr($"{view}_slice({parts[0].Text}, {parts[1].Text}, {parts[2].Text})")
            : new CExpr($"{view}_from({parts[0].Text}, {parts[1].Text})");
    }

    private CExpr Sliced(IImplicitIndexerReferenceOperation slice)
    {
        if (!TypeFacts.IsSpan(slice.Instance.Type) || slice.Argument is not IRangeOperation range || IsFromEnd(range.LeftOperand) || IsFromEnd(range.RightOperand))
        {
            throw Unknown(slice);
        }

        string view = _names.View(slice.Instance.Type!);
        IOperation? from = Bound(range.LeftOperand);
        IOperation? until = Bound(range.RightOperand);
        if (from is not null && until is not null)
        {
            throw new RefusalException(slice.Syntax, "a range with both ends has no translation into C; use Slice");
        }

        IOperation end = from ?? until ?? throw Unknown(slice);
        CExpr[] parts = InOrder(slice, (slice.Instance, () => Expr(slice.Instance), false), (end, () => Expr(end), false));
        return from is not null
            ? new CExpr($"{view}_from({parts[0].Text}, {parts[1].Text})") : new CExpr($"{view}_slice({parts[0].Text}, 0, {parts[1].Text})");
    }

    private static bool IsFromEnd(IOperation? bound) =>
        bound is not null && bound.DescendantsAndSelf().Any(each => each is IUnaryOperation { OperatorKind: UnaryOperatorKind.Hat });

    // An end of a range is an int that became an Index.
    private static IOperation? Bound(IOperation? bound) => bound switch
    {
        null => null,
        IConversionOperation { Type.Name: "Index" } conversion => conversion.Operand,
        _ => throw Unknown(bound),
    };

    private CExpr SpanOf(IOperation operand, ITypeSymbol to)
    {
        ITypeSymbol from = operand.Type ?? to;
        string view = _names.View(to);
        if (SymbolEqualityComparer.Default.Equals(from, to))
        {
            return Expr(operand);
        }

        int length = TypeFacts.InlineLength(from);
        if (length > 0)
        {
            Use(from);
            return new CExpr(FormattableString.Invariant($"{view}_of({Place(operand).Member("at")}, {length})"));
        }

        if (TypeFacts.IsSpan(from))
        {
            CExpr source = View(operand);
            return new CExpr($"{view}_of({source.Member("at")}, {source.Member("length")})");
        }

        throw Unknown(operand);
    }
}
