// SPDX-License-Identifier: MIT
using Mono.Cecil;

namespace SensorSim.Architecture.Tests.Checks;

/// <summary>Which vector instructions give each lane exactly what the scalar operation would.</summary>
/// <remarks>
/// An allow-list: fused multiply-add, estimates, horizontal sums, "native" variants and elementary functions are refused by not being
/// on it. Names from the public reference of System.Runtime.Intrinsics. Vectors of 512 bits are refused whatever is done with them: they slow what stands
/// about them; of AVX-512 only what it has for shorter ones remains.
/// </remarks>
internal static class Intrinsics
{
    private const string Family = "System.Runtime.Intrinsics.";

    /// <summary>Classes of instructions of which at least one member is exact; Fma and the crypto classes are not among them.</summary>
    private static readonly HashSet<string> HardwareClasses = new(StringComparer.Ordinal)
    {
        "X86.X86Base", "X86.Sse", "X86.Sse2", "X86.Sse3", "X86.Ssse3", "X86.Sse41", "X86.Sse42", "X86.Avx", "X86.Avx2", "X86.Avx512F",
        "X86.Bmi1", "X86.Bmi2", "X86.Lzcnt", "X86.Popcnt", "Arm.ArmBase", "Arm.AdvSimd",
    };

    private static readonly HashSet<string> HardwareMembers = new(StringComparer.Ordinal)
    {
        "get_IsSupported", "Add", "Subtract", "Multiply", "MultiplyLow", "MultiplyHigh", "MultiplyNoFlags", "Divide", "Sqrt", "Abs", "Negate",
        "AddSaturate", "SubtractSaturate", "And", "AndNot", "Or", "Xor", "Not", "BitwiseClear", "BitwiseSelect",
        "ShiftLeftLogical", "ShiftRightLogical", "ShiftRightArithmetic", "ShiftLeftLogicalVariable", "ShiftRightLogicalVariable",
        "ShiftRightArithmeticVariable", "ShiftLogical", "ShiftArithmetic", "Shuffle", "ShuffleHigh", "ShuffleLow", "UnpackHigh", "UnpackLow",
        "ShiftLeftLogical128BitLane", "ShiftRightLogical128BitLane", "Permute", "Permute2x128", "Permute4x64",
        "PermuteVar", "PermuteVar8x32", "PermuteVar8x32x2", "AlignRight", "Blend",
        "BlendVariable", "CompareEqual", "CompareNotEqual", "CompareGreaterThan", "CompareGreaterThanOrEqual", "CompareLessThan",
        "CompareLessThanOrEqual", "Compare", "MoveMask", "TestZ", "TestC", "LoadVector128", "LoadVector256", "LoadScalarVector128",
        "LoadAlignedVector128", "LoadAlignedVector256", "Store", "StoreAligned", "StoreScalar", "GatherVector128", "GatherVector256",
        "GatherMaskVector128", "GatherMaskVector256", "BroadcastScalarToVector128", "BroadcastScalarToVector256", "BroadcastVector128ToVector256",
        "Insert", "InsertVector128", "Extract", "ExtractVector128", "ConvertToVector128Double", "ConvertToVector256Double",
        "ConvertToVector128Int16", "ConvertToVector256Int16", "ConvertToVector128Int32", "ConvertToVector256Int32",
        "ConvertToVector128Int64", "ConvertToVector256Int64", "ConvertToVector128Int32WithTruncation", "ConvertScalarToVector128Double",
        "ConvertScalarToVector128Int32", "ConvertScalarToVector128Int64", "ConvertToInt32", "ConvertToInt64", "ConvertToUInt32",
        "ConvertToUInt64", "PackSignedSaturate", "PackUnsignedSaturate", "MultiplyAddAdjacent", "Floor", "Ceiling", "RoundToZero",
        "RoundToNearestInteger", "LeadingZeroCount", "TrailingZeroCount", "PopCount", "Min", "Max",
    };

    private static readonly HashSet<string> PortableMembers = new(StringComparer.Ordinal)
    {
        "get_IsHardwareAccelerated", "get_IsSupported", "get_Zero", "get_One", "get_AllBitsSet", "get_Indices", "get_Count", "get_Item",
        "Create", "CreateScalar", "CreateScalarUnsafe", "CreateSequence", "Load", "LoadAligned", "LoadUnsafe", "Store", "StoreAligned",
        "StoreUnsafe", "CopyTo", "TryCopyTo", "GetElement", "WithElement", "GetLower", "GetUpper", "WithLower", "WithUpper", "ToScalar",
        "ToVector128", "ToVector256", "ToVector128Unsafe", "ToVector256Unsafe", "Add", "AddSaturate",
        "Subtract", "SubtractSaturate", "Multiply", "Divide", "Negate", "Abs", "Sqrt", "Floor", "Ceiling", "Truncate", "Round", "CopySign", "Min",
        "Max", "Clamp", "BitwiseAnd", "BitwiseOr", "Xor", "AndNot", "OnesComplement", "ShiftLeft", "ShiftRightLogical", "ShiftRightArithmetic",
        "Equals", "EqualsAll", "EqualsAny", "GreaterThan", "GreaterThanAll", "GreaterThanAny", "GreaterThanOrEqual", "GreaterThanOrEqualAll",
        "GreaterThanOrEqualAny", "LessThan", "LessThanAll", "LessThanAny", "LessThanOrEqual", "LessThanOrEqualAll", "LessThanOrEqualAny",
        "ConditionalSelect", "ExtractMostSignificantBits", "IsNaN", "IsNegative", "IsPositive", "IsZero", "As", "AsByte", "AsSByte", "AsInt16",
        "AsUInt16", "AsInt32", "AsUInt32", "AsInt64", "AsUInt64", "AsDouble", "ConvertToDouble", "ConvertToInt32", "ConvertToUInt32",
        "ConvertToInt64", "ConvertToUInt64", "Widen", "WidenLower", "WidenUpper", "Narrow", "NarrowWithSaturation", "Shuffle",
        "op_Addition", "op_Subtraction", "op_Multiply", "op_Division", "op_UnaryNegation", "op_UnaryPlus", "op_BitwiseAnd", "op_BitwiseOr",
        "op_ExclusiveOr", "op_OnesComplement", "op_LeftShift", "op_RightShift", "op_UnsignedRightShift", "op_Equality", "op_Inequality",
    };

    /// <summary>Why a vector instruction may not be used, or null when it may.</summary>
    public static string? Refusal(MethodReference member)
    {
        string owner = IlTypes.Name(member.DeclaringType)[Family.Length..];
        string group = owner.Split('/')[0];
        if (IlTypes.Signature(member).Append(member.DeclaringType).Any(type => IlTypes.Name(type).StartsWith(Family + "Vector512", StringComparison.Ordinal)))
        {
            return "no vectors of 512 bits";
        }

        if (!group.Contains('.', StringComparison.Ordinal))
        {
            // Vector128, Vector256`1 and so on.
            return PortableMembers.Contains(member.Name) && !TakesRounding(member) ? null : "not on the list of exact vector operations";
        }

        if (!HardwareClasses.Contains(group) || !HardwareMembers.Contains(member.Name))
        {
            return "not on the list of exact vector instructions";
        }

        // The x64 instruction answers NaN and signed zeros otherwise than Math.Min, and than the arm64 one.
        bool isMinimum = member.Name is "Min" or "Max";
        return isMinimum && IlTypes.Signature(member).Any(type => type.FullName == "System.Double") ? "Min and Max of doubles differ in NaN" : null;
    }

    private static bool TakesRounding(MethodReference member)
        => member.Name == "Round" && member.Parameters.Count != 1;
}
