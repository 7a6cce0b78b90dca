// The condition language: what it says, what it refuses and where, and that its normal form says the same.
#include <catch2/catch.hpp>

#include "core/reason/condition.h"

using namespace casebound;

namespace {

struct Refused {
    std::size_t at = std::string::npos;
    std::string what;
};

template <class Call> Refused refused(Call call) {
    try {
        call();
    } catch (const ConditionFault& fault) { return {fault.at, fault.what()}; }
    return {};
}

Refused parsing(const std::string& text) {
    return refused([&] { parse_condition(text); });
}

Attribute attribute(ValueKind kind, const std::string& unit = "") {
    Attribute a;
    a.name = "thing";
    a.kind = kind;
    a.unit = unit;
    return a;
}

bool matches(const Attribute& a, const std::string& condition, const std::string& value, double tolerance = 0) {
    return Matcher(a, parse_condition(condition).terms.at(0), tolerance).matches(typed_value(a, value));
}

Refused matching(const Attribute& a, const std::string& condition) {
    return refused([&] { Matcher(a, parse_condition(condition).terms.at(0)); });
}

Attribute named(const std::string& name, ValueKind kind, const std::string& unit = "") {
    auto a = attribute(kind, unit);
    a.name = name;
    return a;
}

const std::vector<Attribute>& known() {
    static const std::vector<Attribute> all{named("engine", ValueKind::choice), named("year", ValueKind::year),
                                            named("build", ValueKind::month), named("depth", ValueKind::number, "mm")};
    return all;
}

Refused spelling(const std::string& text, std::size_t most = 4096) {
    return refused([&] { spelled_out(parse_condition(text), known(), most); });
}

}  // namespace

TEST_CASE("a condition is terms that all hold, each an attribute and what it may be") {
    const auto condition = parse_condition(
        " engine = 2.6 ; drive=2wd | 4wd;year=2004..2008; pan_depth>=45mm; not market=island ");
    REQUIRE(condition.terms.size() == 5);
    CHECK(condition.terms[0].attribute == "engine");
    CHECK(condition.terms[0].spans[0].single());
    CHECK(*condition.terms[0].spans[0].low == "2.6");
    CHECK(condition.terms[1].spans.size() == 2);
    CHECK(*condition.terms[1].spans[1].low == "4wd");
    CHECK(*condition.terms[2].spans[0].low == "2004");
    CHECK(*condition.terms[2].spans[0].high == "2008");
    CHECK(*condition.terms[3].spans[0].low == "45mm");
    CHECK_FALSE(condition.terms[3].spans[0].high);
    CHECK(condition.terms[4].negated);
    CHECK(condition.terms[4].attribute == "market");
    CHECK(parse_condition("").terms.empty());
    CHECK(parse_condition("  ").terms.empty());
}

TEST_CASE("`not` is a word of its own, before a blank of either kind") {
    CHECK(parse_condition("not\tmarket=island").terms[0].negated);
    CHECK(parse_condition("not  market=island").terms[0].attribute == "market");
    CHECK_FALSE(parse_condition("nothing=island").terms[0].negated);
    CHECK(parse_condition("not=island").terms[0].attribute == "not");
}

TEST_CASE("each fault of a condition is named, at its offset, with what to write") {
    struct Case {
        const char *text, *what;
        std::size_t at;
    };
    const Case cases[] = {
        {"engine", "`engine` has no comparison: write attribute=value", 0},
        {"engine=2.6; drive", "`drive` has no comparison: write attribute=value", 12},
        {"engine=2.6;;drive=2wd", "an empty term: remove the extra `;`", 11},
        {"engine=2.6;", "an empty term: remove the extra `;`", 11},
        {";", "an empty term: remove the extra `;`", 0},
        {"engine=", "a value is missing: write attribute=value", 7},
        {"engine=a|", "a value is missing: write attribute=value", 9},
        {"engine=a||b", "a value is missing: write attribute=value", 9},
        {"=2.6", "`` is not an attribute name: lower case letters, digits and _", 0},
        {"engine=2.6; Drive=2wd", "`Drive` is not an attribute name: lower case letters, digits and _", 12},
        {"2wd=yes", "`2wd` is not an attribute name: lower case letters, digits and _", 0},
        {"pan depth=3", "`pan depth` is not an attribute name: lower case letters, digits and _", 0},
        {"not Drive=2wd", "`Drive` is not an attribute name: lower case letters, digits and _", 4},
        {"year=..", "a range needs at least one end: write 2004..2008, 2004.. or ..2008", 5},
        {"year=2001..2003..2005", "`2001..2003..2005` has two `..`: write low..high", 5},
        {"engine=a=b", "`a=b` is not a value: write one comparison a term, terms joined by `;`", 7},
        {"year=2004<2006", "`2004<2006` is not a value: write one comparison a term, terms joined by `;`", 5},
        {"depth>=", "`>=`: a comparison takes one value, such as >=45mm", 7},
        {"depth<3|4", "`<3|4`: a comparison takes one value, such as >=45mm", 6},
        {"depth>3..4", "`>3..4`: a comparison takes one value, such as >=45mm", 6},
        {"depth>=>3", "`>=>3`: a comparison takes one value, such as >=45mm", 7},
    };
    for (const auto& [text, what, at] : cases) {
        INFO(text);
        const auto fault = parsing(text);
        CHECK(fault.what == what);
        CHECK(fault.at == at);
    }
    CHECK(refused([] { parse_spans(""); }).what == "a value is missing: write attribute=value");
    CHECK(refused([] { parse_spans("a|"); }).at == 2);
    CHECK(parse_spans("11..16").at(0).high == "16");
}

