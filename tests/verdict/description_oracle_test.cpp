// Descriptions of parts of generated lines: exact, with no term to spare, ranges merged; in pieces where one
// conjunction is not enough.
#include "core/reason/condition.h"
#include "tests/must.h"
#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// A part of a whole of one line, in core's terms and in plain ones.
struct Part {
    const PlainCatalog& plain;
    const Possibilities& set;
    Bits whole, part;
    Where whole_on, part_on;

    Bits selected(const Condition& condition) const { return set.where(condition) & whole; }
};

std::string key_of(const PlainCatalog& plain, std::size_t c, std::size_t a) {
    const auto& value = plain.configurations[c][a];
    return value_key(value.none, plain.attributes[a]->ordered(), value.number, value.word);
}

// The configurations of the whole each of whose values some configuration of the part has: what one conjunction
// about the part cannot help but include.
Where box_around(const Part& one) {
    Where box = one.whole_on;
    for (std::size_t a = 0; a < one.plain.attributes.size(); ++a) {
        std::set<std::string> values;
        for (std::size_t c = 0; c < box.size(); ++c)
            if (one.part_on[c]) values.insert(key_of(one.plain, c, a));
        for (std::size_t c = 0; c < box.size(); ++c) box[c] = box[c] && values.count(key_of(one.plain, c, a)) > 0;
    }
    return box;
}

// Two spans of years or months stand apart only because something between them is not meant.
void check_merged(const Part& one, const Condition& condition, std::size_t t, const std::string& text) {
    const auto kind = one.set.column(condition.terms[t].attribute)->attribute.kind;
    if (kind != ValueKind::year && kind != ValueKind::month) return;
    for (std::size_t s = 0; s + 1 < condition.terms[t].spans.size(); ++s) {
        Condition joined = condition;
        auto& spans = joined.terms[t].spans;
        if (spans[s + 1].high == "none") continue;
        spans[s].high = spans[s + 1].high;
        spans.erase(spans.begin() + static_cast<std::ptrdiff_t>(s) + 1);
        must(!((one.set.where(joined.terms[t]) & one.whole) == (one.set.where(condition.terms[t]) & one.whole)),
             "no two spans could be one", text);
    }
}

void check_text(const Part& one, const std::string& text) {
    const auto condition = parse_condition(text);
    must(one.selected(condition) == one.part, "the text selects the part", text);
    auto plain_on = where_holds(one.plain, text);
    for (std::size_t c = 0; c < plain_on.size(); ++c) plain_on[c] = plain_on[c] && one.whole_on[c];
    must(plain_on == one.part_on, "the text selects the part, read another way", text);
    for (std::size_t t = 0; t < condition.terms.size(); ++t) {
        Condition fewer = condition;
        fewer.terms.erase(fewer.terms.begin() + static_cast<std::ptrdiff_t>(t));
        must(!(one.selected(fewer) == one.part), "no term can be left out", text);
        check_merged(one, condition, t, text);
    }
}

// Each piece lies within the part; what they leave out of it is counted.
void check_pieces(const Part& one, const ConditionPieces& pieces) {
    REQUIRE_FALSE((pieces.conditions.empty() && pieces.further == 0));
    Bits covered(one.set.size());
    for (const auto& piece : pieces.conditions) {
        const Bits selected = one.selected(parse_condition(piece));
        must(one.part.contains(selected), "a piece lies within the part", piece);
        covered |= selected;
    }
    must((one.part - covered).count() == pieces.further, "what the pieces leave out is counted", pieces_text(pieces));
}

Bits some_part(Dice& dice, const PlainCatalog& plain, const Opened& opened, bool scattered) {
    if (scattered) {
        Where some(plain.configurations.size());
        for (std::size_t c = 0; c < some.size(); ++c) some[c] = dice.chance(40);
        return opened.bits(some);
    }
    Bits part = opened.bits(where_holds(plain, some_condition(dice, plain, 2)));
    if (dice.chance(40)) part |= opened.bits(where_holds(plain, some_condition(dice, plain, 2)));
    return part;
}

}  // namespace

TEST_CASE("a description selects exactly the part it describes, with no term to spare and ranges merged") {
    Bench bench;
    std::size_t described = 0, indescribable = 0, pieced = 0;
    for (int n = 0; n < 3000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 4000000);
        const auto plain = some_catalog(dice);
        const Opened opened(bench, plain);
        const Bits whole = opened.bits(
            left_by(plain, some_facts(dice, plain, 2, dice.below(plain.configurations.size()))));
        const Bits part = some_part(dice, plain, opened, n % 4 == 0) & whole;
        if (part.none()) continue;
        const Part one{plain, opened.line().set, whole, part, opened.where(whole), opened.where(part)};
        const auto text = describe(one.set, part, whole);
        must(text.has_value() == (box_around(one) == one.part_on), "there is a text exactly when one conjunction does",
             text.value_or("(none)"));
        if (text) check_text(one, *text);
        const auto pieces = describe_in_pieces(one.set, part, whole);
        check_pieces(one, pieces);
        ++(text ? described : indescribable);
        pieced += pieces.conditions.size() > 1;
    }
    CHECK(described > 500);
    CHECK(indescribable > 100);
    CHECK(pieced > 100);
}
