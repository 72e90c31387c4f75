using Clackbeat.VirtualRam.Conditions;

namespace Clackbeat.DiagnosisStudy.Rams;

/// <summary>Names of faults in the study's tables: the condition's code, with its kind where it has kinds.</summary>
public static class CaseNames
{
    public static string Of(Fault fault) => fault.Condition switch
    {
        RamCondition.SensorFault => $"{fault.Condition.Code()}:{fault.SensorFault.Code()}",
        RamCondition.SupplyStarved => $"{fault.Condition.Code()}:{fault.StarvedBy.Code()}",
        _ => fault.Condition.Code(),
    };
}