TEST_CASE("a range includes both ends, a comparison says so") {
    const auto mm = attribute(ValueKind::number, "mm");
    for (const auto* text :
         {"thing=38..45", "thing=38..", "thing=..38", "thing>=38", "thing<=38", "thing=38", "thing=33|38"}) {
        INFO(text);
        CHECK(matches(mm, text, "38 mm"));
    }
    for (const auto* text :
         {"thing>38", "thing<38", "thing=39..45", "thing=..37", "thing=33|45", "not thing=38", "not thing=38.."}) {
        INFO(text);
        CHECK_FALSE(matches(mm, text, "38 mm"));
    }
    CHECK(matches(mm, "not thing=39", "38 mm"));
    CHECK(matches(mm, "thing=1.5in", "38.1 mm"));
    CHECK(matches(mm, "thing=1 1/2 in", "38.1"));
    CHECK(matches(mm, "thing>-5", "-4"));
    CHECK(matches(mm, "thing=-5..-3", "-4"));
}

TEST_CASE("a told number agrees within the tolerance, its end included") {
    const auto mm = attribute(ValueKind::number, "mm");
    CHECK(matches(mm, "thing=38", "39.5", 1.5));
    CHECK(matches(mm, "thing=38", "36.5", 1.5));
    CHECK_FALSE(matches(mm, "thing=38", "39.500001", 1.5));
    CHECK(matches(mm, "thing=38..40", "41.5", 1.5));
    CHECK_FALSE(matches(mm, "thing=38..40", "42", 1.5));
    CHECK_FALSE(matches(mm, "thing=38", "38.001", 0));
    CHECK(matches(mm, "thing=0.3", "0.30000000000000004", 0));  // rounding is not a difference
}

TEST_CASE("years and months are whole, and written one way") {
    const auto year = attribute(ValueKind::year), month = attribute(ValueKind::month);
    CHECK(*typed_value(year, "2006").number == 2006);
    CHECK(*typed_value(month, "2006-09").number == 2006 * 12 + 8);
    CHECK(matches(month, "thing=2005-12..2006-01", "2005-12"));
    CHECK(matches(month, "thing<2006-01", "2005-12"));
    CHECK_FALSE(matches(month, "thing>2005-12", "2005-12"));
    for (const auto* text : {"06", "2006-09", "20006", "1885", "two", "-200", "+200"}) {
        INFO(text);
        CHECK(refused([&] { typed_value(year, text); }).what ==
              "`" + std::string(text) + "` is not a year: write it as 2006");
    }
    for (const auto* text : {"2006", "2006-13", "2006-00", "2006-9", "09-2006", "2006/09", "2006--1", "1885-12"}) {
        INFO(text);
        CHECK(refused([&] { typed_value(month, text); }).what ==
              "`" + std::string(text) + "` is not a month: write it as 2006-09");
    }
}

TEST_CASE("a value an attribute cannot have is refused, with what it can be") {
    CHECK(refused([] { typed_value(attribute(ValueKind::yes_no), "maybe"); }).what ==
          "thing: `maybe` must be yes or no");
    auto closed = attribute(ValueKind::choice);
    closed.choices = {"a", "b"};
    CHECK(refused([&] { typed_value(closed, "c"); }).what == "thing: `c` is not one of a, b");
    CHECK(typed_value(closed, " b ").text == "b");
    CHECK(typed_value(attribute(ValueKind::choice), "anything").text == "anything");
    CHECK(refused([] { typed_value(attribute(ValueKind::number, "mm"), "deep"); }).what.find("mm") !=
          std::string::npos);
    CHECK(refused([] { typed_value(attribute(ValueKind::number, "mm"), "3 L"); }).what.find("mm") != std::string::npos);
}

TEST_CASE("a number is the number shown, so that what was read off an answer can be told again") {
    const auto litre = attribute(ValueKind::number, "L");
    const auto value = typed_value(litre, "5 US qt");  // 4.73176473 L
    CHECK(value.text == "4.731765 L");
    CHECK(typed_value(litre, value.text) == value);
    CHECK(matches(litre, "thing=" + value.text, "5 US qt"));
    CHECK(typed_value(attribute(ValueKind::number, "mm"), "38mm").text == "38 mm");
    CHECK(typed_value(attribute(ValueKind::number), "17").text == "17");
}

