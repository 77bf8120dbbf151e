// SPDX-License-Identifier: MIT
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.Operations;
using SensorSim.TwinWriter.Expressions;
using SensorSim.TwinWriter.Naming;
using SensorSim.TwinWriter.Reading;

namespace SensorSim.TwinWriter;

/// <content>Assignments.</content>
internal sealed partial class BodyWriter
{
    private void Assign(ISimpleAssignmentOperation assignment)
    {
        IOperation target = assignment.Target;
        if (assignment.IsRef)
        {
            throw Unknown(assignment);
        }

        if (target is IDiscardOperation)
        {
            _out.Add($"(void){Expr(assignment.Value).Within(Binding.Unary)};");
            return;
        }

        if (target is IPropertyReferenceOperation { Property: IPropertySymbol property } reference && TypeFacts.Holder(property) is null
            && property.RefKind == RefKind.None && !TypeFacts.IsSpan(property.ContainingType))
        {
            Set(reference, property.SetMethod ?? throw Unknown(assignment), assignment.Value);
            return;
        }

        if (!IsPlace(target))
        {
            throw Unknown(target);
        }

        CExpr[] parts = InOrder(
            assignment, (target, () => Expr(target), true), (assignment.Value, () => Expr(assignment.Value), false));
        bool isCleared = assignment.Value is IDefaultValueOperation && TypeFacts.IsStruct(target.Type!);
        if (isCleared)
        {
            Use(target.Type!);
            string at = parts[0].Address;
            _out.Add($"(void)memset({at}, 0, sizeof({parts[0].Text}));".Replace("sizeof((*self))", "sizeof(*self)", StringComparison.Ordinal));
            return;
        }

        Use(target.Type!);
        string left = parts[0].Text == "(*self)" ? "*self" : parts[0].Text;
        _out.Add($"{left} = {Stored(parts[1], target.Type!).Text};");
    }

    // (a, b) = (b, a): every value is read before any is stored.
    private void Exchange(ITupleOperation targets, IOperation value)
    {
        ITupleOperation values = value as ITupleOperation ?? throw Unknown(value);
        bool isPlain = targets.Elements.Length == values.Elements.Length && targets.Elements.All(each => IsVariable(each) && !_effects.Of(each).HasEffect);
        if (!isPlain || values.Elements.Any(each => _effects.Of(each).HasEffect))
        {
            throw Unknown(targets);
        }

        CExpr[] read = [.. values.Elements.Select(each => Keep(Expr(each), each.Type!, WishFor(each)))];
        for (int i = 0; i < read.Length; i++)
        {
            _out.Add($"{Expr(targets.Elements[i]).Text} = {read[i].Text};");
        }
    }

    private static bool IsPlace(IOperation operation) => IsVariable(operation);

    private void Set(IPropertyReferenceOperation reference, IMethodSymbol setter, IOperation value)
    {
        TwinMethod target = _twin.Find(setter) ?? throw Unknown(reference);
        IOperation instance = reference.Instance ?? throw Unknown(reference);
        Calls.Add(target.Symbol);
        Use(setter.ContainingType);
        CExpr[] parts = InOrder(
            reference, (instance, () => Receiver(target.Symbol, instance, reference), true), (value, () => Stored(Expr(value), setter.Parameters[0].Type), false));
        _out.Add($"{_names.Function(target.Symbol)}({parts[0].Text}, {parts[1].Text});");
    }

