namespace Clackbeat.Signal.Flow;

/// <summary>
/// Velocity at the body from the head at the body: the method of characteristics for a pipe with a reservoir upstream
/// (E. B. Wylie, V. L. Streeter, Fluid Transients in Systems, 1993, ch. 3), followed from reflection to reflection. What
/// leaves the body at t − 2L/a comes back from the intake at t, so each sample asks only for the head and the velocity
/// one pipe period earlier, between two samples on the true time axis: jitter and gaps are no special case. Entrance
/// loss and half of the friction act at the intake, the other half at the body; against a pipe of many reaches that
/// changes the velocity by some thousandths (the tests hold the two side by side).
/// </summary>
internal static class ColumnInversion
{
    /// <summary>Works out the velocity at each sample.</summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="headM">Head at the body as the sensor saw it [m above datum], same length.</param>
    /// <param name="model">The column.</param>
    /// <param name="startVelocityMPerS">Velocity of the whole column at the first sample and before.</param>
    /// <param name="velocityMPerS">Takes the velocities at the body [m/s], same length.</param>
    public static void Run(
        ReadOnlySpan<double> timeS,
        ReadOnlySpan<double> headM,
        in ColumnModel model,
        double startVelocityMPerS,
        Span<double> velocityMPerS)
    {
        if (model.Shape is not null)
        {
            OnGrid(timeS, headM, model, startVelocityMPerS, 1, velocityMPerS, []);
            return;
        }

        double periodS = model.PeriodS;
        double b = model.Impedance;
        double bodyLoss = 0.5 * model.PipeLoss;
        double intakeLoss = model.EntranceLoss + bodyLoss;
        double supplyM = model.SupplyHeadM + model.BiasM;
        double startHeadM = StartHeadM(timeS, headM, periodS);
        int behind = 0;
        for (int i = 0; i < timeS.Length; i++)
        {
            double agoS = timeS[i] - periodS;
            (double head, double velocity) = (startHeadM, startVelocityMPerS);
            if (agoS > timeS[0])
            {
                (int ahead, double share) = Bracket(timeS, agoS, i, ref behind);
                head = headM[behind] + (share * (headM[ahead] - headM[behind]));
                velocity = velocityMPerS[behind] + (share * (velocityMPerS[ahead] - velocityMPerS[behind]));
            }

            double leaving = head + (bodyLoss * velocity * Math.Abs(velocity)) - (b * velocity);
            double atIntake = Solve(intakeLoss, b, supplyM - leaving);
            double arriving = leaving + (2 * b * atIntake);
            velocityMPerS[i] = Solve(bodyLoss, b, arriving - headM[i]);
        }
    }

