using System.Text.Json;
using FixtureGen.App.Page.Serving;

namespace FixtureGen.App.Page.Layout;

/// <summary>A question that stands in an address, since a picture is asked for by one.</summary>
internal static class LayoutPicture
{
    /// <summary>The answer to the question in the text; 400 where it is none.</summary>
    public static PageAnswer Asked(string text, Func<LayoutQuestion, PageAnswer> answer)
    {
        LayoutQuestion? question;
        try
        {
            question = JsonSerializer.Deserialize(text, LayoutJson.Default.LayoutQuestion);
        }
        catch (JsonException e)
        {
            return PageAnswer.NotUnderstood([RequestFindings.NotUnderstood(e)]);
        }
        return question is null ? PageAnswer.NotUnderstood([RequestFindings.Nothing()]) : answer(question);
    }
}
