namespace Clackbeat.VirtualRam.Design;

/// <summary>How a ram is made, where a site file says nothing about it.</summary>
public enum RamCharacter
{
    /// <summary>Light, sprung delivery valve, a plug that stays on its seat, hardly any gas in the body.</summary>
    Smooth,

    /// <summary>Heavier delivery valve that bounces, rebounding waste plug, some gas in the body, beats that differ.</summary>
    Lively,
}