    /// <summary>
    /// The same, and how each velocity moves with the supply head, with the losses and with the starting velocity: the equations
    /// differentiated by the chain rule and carried along, in half of the time that three more runs would take.
    /// </summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="headM">Head at the body as the sensor saw it [m above datum], same length.</param>
    /// <param name="model">The column.</param>
    /// <param name="startVelocityMPerS">Velocity of the whole column at the first sample and before.</param>
    /// <param name="lossFactor">Factor on all losses that the model already holds.</param>
    /// <param name="velocityMPerS">Takes the velocities at the body [m/s], same length.</param>
    /// <param name="sensitivities">Takes the derivatives, same length.</param>
    public static void Run(
        ReadOnlySpan<double> timeS,
        ReadOnlySpan<double> headM,
        in ColumnModel model,
        double startVelocityMPerS,
        double lossFactor,
        Span<double> velocityMPerS,
        Span<ColumnSensitivity> sensitivities)
    {
        if (model.Shape is not null)
        {
            OnGrid(timeS, headM, model, startVelocityMPerS, lossFactor, velocityMPerS, sensitivities);
            return;
        }

        double periodS = model.PeriodS;
        double b = model.Impedance;
        double bodyLoss = 0.5 * model.PipeLoss;
        double intakeLoss = model.EntranceLoss + bodyLoss;
        (double bodyLossPer, double intakeLossPer) = (bodyLoss / lossFactor, intakeLoss / lossFactor);
        double supplyM = model.SupplyHeadM + model.BiasM;
        double startHeadM = StartHeadM(timeS, headM, periodS);
        int behind = 0;
        for (int i = 0; i < timeS.Length; i++)
        {
            double agoS = timeS[i] - periodS;
            (double head, double velocity) = (startHeadM, startVelocityMPerS);
            var sensitivity = new ColumnSensitivity(0, 0, 1);
            if (agoS > timeS[0])
            {
                (int ahead, double share) = Bracket(timeS, agoS, i, ref behind);
                head = headM[behind] + (share * (headM[ahead] - headM[behind]));
                velocity = velocityMPerS[behind] + (share * (velocityMPerS[ahead] - velocityMPerS[behind]));
                sensitivity = ColumnSensitivity.Between(sensitivities[behind], sensitivities[ahead], share);
            }

            double square = velocity * Math.Abs(velocity);
            double leaving = head + (bodyLoss * square) - (b * velocity);
            double atIntake = Solve(intakeLoss, b, supplyM - leaving);
            double arriving = leaving + (2 * b * atIntake);
            double now = Solve(bodyLoss, b, arriving - headM[i]);
            velocityMPerS[i] = now;

            double leavingPer = (2 * bodyLoss * Math.Abs(velocity)) - b;
            double intakePer = 1 / ((2 * intakeLoss * Math.Abs(atIntake)) + b);
            double nowPer = 1 / ((2 * bodyLoss * Math.Abs(now)) + b);

            // dA = dL + 2b dx with dx = (ds − dL − dr x|x|) / (2 r|x| + b), and dv likewise from dA.
            double kept = 1 - (2 * b * intakePer);
            double leavingLoss = (leavingPer * sensitivity.Losses) + (bodyLossPer * square);
            sensitivities[i] = new ColumnSensitivity(
                nowPer * ((kept * leavingPer * sensitivity.Supply) + (2 * b * intakePer)),
                nowPer * ((kept * leavingLoss) - (2 * b * intakePer * intakeLossPer * atIntake * Math.Abs(atIntake))
                    - (bodyLossPer * now * Math.Abs(now))),
                nowPer * kept * leavingPer * sensitivity.Start);
        }
    }

    private static void OnGrid(
        ReadOnlySpan<double> timeS, ReadOnlySpan<double> headM, in ColumnModel model, double startVelocityMPerS, double lossFactor,
        Span<double> velocityMPerS, Span<ColumnSensitivity> sensitivities)
    {
        double sampleStepS = (timeS[^1] - timeS[0]) / (timeS.Length - 1);
        new PipeGrid(model, sampleStepS).Run(timeS, headM, startVelocityMPerS, lossFactor, 0, velocityMPerS, sensitivities);
    }

    /// <summary>Between which samples an instant one pipe period ago lies: moves on the one behind it; tells the one ahead and how far along it lies.</summary>
    private static (int Ahead, double Share) Bracket(ReadOnlySpan<double> timeS, double agoS, int now, ref int behind)
    {
        while (behind + 1 < now && timeS[behind + 1] <= agoS)
        {
            behind++;
        }

        // A pipe period shorter than a sample step can't be followed; the caller withholds such records.
        int ahead = Math.Min(behind + 1, Math.Max(now - 1, 0));
        double span = timeS[ahead] - timeS[behind];
        return (ahead, span > 0 ? Math.Min((agoS - timeS[behind]) / span, 1) : 0);
    }

    /// <summary>The column starts in the open phase: waves there are unknown, so the first period's mean head stands for the past.</summary>
    private static double StartHeadM(ReadOnlySpan<double> timeS, ReadOnlySpan<double> headM, double periodS)
    {
        double sum = 0;
        int count = 0;
        while (count < timeS.Length && (timeS[count] - timeS[0] <= periodS || count == 0))
        {
            sum += headM[count++];
        }

        return count > 0 ? sum / count : 0;
    }

    /// <summary>The root of r v|v| + b v = c.</summary>
    private static double Solve(double r, double b, double c)
    {
        double size = 2 * Math.Abs(c) / (b + Math.Sqrt((b * b) + (4 * r * Math.Abs(c))));
        return c < 0 ? -size : size;
    }
}
