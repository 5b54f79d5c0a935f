using System.Text;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Shell.Spoken;

/// <summary>Finds what a razor file or its code says by itself instead of through Say: enough of a reader for our own pages, no more.</summary>
public static partial class RazorText
{
    private static readonly string[] SameInBoth = ["Tankside", "English", "Español"];

    /// <summary>Words between tags, in attributes that are read, and sentences in code.</summary>
    public static IEnumerable<string> HardCoded(string text, bool isRazor)
    {
        text = Comment().Replace(text, "");
        var code = isRazor ? CodeAt(text) : 0;
        var markup = OnlyCode().Replace(Look().Replace(EnglishElement().Replace(text[..code], "<x>"), ""), "");
        return ReadAttribute().Matches(markup).Select(m => m.Value)
            .Concat(Between(markup))
            .Concat(Expressions(markup).Append(text[code..]).SelectMany(Sentences));
    }

    /// <summary>The sentences that are asked for, English as they stand.</summary>
    public static IEnumerable<string> Asked(string text) =>
        Calls(text).Where(c => c.MustBeThere).SelectMany(c => c.Literals).Concat(Rule().Matches(text).Select(m => m.Groups[1].Value)).Select(Unescaped);

    /// <summary>Every text in quotes, whatever it is for.</summary>
    public static IEnumerable<string> Literals(string text) => Literal().Matches(text).Select(m => Unescaped(m.Groups[1].Value));

    /// <summary>Names of the components that a file uses.</summary>
    public static IEnumerable<string> Components(string text) => Component().Matches(Comment().Replace(text, "")).Select(m => m.Groups[1].Value).Distinct();

    private static string Unescaped(string literal) => literal.Replace("\\\"", "\"", StringComparison.Ordinal);

    private static int CodeAt(string text) => text.IndexOf("\n@code", StringComparison.Ordinal) is var at && at < 0 ? text.Length : at;

    /// <summary>What stands between tags once expressions and lines of code are gone.</summary>
    private static IEnumerable<string> Between(string markup)
    {
        var bare = new StringBuilder();
        var from = 0;
        foreach (var (start, end) in ExpressionSpans(markup))
        {
            bare.Append(markup, from, start - from).Append('_');
            from = end;
        }

        bare.Append(markup, from, markup.Length - from);
        var tagless = Tag().Replace(bare.ToString().Replace("=>", "=", StringComparison.Ordinal), "\n");
        return tagless.Split('\n').Select(l => l.Trim()).Where(l => !CodeLine().IsMatch(l))
            .Where(l => Word().Matches(Entity().Replace(l, "")).Any(w => !SameInBoth.Contains(w.Value)));
    }

    private static IEnumerable<string> Expressions(string markup) => ExpressionSpans(markup).Select(s => markup[s.Start..s.End]);

    /// <summary>Each @(…) and @name.of(…)[…], with its brackets.</summary>
    private static IEnumerable<(int Start, int End)> ExpressionSpans(string markup)
    {
        for (var at = markup.IndexOf('@', StringComparison.Ordinal); at >= 0; at = at < markup.Length ? markup.IndexOf('@', at) : -1)
        {
            var end = at + 1;
            if (Condition().Match(markup, end) is { Success: true, Length: var head })
            {
                end = Closing(markup, end + head - 1);
                yield return (at, end);
            }
            else if (ExpressionStart().Match(markup, end) is { Success: true, Length: var length } start && !Statement().IsMatch(start.Value))
            {
                end += length;
                while (end < markup.Length && (markup[end] is '(' or '[' || (markup[end] is '.' or '?' or '!' && Chained().Match(markup, end) is { Success: true })))
                {
                    end = markup[end] is '(' or '[' ? Closing(markup, end) : end + Chained().Match(markup, end).Length;
                }

                yield return (at, end);
            }
            else if (end < markup.Length && markup[end] == '(')
            {
                end = Closing(markup, end);
                yield return (at, end);
            }

            at = end;
        }
    }

    /// <summary>Texts in quotes that read like a sentence and are not handed to Say.</summary>
    private static IEnumerable<string> Sentences(string code)
    {
        var said = Calls(code).Select(c => (c.Start, c.End)).ToList();
        return Literal().Matches(code)
            .Where(m => SentenceLike().IsMatch(Fixed(m.Groups[1].Value, isInterpolated: m.Index > 0 && code[m.Index - 1] == '$')) && !DateFormat().IsMatch(m.Groups[1].Value))
            .Where(m => !said.Any(s => m.Index >= s.Start && m.Index < s.End) && !Quiet().IsMatch(code[..m.Index][^Math.Min(m.Index, 60)..]))
            .Select(m => m.Value);
    }

    /// <summary>What an interpolated text says whatever its values are.</summary>
    private static string Fixed(string literal, bool isInterpolated)
    {
        while (isInterpolated && Hole().IsMatch(literal))
        {
            literal = Hole().Replace(literal, "");
        }

        return literal;
    }

