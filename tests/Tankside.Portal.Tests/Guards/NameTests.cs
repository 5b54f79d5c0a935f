using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Guards;

/// <summary>Names say what a thing is. These endings hold what nobody named.</summary>
public partial class NameTests
{
    [Fact]
    public void No_folder_or_type_has_a_name_that_says_nothing() => SourceTree.AssertNone(Nameless(SourceTree.Code));

    [Theory]
    [InlineData("src/Tankside.Portal/Flags/Triage.cs", "public sealed class FlagManager")]
    [InlineData("src/Tankside.Portal/Flags/Triage.cs", "internal static partial class TextUtils")]
    [InlineData("src/Tankside.Portal/Flags/Triage.cs", "public interface IMailService")]
    [InlineData("src/Tankside.Portal/Flags/Triage.cs", "public record struct RowHelper(int A)")]
    [InlineData("src/Tankside.Portal/Flags/DateHelper.razor", "")]
    [InlineData("src/Tankside.Portal/Common/Triage.cs", "")]
    public void A_name_that_says_nothing_is_found(string path, string text) => Assert.Single(Nameless([new SourceFile(path, text)]));

    [Fact]
    public void Words_that_only_contain_such_an_ending_are_let_be() =>
        Assert.Empty(Nameless([new SourceFile("src/Shell/ServiceArea.cs", "public class CommonName { IServiceProvider Services; }")]));

    private static IEnumerable<string> Nameless(IEnumerable<SourceFile> files) => files
        .SelectMany(f => f.Parts[..^1].Append(f.Name.Split('.')[0]).Concat(TypeName().Matches(Literal().Replace(f.Text, "")).Select(m => m.Groups[1].Value))
            .Where(name => SaysNothing().IsMatch(name))
            .Select(name => $"{f.Path}: {name}"))
        .Distinct();

    [GeneratedRegex("(Helpers?|Managers?|Utils?|Common|Services?)$")]
    private static partial Regex SaysNothing();

    [GeneratedRegex("\"[^\"\n]*\"")]
    private static partial Regex Literal();

    [GeneratedRegex(@"\b(?:class|record(?:\s+struct)?|struct|enum|interface)\s+(\w+)")]
    private static partial Regex TypeName();
}