    private void Compound(ICompoundAssignmentOperation assignment)
    {
        if (assignment.OperatorMethod is not null || assignment.IsLifted || HasChangingCall(assignment.Target) || !IsPlace(assignment.Target)
            || !IsValue(assignment.Target.Type!))
        {
            throw Unknown(assignment);
        }

        ITypeSymbol targetType = assignment.Target.Type!;
        ITypeSymbol type = OperatorType(assignment);
        CExpr place = Expr(assignment.Target);
        bool isMoved = _effects.Of(assignment.Value).IsOrdered(_effects.Of(assignment.Target));
        CExpr before = isMoved ? Keep(place, targetType, WishFor(assignment.Target)) : place;
        if (isMoved && IndicesOf(assignment.Target).IsOrdered(_effects.Of(assignment.Value)))
        {
            throw new RefusalException(assignment.Syntax, "the value moves the place that it is stored in; say it in two statements");
        }

        CExpr value = Expr(assignment.Value);
        string op = OperatorText(assignment.OperatorKind, assignment);
        bool isShort = !isMoved && TypeFacts.IsInteger(targetType) && !TypeFacts.IsNarrow(targetType) && TypeFacts.Integer(type) == TypeFacts.Integer(targetType)
            && IsSameInC(assignment, type);
        if (isShort)
        {
            _out.Add($"{place.Text} {op}= {value.Text};");
            return;
        }

        CExpr left = targetType.SpecialType == SpecialType.System_Boolean ? before : Number(before, targetType, type);
        CExpr joined = Joined(assignment.OperatorKind, left, value, type, assignment.Value, assignment.IsChecked, assignment);
        CExpr result = targetType.SpecialType == SpecialType.System_Boolean || TypeFacts.Integer(type) == TypeFacts.Integer(targetType) ? joined : Cast(joined, targetType);
        _out.Add($"{place.Text} = {Stored(result, targetType).Text};");
    }

    // Whether C's own compound assignment does it.
    private static bool IsSameInC(ICompoundAssignmentOperation assignment, ITypeSymbol type)
    {
        bool isArithmetic = assignment.OperatorKind is BinaryOperatorKind.Add or BinaryOperatorKind.Subtract or BinaryOperatorKind.Multiply;
        bool isShift = assignment.OperatorKind is BinaryOperatorKind.LeftShift or BinaryOperatorKind.RightShift or BinaryOperatorKind.UnsignedRightShift;
        bool isFixed = assignment.Value.ConstantValue is { HasValue: true, Value: int count } && count >= 0 && count < TypeFacts.Bits(type);
        return isShift ? !TypeFacts.IsSigned(type) && isFixed : !isArithmetic || assignment.IsChecked || !TypeFacts.IsSigned(type);
    }

    // The type that the operator computes in.
    private static ITypeSymbol OperatorType(ICompoundAssignmentOperation assignment)
    {
        bool isShift = assignment.OperatorKind is BinaryOperatorKind.LeftShift or BinaryOperatorKind.RightShift or BinaryOperatorKind.UnsignedRightShift;
        if (!isShift)
        {
            return assignment.Value.Type!;
        }

        SemanticModel model = assignment.SemanticModel!;
        return TypeFacts.IsNarrow(assignment.Target.Type!) ? model.Compilation.GetSpecialType(SpecialType.System_Int32) : assignment.Target.Type!;
    }

    private void WriteConstructor()
    {
        IMethodSymbol constructor = _method.Symbol;
        INamedTypeSymbol type = constructor.ContainingType;
        string name = _locals.Fresh("made");
        string typeName = TypeName(type);
        _out.Add($"{typeName} {name} = {{ 0 }};");
        if (_method.Body is IConstructorBodyOperation body)
        {
            bool usesSelf = body.Descendants().OfType<IInstanceReferenceOperation>().Any();
            if (body.Initializer is not null)
            {
                throw new RefusalException(_method.Syntax, "a constructor that calls another one has no translation into C");
            }

            if (usesSelf)
            {
                _out.Add($"{typeName} *const self = &{name};");
            }

            Statements(body.BlockBody ?? body.ExpressionBody ?? throw new RefusalException(_method.Syntax, "no body"));
        }
        else
        {
            FromHead(constructor, type, name);
        }

        _out.Add($"return {name};");
    }

    // A type with parameters in its head: of a record they are properties, else the parts are set from them where they are declared.
    private void FromHead(IMethodSymbol constructor, INamedTypeSymbol type, string name)
    {
        foreach (IFieldSymbol field in TypeFacts.FieldsOf(type))
        {
            ISymbol owner = field.AssociatedSymbol ?? field;
            IParameterSymbol? positional = type.IsRecord ? constructor.Parameters.FirstOrDefault(each => each.Name == owner.Name) : null;
            if (positional is not null)
            {
                _out.Add($"{name}.{Names.Field(field)} = {Parameter(positional).Text};");
            }
            else if (HeadValues.Of(_twin.Source, owner) is IOperation value)
            {
                _out.Add($"{name}.{Names.Field(field)} = {Stored(Expr(value), field.Type).Text};");
            }
        }
    }
}