TEST_CASE("`none` is a value of every kind, and no part of any range") {
    for (const auto kind :
         {ValueKind::choice, ValueKind::yes_no, ValueKind::number, ValueKind::year, ValueKind::month}) {
        const auto a = attribute(kind);
        CHECK(typed_value(a, "none").text == "none");
        CHECK_FALSE(typed_value(a, "none").number);
        CHECK(matches(a, "thing=none", "none"));
        CHECK_FALSE(matches(a, "not thing=none", "none"));
    }
    const auto year = attribute(ValueKind::year);
    CHECK_FALSE(matches(year, "thing=2001..", "none"));
    CHECK_FALSE(matches(year, "thing<2001", "none"));
    CHECK(matches(year, "not thing=2001..", "none"));
    CHECK(matches(year, "thing=none|2001..2003", "none"));
    const std::string advice = "thing: none has no place in a range: write it as one of several, none|2004..2008";
    for (const auto* text : {"thing=none..2004", "thing=2004..none", "thing=none..", "thing>=none", "thing<none"}) {
        INFO(text);
        CHECK(matching(year, text).what == advice);
    }
}

TEST_CASE("a range of what has no order, or one that runs backwards, is refused") {
    CHECK(matching(attribute(ValueKind::choice), "engine=1; thing=a..b").what.empty());
    CHECK(matching(attribute(ValueKind::choice), "thing=a..b").what == "thing has no order: list its values with |");
    CHECK(matching(attribute(ValueKind::yes_no), "thing>=no").what == "thing has no order: list its values with |");
    CHECK(matching(attribute(ValueKind::number, "mm"), "thing=45..38").what == "45..38 runs backwards: swap the ends");
    CHECK(matching(attribute(ValueKind::number, "mm"), "thing=2in..45").what ==
          "2in..45 runs backwards: swap the ends");
}

TEST_CASE("a row of configurations is spelled out over its alternatives and its years and months") {
    const auto values = spelled_out(
        parse_condition("engine=2.0|2.6|2.0; year=2003..2005; build=2003-12..2004-02|2005-01; depth=38mm|38 mm|1.5in"),
        known());
    REQUIRE(values.size() == 4);
    CHECK(values[0].values.size() == 2);
    CHECK(values[1].values.size() == 3);
    CHECK(values[1].values[2].text == "2005");
    REQUIRE(values[2].values.size() == 4);
    CHECK(values[2].values[1].text == "2004-01");
    REQUIRE(values[3].values.size() == 2);
    CHECK(values[3].values[1].text == "38.1 mm");
    CHECK(spelled_out(parse_condition("year=none|2003"), known())[0].values.size() == 2);
}

TEST_CASE("a row of configurations says what is there, and no more combinations than allowed") {
    CHECK(spelling("gearbox=4").what == "`gearbox` is not an attribute");
    CHECK(spelling("engine=2.6; not year=2003").what == "a configuration says what is there: `not` has no place in it");
    CHECK(spelling("engine=2.6; not year=2003").at == 16);
    CHECK(spelling("year=2003; year=2004").what == "year is given twice: join its values with |");
    CHECK(spelling("year=2003..").what == "year: a configuration needs both ends of a range");
    CHECK(spelling("year>=2003").what == "year: a configuration needs both ends of a range");
    CHECK(spelling("depth=38..45").what ==
          "depth: only years and months may be a range in a configuration: list the values with |");
    CHECK(spelling("engine=a..b").what ==
          "engine: only years and months may be a range in a configuration: list the values with |");
    CHECK(spelling("year=2005..2003").what == "year: 2005..2003 runs backwards: swap the ends");
    CHECK(spelling("year=none..2003").what ==
          "year: none has no place in a range: write it as one of several, none|2004..2008");
    CHECK(spelling("engine=a; year=2003..2006", 4).what.empty());
    CHECK(spelling("engine=a|b; year=2003..2006", 7).what ==
          "the row stands for more than 7 combinations: split the line");
    CHECK(spelling("year=1900..9000; build=1900-01..9000-12").what ==
          "the row stands for more than 4096 combinations: split the line");
}

TEST_CASE("the normal form is plain") {
    CHECK(to_text(parse_condition(" year = 2004 .. 2008 ;drive=2wd|4wd;not  market= island;depth >= 45mm ;depth<52")) ==
          "year=2004..2008; drive=2wd|4wd; not market=island; depth=45mm..; depth<52");
    CHECK(to_text(parse_condition("")) == "");
    CHECK(to_text(parse_condition("year=..2008")) == "year=..2008");
    CHECK(to_text(parse_condition("not depth>45")) == "not depth>45");
}
