using System.Text.Json.Nodes;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Frame;

/// <summary>A fact as JSON: its code, its values and the English sentence.</summary>
internal static class FactJson
{
    private const int Decimals = 6;

    /// <summary>Builds the object.</summary>
    public static JsonObject Of(Fact fact)
    {
        var values = new JsonObject();
        foreach (FactValue value in fact.Values)
        {
            values[value.Name] = Of(value);
        }

        return new JsonObject { ["code"] = fact.Code, ["values"] = values, ["text"] = Catalogue.English.Say(fact) };
    }

    private static JsonNode? Of(FactValue value) => value switch
    {
        { Quantity: Quantity { High: { } high } range } => new JsonArray(JsonOut.Number(range.Value, Decimals), JsonOut.Number(high, Decimals)),
        { Number: { } number } => JsonOut.Number(number, Decimals),
        { Facts: { } facts } => new JsonArray([.. facts.Select(Of)]),
        _ => value.Word,
    };
}
