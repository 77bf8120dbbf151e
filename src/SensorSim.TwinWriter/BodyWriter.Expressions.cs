// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter;

/// <content>Expressions: names, numbers, parts, conversions.</content>
internal sealed partial class BodyWriter
{
    private CExpr Expr(IOperation operation) => Constant(operation) ?? operation switch
    {
        IConversionOperation conversion => Conversion(conversion),
        ILocalReferenceOperation local => Local(local.Local),
        IParameterReferenceOperation parameter => Parameter(parameter.Parameter),
        IInstanceReferenceOperation => Self(),
        IFieldReferenceOperation field => Field(field),
        IPropertyReferenceOperation property => Property(property),
        IInlineArrayAccessOperation access => Entry(access),
        IImplicitIndexerReferenceOperation slice => Sliced(slice),
        IBinaryOperation binary => BinaryOf(binary),
        IUnaryOperation unary => UnaryOf(unary),
        IConditionalOperation choice => ChoiceOf(choice),
        IInvocationOperation call => Invocation(call),
        IObjectCreationOperation creation => Creation(creation),
        IDefaultValueOperation value => new CExpr($"({TypeName(value.Type!)}){{ 0 }}", Binding.Unary),
        IWithOperation with => With(with),
        IIsPatternOperation pattern => Pattern(pattern),
        ISwitchExpressionOperation choice => SwitchChoice(choice),
        IIncrementOrDecrementOperation increment => IncrementValue(increment),
        IDeclarationExpressionOperation declaration => Declared(declaration),
        IParenthesizedOperation inner => Expr(inner.Operand),
        _ => throw Unknown(operation),
    };

    private static RefusalException Unknown(IOperation operation) =>
        new(operation.Syntax, $"'{operation.Syntax}' is {operation.Kind}, which has no translation into C");

    // A number; where the source names it, by its name.
    private CExpr? Constant(IOperation operation)
    {
        if (!operation.ConstantValue.HasValue)
        {
            return null;
        }

        CExpr? named = operation switch
        {
            IFieldReferenceOperation field when _twin.Types.Contains(field.Field.ContainingType, SymbolEqualityComparer.Default) => NamedConstant(field.Field),
            IConversionOperation conversion when IsNamed(conversion.Operand) && TypeFacts.IsInteger(conversion.Type!) => ConstantCast(conversion),
            IBinaryOperation binary when IsPlainArithmetic(binary) => Plain(binary),
            _ => null,
        };
        string written = operation.Syntax is LiteralExpressionSyntax literal ? literal.Token.Text : "";
        return named ?? Literals.Of(operation.ConstantValue.Value, operation.Type!, written) ?? throw Unknown(operation);
    }

    private bool IsNamed(IOperation operation) => operation.DescendantsAndSelf().OfType<IFieldReferenceOperation>()
        .Any(field => _twin.Types.Contains(field.Field.ContainingType, SymbolEqualityComparer.Default));

    private CExpr NamedConstant(IFieldSymbol field)
    {
        Use(field.ContainingType);
        return new CExpr(_names.Constant(field));
    }

    private CExpr ConstantCast(IConversionOperation conversion)
    {
        CExpr inner = Expr(conversion.Operand);
        bool isPlain = TypeFacts.Bits(conversion.Type!) < 32 || TypeFacts.Integer(conversion.Type!) == SpecialType.System_Int32;
        return isPlain && TypeFacts.Bits(conversion.Operand.Type!) <= 32 ? inner : Cast(inner, conversion.Type!);
    }

    // Arithmetic of constants that C does the same way, so that the reader sees where a number comes from.
    private static bool IsPlainArithmetic(IBinaryOperation binary)
    {
        if (!TypeFacts.IsInteger(binary.Type!) || !IsNotNegative(binary) || !IsNotNegative(binary.LeftOperand) || !IsNotNegative(binary.RightOperand))
        {
            return false;
        }

        return binary.OperatorKind is BinaryOperatorKind.Add or BinaryOperatorKind.Subtract or BinaryOperatorKind.Multiply or BinaryOperatorKind.LeftShift
            or BinaryOperatorKind.Or;
    }

    private static bool IsNotNegative(IOperation operation) =>
        operation.ConstantValue is { HasValue: true, Value: not null and not bool } && Convert.ToDecimal(operation.ConstantValue.Value, null) >= 0;

