using System.Text.RegularExpressions;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Tests.Flags.FirstAidTexts;

/// <summary>What no card may say, and what none may leave out, in both languages.</summary>
public class FirstAidWordTests
{
    private const RegexOptions Plain = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant;

    private static readonly Dictionary<string, Regex> Electric = new()
    {
        ["en"] = new(@"plug|outlet|pump\b|chiller|\bcord", Plain),
        ["es"] = new("enchuf|tomacorriente|bomba|enfriador|cable", Plain),
    };

    private static readonly Dictionary<string, Regex> HandAtThePlug = new()
    {
        ["en"] = new(@"plug(s|ged)?\b|\boutlet|\bresets?\b|power strip|\bcord|lifts it out|turns on|set point\W+\S+ \S+ a day", Plain),
        ["es"] = new("enchuf|tomacorriente|regleta|cables?\b|la saca sobre|cambia la temperatura fijada", Plain),
    };

    private static readonly Dictionary<string, Regex> Adult = new() { ["en"] = new(@"\badults?\b", Plain), ["es"] = new(@"\badultos?\b", Plain) };

    private static readonly Dictionary<string, Regex> Remedy = new()
    {
        ["en"] = new(@"copper|\bsalt\b|medicine|buffer|antibiotic|remed", Plain),
        ["es"] = new(@"cobre|\bsal\b(?! )|\bsal,|medicina|regulador|antibi", Plain),
    };

    private static readonly Dictionary<string, Regex> Refusal = new()
    {
        ["en"] = new(@"\b(no|not|never|nothing)\b", Plain),
        ["es"] = new(@"\b(no|nunca|nada|ni)\b", Plain),
    };

    /// <summary>Words of the other language that would have no business in a text.</summary>
    private static readonly Dictionary<string, Regex> Foreign = new()
    {
        ["es"] = new(@"\b(the|and|water|your|with|tank|eggs?|fish|fry|chiller|pump|plug|outlet|is|of|to|if|you|not|food|day|today|school|alevins)\b", Plain),
        ["en"] = new(@"[áéíóúñ¿¡]|\b(el|la|los|las|agua|un|una|por|con|que|del|hoy|tanque|peces|huevos|adulto)\b", Plain),
    };

