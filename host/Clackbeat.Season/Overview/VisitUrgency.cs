namespace Clackbeat.Season.Overview;

/// <summary>How soon somebody should go to a ram; the most urgent first.</summary>
public enum VisitUrgency
{
    /// <summary>Today: it stands still, or its pipe may burst.</summary>
    Now,

    /// <summary>At the next round: a fault is likely, it gives too little, or nothing is heard of it.</summary>
    Soon,

    /// <summary>No visit is needed.</summary>
    None,
}
