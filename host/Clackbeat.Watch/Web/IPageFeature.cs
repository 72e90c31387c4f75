using Microsoft.AspNetCore.Routing;

namespace Clackbeat.Watch.Web;

/// <summary>
/// A part of the page with addresses of its own, such as recording. What it maps lies behind the doorkeeper. A feature
/// that leads through trials of the ram's settings takes its place here, beside the others.
/// </summary>
internal interface IPageFeature
{
    /// <summary>Adds its addresses.</summary>
    void Map(IEndpointRouteBuilder routes);
}