    private CExpr Plain(IBinaryOperation binary)
    {
        string op = OperatorText(binary);
        return new CExpr($"{Expr(binary.LeftOperand).AsOperand(op, true)} {op} {Expr(binary.RightOperand).AsOperand(op, false)}", Binding.Binary, op);
    }

    private CExpr Local(ILocalSymbol local) => new(local.RefKind == RefKind.None ? _locals.Of(local) : $"(*{_locals.Of(local)})");

    private CExpr Parameter(IParameterSymbol parameter)
    {
        _named.Add(parameter);
        return new CExpr(Signatures.IsPointer(parameter) ? $"(*{_locals.Of(parameter)})" : _locals.Of(parameter));
    }

    private CExpr Self() => new(Signatures.SelfKind(_method.Symbol) == SelfKind.Value ? "self" : "(*self)");

    private CExpr Field(IFieldReferenceOperation field)
    {
        if (field.Instance is null)
        {
            throw Unknown(field);
        }

        Use(field.Field.ContainingType);
        return new CExpr(Expr(field.Instance).Member(Names.Field(field.Field)));
    }

    private CExpr Property(IPropertyReferenceOperation reference)
    {
        IPropertySymbol property = reference.Property;
        if (TypeFacts.IsProbe(reference.Instance?.Type))
        {
            return property.Name == "MostAtOnce" ? new CExpr("INT32_MAX") : throw Unknown(reference);
        }

        if (TypeFacts.IsSpan(property.ContainingType))
        {
            return SpanProperty(reference);
        }

        if (_twin.FindTable(property) is TwinTable table)
        {
            Tables.Add(property);
            return new CExpr(FormattableString.Invariant($"{_names.View(property.Type)}_of({_names.Table(property)}, {table.Values.Count})"));
        }

        if (TypeFacts.Holder(property) is IFieldSymbol holder)
        {
            Use(property.ContainingType);
            return new CExpr(Expr(reference.Instance ?? throw Unknown(reference)).Member(Names.Field(holder)));
        }

        return Call(property.GetMethod ?? throw Unknown(reference), reference.Instance, reference.Arguments, reference);
    }

    private CExpr Entry(IInlineArrayAccessOperation access)
    {
        if (!TypeFacts.IsInteger(access.Argument.Type!))
        {
            throw Unknown(access);
        }

        Use(access.Instance.Type!);
        CExpr[] parts = InOrder(access, (access.Instance, () => Place(access.Instance), true), (access.Argument, () => Index(access.Argument), false));
        return new CExpr($"{parts[0].Member("at")}[{parts[1].Text}]");
    }

    private CExpr Declared(IDeclarationExpressionOperation declaration)
    {
        ILocalSymbol local = ((ILocalReferenceOperation)declaration.Expression).Local;
        string start = TypeFacts.IsStruct(local.Type) ? "" : local.Type.SpecialType == SpecialType.System_Boolean ? " = false" : " = 0";
        _out.AddDeclaration($"{TypeName(local.Type)} {_locals.Declare(local)}{start};");
        return Local(local);
    }

    private CExpr Conversion(IConversionOperation conversion)
    {
        ITypeSymbol from = conversion.Operand.Type ?? conversion.Type!;
        ITypeSymbol to = conversion.Type!;
        if (TypeFacts.IsSpan(to))
        {
            return SpanOf(conversion.Operand, to);
        }

        if (SymbolEqualityComparer.Default.Equals(from, to))
        {
            return Expr(conversion.Operand);
        }

        return conversion.OperatorMethod is null && TypeFacts.IsInteger(from) && TypeFacts.IsInteger(to)
            ? Number(Expr(conversion.Operand), from, to) : throw Unknown(conversion);
    }

    private CExpr Number(CExpr value, ITypeSymbol from, ITypeSymbol to)
    {
        if (TypeFacts.Integer(from) == TypeFacts.Integer(to))
        {
            return value;
        }

        bool isPromoted = TypeFacts.IsNarrow(from) && TypeFacts.Integer(to) == SpecialType.System_Int32;
        return isPromoted ? value with { IsWide = false } : Cast(value, to);
    }

    private CExpr Cast(CExpr value, ITypeSymbol to) => new($"({TypeName(to)}){value.Within(Binding.Unary)}", Binding.Unary);
}
