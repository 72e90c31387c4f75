namespace Clackbeat.Hydraulics.Pipes;

/// <summary>One Kelvin–Voigt element: a part of the wall's give that follows the load with a delay.</summary>
/// <param name="RetardationS">Retardation time τ [s].</param>
/// <param name="Share">Its compliance over the prompt one, J_j/J_0.</param>
public readonly record struct CreepElement(double RetardationS, double Share);
