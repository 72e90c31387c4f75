namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// The features of a beat: what is measured of it to tell the ram's condition ("damage-sensitive features" in C. R. Farrar, K. Worden,
/// Structural Health Monitoring, Wiley 2013, ch. 7). Each is dimensionless, or a logarithm of a ratio, so that rams of
/// any size compare; "of the jump" means over the rise from the open level to the delivery plateau. The words for
/// each stand in <c>features.toml</c>.
/// </summary>
public enum Feature
{
    /// <summary>ln of interval × gH/L: the speed a free column would gain in a beat [m/s].</summary>
    Interval,

    /// <summary>ln of open phase × gH/L [m/s].</summary>
    OpenLength,

    /// <summary>ln of the time from closure to the fall through half the jump, over the pipe period 2L/a of the site.</summary>
    DeliveryLength,

    /// <summary>Mean of the pressure over the jump (at most 1) from closure to the foot of the fall.</summary>
    Fullness,

    /// <summary>From 0.8 to 0.5 of the jump in the fall, over the pipe period.</summary>
    FallTop,

    /// <summary>From 0.5 to 0.2 of the jump in the fall, over the pipe period.</summary>
    FallFoot,

    /// <summary>Range (10th to 90th percentile) of the end of delivery from beat to beat, over the pipe period.</summary>
    EndScatter,

    /// <summary>Depth of the suction under the open level, of the jump.</summary>
    SuctionDepth,

    /// <summary>Area of the suction, of jump × pipe period.</summary>
    SuctionArea,

    /// <summary>ln of the jump over the static delivery pressure.</summary>
    Plateau,

    /// <summary>Rise of the plateau from its early to its late part, of the jump.</summary>
    Slope,

    /// <summary>Middle of the plateau over the mean of its early and late part, of the jump.</summary>
    Bend,

    /// <summary>ln of the peak over the open level, of the jump.</summary>
    Spike,

    /// <summary>Range (median to 95th percentile) of the peaks, of the jump.</summary>
    PeakScatter,

    /// <summary>ln of the head in the open waste valve just before it shuts, over the supply head.</summary>
    ClosingHead,

    /// <summary>Head in the middle of the open phase over that near its end.</summary>
    OpenShape,

    /// <summary>Head in the first quarter of the open phase over that near its end.</summary>
    OpenBeginning,

    /// <summary>Mean head of whole beats above the open level at rest, over the supply head.</summary>
    MeanHead,

    /// <summary>ln of the interquartile range of the interval over its median.</summary>
    IntervalScatter,

    /// <summary>ln of the stretch of long intervals (95th percentile against the median).</summary>
    LongBeats,

    /// <summary>ln of the stretch of short intervals (median against the 5th percentile).</summary>
    ShortBeats,

    /// <summary>ln of the range of the head before closure (median to 90th percentile) over its median.</summary>
    ClosingScatter,

    /// <summary>ln of the wave speed that the echoes of the typical beat show, over the site's.</summary>
    Echo,

    /// <summary>Head before closure in the longest quarter of the beats over that in the shortest, less 1.</summary>
    StretchedSpeed,

    /// <summary>ln of the measured wave speed of the drive pipe, as the flow's fit found it, over the site's.</summary>
    WaveSpeed,

    /// <summary>Velocity at the body as the delivery ends, above that of a valve that seats in time, over the closing velocity.</summary>
    EndVelocity,

    /// <summary>Strongest flow back up the drive pipe after the delivery, over the closing velocity (negative).</summary>
    BackFlow,

    /// <summary>Mean head of whole beats and what pipe and entrance should take, over the supply head; 1 when both ends meet.</summary>
    HeadBalance,

    /// <summary>ln of the losses of pipe and entrance over those of the site.</summary>
    PipeLoss,

    /// <summary>ln of the loss coefficient of the open waste valve, on the drive pipe's velocity.</summary>
    ValveLoss,

    /// <summary>ln of the surge that the closing velocity can make, over the delivery head.</summary>
    ClosingSpeed,

    /// <summary>ln of the efficiency (D'Aubuisson).</summary>
    Yield,

    /// <summary>ln of the time from the end of delivery to the open phase, over the pipe period.</summary>
    RecoilLength,

    /// <summary>Velocity at the body while the pressure hangs half-way after the delivery, over the closing velocity; nothing flows there while both valves hold.</summary>
    HoldVelocity,

    /// <summary>Area of the pressure's tail after the delivery, of jump × pipe period.</summary>
    Tail,

    /// <summary>How far the echoes at the site's own pipe period fall short of the strongest ones, in deviations over all periods.</summary>
    EchoAway,

    /// <summary>Velocity left at the body just before the pressure falls off the plateau, over the closing velocity.</summary>
    LastVelocity,

    /// <summary>Flow out of the body while both valves should be shut, less what the body's own give lets out, over the closing velocity.</summary>
    ShutFlow,

    /// <summary>Give of the body: velocity that a fall of one jump in a pipe period lets out of it, over the closing velocity.</summary>
    BodyGive,

    /// <summary>From 0.15 to 0.6 of the jump as the waste valve shuts, over the pipe period.</summary>
    KnockRise,
}