    public static TheoryData<FlagKind, string> KindsAndLanguages
    {
        get
        {
            var data = new TheoryData<FlagKind, string>();
            foreach (var kind in Enum.GetValues<FlagKind>())
            {
                foreach (var language in Bilingual.Languages)
                {
                    data.Add(kind, language);
                }
            }

            return data;
        }
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void Every_trouble_at_every_stage_has_steps_a_question_and_cautions(FlagKind kind, string language)
    {
        Assert.All(AidCases.All.Where(c => c.Kind == kind), one =>
        {
            var card = one.Script.In(language);
            Assert.InRange(card.Say.Count, 3, 9);
            Assert.All([.. card.Say, .. card.Cautions], s => Assert.Matches(@"^[A-Z¿].*[.?]$", s));
            Assert.Equal(card.Say.Count, card.Say.Distinct().Count());
            Assert.EndsWith("?", card.AskNext, StringComparison.Ordinal);
            Assert.Contains(Warnings.AgencyWins.In(language), card.Cautions);
        });
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void Where_plugs_pumps_or_chillers_are_named_the_adult_at_the_plug_is_too(FlagKind kind, string language)
    {
        Assert.All(AidCases.All.Where(c => c.Kind == kind), one =>
        {
            var card = one.Script.In(language);
            if (card.Say.Any(s => Electric[language].IsMatch(s)))
            {
                Assert.Contains(Warnings.AdultAtThePlug.In(language), card.Cautions);
                Assert.Equal(Warnings.PlugInShort.In(language), card.Guard);
            }
        });
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void A_hand_at_a_plug_is_an_adults_in_the_same_sentence(FlagKind kind, string language)
    {
        var sentences = AidCases.All.Where(c => c.Kind == kind)
            .SelectMany(c => AidCases.Sentences(c.Script.In(language).Say)).Where(s => HandAtThePlug[language].IsMatch(s));

        Assert.All(sentences, s => Assert.Matches(Adult[language], s));
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void No_card_names_medicine_salt_copper_or_buffer_but_to_refuse_it(FlagKind kind, string language)
    {
        var sentences = AidCases.All.Where(c => c.Kind == kind).Select(c => c.Script.In(language))
            .SelectMany(c => AidCases.Sentences([.. c.Say, .. c.Cautions])).Where(s => Remedy[language].IsMatch(s));

        Assert.All(sentences, s => Assert.Matches(Refusal[language], s));
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void Nothing_of_the_other_language_is_left_over(FlagKind kind, string language)
    {
        Assert.All(AidCases.All.Where(c => c.Kind == kind), one =>
        {
            var card = one.Script.In(language);
            Assert.All([.. card.Say, .. card.Cautions, card.AskNext, card.Guard ?? ""], s => Assert.DoesNotMatch(Foreign[language], s));
        });
        Assert.DoesNotMatch(Foreign[language], FirstAid.ForClass(kind, OwnTexts.None, language));
        Assert.DoesNotMatch(Foreign[language], KindNames.Of(kind).In(language));
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void Both_scales_stand_side_by_side_and_the_decimal_sign_is_the_languages(FlagKind kind, string language)
    {
        var wrong = language == "es" ? @"\d\.\d" : @"\d,\d";
        Assert.All(AidCases.All.Where(c => c.Kind == kind).SelectMany(c => c.Script.In(language).Say), s =>
        {
            Assert.DoesNotMatch(wrong, s);
            Assert.Equal(Regex.Count(s, "°F"), Regex.Count(s, "°C"));
            Assert.DoesNotMatch(@"NaN|∞|\{|\}", s);
        });
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void The_two_languages_say_the_same_numbers(FlagKind kind, string language)
    {
        var other = Bilingual.Languages.Single(l => l != language);
        Assert.All(AidCases.All.Where(c => c.Kind == kind), one => Assert.Equal(Numbers(one.Script.In(language)), Numbers(one.Script.In(other))));

        static IEnumerable<string> Numbers(FirstAidCard card) => card.Say.SelectMany(s => Regex.Matches(s, @"\d+([.,]\d+)?").Select(m => m.Value.Replace(',', '.')));
    }

    [Theory, MemberData(nameof(KindsAndLanguages))]
    public void A_class_is_sent_to_its_teacher_in_words_of_its_age(FlagKind kind, string language)
    {
        var line = FirstAid.ForClass(kind, OwnTexts.None, language);

        Assert.StartsWith(language == "es" ? "Dile " : "Tell your teacher", line, StringComparison.Ordinal);
        Assert.True(line.Length <= 100, line);
        Assert.All(line.Split([' ', '.', ':'], StringSplitOptions.RemoveEmptyEntries), word => Assert.True(word.Length <= 11, word));
        Assert.All(AidCases.Sentences([line]).Where(s => HandAtThePlug[language].IsMatch(s)), s => Assert.Matches("^(Do not touch|No toques)", s));
    }

    [Fact]
    public void The_guards_of_these_tests_can_fail()
    {
        Assert.Matches(HandAtThePlug["en"], "Unplug the chiller.");
        Assert.Matches(HandAtThePlug["es"], "Desenchufe el enfriador.");
        Assert.DoesNotMatch(Adult["en"], "Unplug the chiller.");
        Assert.Matches(Remedy["es"], "Ponga un poco de sal.");
        Assert.DoesNotMatch(Refusal["es"], "Ponga un poco de sal.");
        Assert.Matches(Foreign["es"], "Lea the número.");
        Assert.Matches(Foreign["en"], "Read el número.");
    }
}