    private static IEnumerable<(int Start, int End, bool MustBeThere, IEnumerable<string> Literals)> Calls(string code)
    {
        foreach (var call in Call().Matches(code).Cast<Match>())
        {
            var open = call.Index + call.Length - 1;
            var end = Closing(code, open);
            var take = call.Groups[1].Value switch { ".Count" => 2, ".Of" => 1, _ => int.MaxValue };
            yield return (open, end, call.Groups[1].Value != ".Told", OwnLiterals(code, open + 1, end - 1).Take(take));
        }
    }

    /// <summary>Literals of a call itself, not of calls inside it.</summary>
    private static IEnumerable<string> OwnLiterals(string code, int from, int to)
    {
        for (var at = from; at < to; at++)
        {
            if (code[at] is '(' or '[')
            {
                at = Closing(code, at) - 1;
            }
            else if (code[at] == '"' && Literal().Match(code, at) is { Success: true } literal)
            {
                yield return literal.Groups[1].Value;
                at += literal.Length - 1;
            }
        }
    }

    private static int Closing(string code, int open)
    {
        var depth = 0;
        for (var at = open; at < code.Length; at++)
        {
            if (code[at] == '"' && Literal().Match(code, at) is { Success: true, Index: var found, Length: var length } && found == at)
            {
                at += length - 1;
            }
            else if (code[at] is '(' or '[')
            {
                depth++;
            }
            else if (code[at] is ')' or ']' && --depth == 0)
            {
                return at + 1;
            }
        }

        return code.Length;
    }

    [GeneratedRegex(@"@\*.*?\*@|(?m)^[ \t]*///?[^\n]*$|(?<=[;{]\s*)//[^\n]*", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"<(\w+)(?=[^>]*\slang=""en"")[^>]*>.*?</\1>", RegexOptions.Singleline)]
    private static partial Regex EnglishElement();

    [GeneratedRegex(@"\b(?:Label|Hint|Caption|StartName|title|alt|placeholder|aria-label|data-label|data-one|data-many|data-kept|data-refused)=""(?!@)[^""]*[A-Za-z]{2}[^""]*""")]
    private static partial Regex ReadAttribute();

    [GeneratedRegex(@"<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex(@"^(?:@?(?:page|attribute|using|inject|inherits|implements|namespace|typeparam|if|else|foreach|for|switch|case|default|break|var|string)\b.*|[{}@].*|.*[;{]|<.*|)$")]
    private static partial Regex CodeLine();

    [GeneratedRegex("[A-Za-zÀ-ÿ]{3,}")]
    private static partial Regex Word();

    [GeneratedRegex("&[a-z]+;|mg/L|litres_")]
    private static partial Regex Entity();

    [GeneratedRegex(@"(?m)^\s*(?:@(?:page|attribute|using|inject|inherits|implements|namespace|typeparam)\b|else if\b|if\b|foreach\b|switch\b|for\b|case\b|var\b)[^\n]*$")]
    private static partial Regex OnlyCode();

    [GeneratedRegex(@"\bclass=""[^""]*@\((?:[^()]|\([^()]*\))*\)[^""]*""")]
    private static partial Regex Look();

    [GeneratedRegex(@"\G(?:if|foreach|switch|for)\s*\(")]
    private static partial Regex Condition();

    [GeneratedRegex(@"\{[^{}]*(?:\}|$)")]
    private static partial Regex Hole();

    [GeneratedRegex(@"\G[A-Za-z_]\w*")]
    private static partial Regex ExpressionStart();

    [GeneratedRegex("^(?:page|attribute|using|inject|inherits|implements|namespace|typeparam|if|else|foreach|for|switch|code|bind|key|onsubmit|onclick|formname|rendermode|ref|attributes)$")]
    private static partial Regex Statement();

    [GeneratedRegex(@"\G[?!]?\.[A-Za-z_]\w*|\G!")]
    private static partial Regex Chained();

    [GeneratedRegex(@"^(?!/?>?<).*[A-Za-zÀ-ÿ]{2,}[,.:;]? [A-Za-zÀ-ÿ]")]
    private static partial Regex SentenceLike();

    [GeneratedRegex("^[dMyHmse ,:.'-]+$")]
    private static partial Regex DateFormat();

    /// <summary>Not read by a person who opens the page.</summary>
    [GeneratedRegex(@"(?:Exception\(|Log\w+\(|ErrorMessage = |\[)\$?$")]
    private static partial Regex Quiet();

    [GeneratedRegex(@"\b[Ss]ay(?:\[|(\.Of|\.Count|\.Told)\()")]
    private static partial Regex Call();

    [GeneratedRegex(@"""((?:[^""\\\n]|\\.)*)""")]
    private static partial Regex Literal();

    [GeneratedRegex(@"ErrorMessage = ""((?:[^""\\]|\\.)*)""")]
    private static partial Regex Rule();

    [GeneratedRegex(@"<([A-Z]\w+)[\s/>]")]
    private static partial Regex Component();
}
