using System.Globalization;
using System.Reflection;
using System.Text.Json.Serialization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.Numbers;
using Tankside.Portal.Flags.Reckoned;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A number of a call opens to its inputs, its rule and where its limits come from.</summary>
public class ReckonedTests
{
    [Fact]
    public void Every_kind_of_flag_has_its_rule_and_the_subject_of_its_numbers()
    {
        foreach (var kind in Enum.GetValues<FlagKind>())
        {
            var rule = RuleSentences.Of(kind);
            Assert.EndsWith(".", rule.Rule, StringComparison.Ordinal);
            Assert.Contains(NumberWords.Groups, g => g.Slug == rule.Subject);
        }

        Assert.Contains(NumberWords.Groups, g => g.Slug == "loss-heat");
    }

    [Fact]
    public void The_inputs_of_a_warm_tank_are_those_that_the_flag_rests_on()
    {
        var at = new DateTime(2027, 2, 3, 15, 10, 0, DateTimeKind.Utc);
        var inputs = EvidenceInputs.Of(new TemperatureEvidence(LifeStage.Egg, 14, at, 13, at.AddHours(-3), 11), new ScaleWords(TemperatureUnit.F), d => d.ToString("HH:mm", CultureInfo.InvariantCulture));

        Assert.Equal(
            ["at: 15:10", "limit: 55.4 °F (13 °C)", "set point: 51.8 °F (11 °C)", "since: 12:10", "stage: egg", "water: 57.2 °F (14 °C)"],
            inputs.Select(i => $"{i.Name}: {i.Value}".Replace('\u00A0', ' ')).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_rule_every_name_and_every_word_has_its_Spanish()
    {
        Assert.All(Enum.GetValues<FlagKind>(), kind => Assert.NotEqual(RuleSentences.Of(kind).Rule, RuleSentences.Said(kind, Say.InSpanish)));
        var properties = typeof(Evidence).GetCustomAttributes<JsonDerivedTypeAttribute>().SelectMany(a => a.DerivedType.GetProperties(BindingFlags.Public | BindingFlags.Instance))
            .Where(p => p.Name is not ("EqualityContract" or "LooksLike" or "Word") && !typeof(System.Collections.IEnumerable).IsAssignableFrom(p.PropertyType) || p.PropertyType == typeof(string)).ToList();

        Assert.Empty(properties.Select(p => p.Name).Distinct().Except(EvidenceInputs.SpanishNames));
        Assert.Empty(properties.Select(p => Nullable.GetUnderlyingType(p.PropertyType) ?? p.PropertyType).Where(t => t.IsEnum && t != typeof(FlagKind)).Distinct()
            .SelectMany(t => Enum.GetNames(t).Select(n => $"{t.Name}.{n}")).Except(EvidenceInputs.SpanishWords));
    }

    /// <summary>A property that is neither a number, a moment nor a word is left out; those that are lists of their own are known.</summary>
    [Fact]
    public void No_input_of_any_evidence_is_lost_but_those_that_are_lists()
    {
        Type[] told = [typeof(double), typeof(int), typeof(bool), typeof(DateTime), typeof(DateOnly), typeof(PassTimes), typeof(string)];
        var lost = typeof(Evidence).GetCustomAttributes<JsonDerivedTypeAttribute>().SelectMany(a => a.DerivedType.GetProperties(BindingFlags.Public | BindingFlags.Instance))
            .Where(p => p.Name is not ("EqualityContract" or "LooksLike"))
            .Where(p => (Nullable.GetUnderlyingType(p.PropertyType) ?? p.PropertyType) is var type && !type.IsEnum && !told.Contains(type))
            .Select(p => $"{p.DeclaringType!.Name}.{p.Name}").Distinct();

        // Which tanks have a cause in common is a list of its own on the page; what was said in a power cut stands in the sentence of reason.
        Assert.Equal(["PowerCutEvidence.Word", "SharedCauseEvidence.Also", "SharedCauseEvidence.Others", "SharedCauseEvidence.Tanks"], lost.Order(StringComparer.Ordinal));
    }
}
