using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The drive pipe from its intake to the body: sections by the method of characteristics, joined where head and flow are common
/// to both sides (E. B. Wylie and V. L. Streeter, 1993, §3.4); a joint may hold vapour as any node may.
/// </summary>
internal sealed class DrivePipe
{
    private readonly PipeSection[] _sections;
    private readonly Intake _intake;
    private readonly double[] _jointCavity;

    internal DrivePipe(RamParameters ram)
    {
        var grid = PipeGrid.Of(ram);
        StepS = grid.StepS;
        IReadOnlyList<PipeParameters> parts = ram.Sections;
        double length = parts.Sum(p => p.LengthM);
        double mouth = ram.Supply.HeadM - ram.Supply.SubmergenceM;
        _sections = new PipeSection[parts.Count];
        double along = 0.0;
        for (int i = 0; i < parts.Count; i++)
        {
            double end = along + parts[i].LengthM;
            _sections[i] = new PipeSection(
                parts[i], ram, StepS, grid.Reaches[i], mouth * (1 - along / length), mouth * (1 - end / length));
            along = end;
        }

        _jointCavity = new double[_sections.Length - 1];
        _intake = new Intake(ram.Supply, parts[0].AreaM2, StepS);
    }

    internal int Reaches => _sections.Sum(s => s.Reaches);

    internal double StepS { get; }

    /// <summary>B = a/(gA) at the body [s/m²].</summary>
    internal double ImpedanceSPerM2 => _sections[^1].ImpedanceSPerM2;

    internal double InflowM3PerS => _sections[0].UpperFlowM3PerS;

    /// <summary>Flow into the body.</summary>
    internal double EndFlowM3PerS => _sections[^1].LowerFlowM3PerS;

    /// <summary>Water level over the intake [m].</summary>
    internal double LevelM => _intake.LevelM;

    internal bool Cavitating => _sections.Any(s => s.Cavitating) || _jointCavity.Any(c => c > 0);

    /// <summary>Water held above that of a pipe at head 0, cavities taken off [m³].</summary>
    internal double StoredM3() => _sections.Sum(s => s.StoredM3()) - _jointCavity.Sum();

    /// <summary>Head [m] and velocity [m/s] at a place, 0 at the intake to 1 at the body.</summary>
    internal (double HeadM, double VelocityMPerS) At(double share)
    {
        double along = Math.Clamp(share, 0, 1) * _sections.Sum(s => s.LengthM);
        foreach (PipeSection section in _sections)
        {
            if (along <= section.LengthM || section == _sections[^1])
            {
                (double head, double flow) = section.At(along / section.LengthM);
                return (head, flow / section.AreaM2);
            }

            along -= section.LengthM;
        }

        throw new InvalidOperationException("A drive pipe has a section.");
    }

    /// <summary>Lets the water run at one speed, heads as they are: a state to start checks from.</summary>
    internal void StartAt(double flowM3PerS)
    {
        foreach (PipeSection section in _sections)
        {
            section.StartAt(flowM3PerS);
        }
    }

    /// <summary>
    /// Moves all nodes but the body's one step on; returns what arrives at the body, C⁺ = h + B·Q less friction [m].
    /// <see cref="Finish"/> must follow.
    /// </summary>
    internal double Advance()
    {
        foreach (PipeSection section in _sections)
        {
            section.Prepare();
        }

        double arriving = _sections[^1].ArrivingM();
        for (int joint = 0; joint < _jointCavity.Length; joint++)
        {
            AdvanceJoint(joint);
        }

        (double head, double flow) = _intake.Solve(_sections[0].ReturningM(), _sections[0].ImpedanceSPerM2);
        _sections[0].SetUpper(head, flow);
        foreach (PipeSection section in _sections)
        {
            section.AdvanceInner();
        }

        return arriving;
    }

    /// <summary>Ends the step with what the body decided.</summary>
    internal void Finish(double endHeadM, double bodyFlowM3PerS)
    {
        _sections[^1].SetLower(endHeadM, bodyFlowM3PerS);
        foreach (PipeSection section in _sections)
        {
            section.Finish();
        }

        _intake.Advance(InflowM3PerS);
    }

    private void AdvanceJoint(int joint)
    {
        (PipeSection above, PipeSection below) = (_sections[joint], _sections[joint + 1]);
        (double plus, double minus) = (above.ArrivingM(), below.ReturningM());
        (double b1, double b2) = (above.ImpedanceSPerM2, below.ImpedanceSPerM2);
        double h = (plus * b2 + minus * b1 - b1 * b2 * _jointCavity[joint] / StepS) / (b1 + b2);
        if (h >= above.LowerVapourHeadM)
        {
            _jointCavity[joint] = 0;
        }
        else
        {
            h = above.LowerVapourHeadM;
            _jointCavity[joint] += StepS * ((h - minus) / b2 - (plus - h) / b1);
        }

        above.SetLower(h, (plus - h) / b1);
        below.SetUpper(h, (h - minus) / b2);
    }
}
