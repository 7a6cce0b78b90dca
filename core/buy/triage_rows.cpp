#include "core/buy/triage_rows.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

const Term* only_term(const Condition& condition) {
    return condition.terms.size() == 1 ? &condition.terms.front() : nullptr;
}

bool matches(const Attribute& attribute, const Term& term, const std::string& value) {
    try {
        return Matcher(attribute, term, attribute.tolerance).matches(typed_value(attribute, value));
    } catch (const ConditionFault&) { return false; }  // a range, or what was told before its pack knew the attribute
}

// Every single value that was told: seen side by side, and each that it may be.
std::vector<std::string> values_of(const Told& told) {
    std::vector<std::string> all;
    for (const auto& one : told.alternatives())
        for (auto& seen : split_at(one, '+')) all.push_back(std::move(seen));
    return all;
}

// Holds a "not" only where none of what was told is excluded.
bool told_as(const Attribute& attribute, const Term& term, const Told& told) {
    const auto values = attribute.several || told.text.find('|') != std::string::npos
                            ? values_of(told)
                            : std::vector<std::string>{told.text};
    const auto one = [&](const std::string& value) { return matches(attribute, term, value); };
    return term.negated ? std::all_of(values.begin(), values.end(), one)
                        : std::any_of(values.begin(), values.end(), one);
}

struct Sign {
    std::size_t cause;
    std::vector<Span> spans;
    std::optional<double> chance;
    std::string ask;
    SourceNote source;
};

std::string key_of(const Attribute& attribute, const Span& span) {
    return to_text(Condition{{Term{attribute.name, false, {span}, 0}}});
}

std::string words_of(const Attribute& attribute, const Span& span) {
    const auto value = [&](const std::optional<std::string>& end) { return value_words(attribute, *end); };
    if (span.single()) return value(span.low);
    if (!span.low) return (span.high_excluded ? "below " : "up to ") + value(span.high);
    if (!span.high) return (span.low_excluded ? "above " : "from ") + value(span.low);
    return value(span.low) + " to " + value(span.high);
}

std::vector<std::string> choices_of(const Attribute& attribute) {
    if (attribute.kind == ValueKind::yes_no) return {"yes", "no"};
    return attribute.choices;
}

// Values that always stand together in the signs are one answer; what no sign names is another.
class Answers {
public:
    Answers(const Attribute& attribute, const std::vector<Sign>& signs) {
        std::vector<Span> named;
        std::map<std::string, std::vector<std::size_t>> in;  // by span: the signs that name it
        for (std::size_t i = 0; i < signs.size(); ++i)
            for (const auto& span : signs[i].spans) {
                auto& of = in[key_of(attribute, span)];
                if (of.empty()) named.push_back(span);
                of.push_back(i);
            }
        std::map<std::vector<std::size_t>, std::size_t> at;
        for (const auto& span : named) {
            const auto& of = in[key_of(attribute, span)];
            const auto [found, fresh] = at.emplace(of, answers_.size());
            if (fresh) answers_.push_back({}), signs_.push_back(of);
            answers_[found->second].spans.push_back(span);
        }
        std::vector<Span> rest;
        const auto choices = choices_of(attribute);
        for (const auto& choice : choices) {
            const Span span{choice, choice};
            if (!in.contains(key_of(attribute, span))) rest.push_back(span);
        }
        if (choices.empty() || !rest.empty()) answers_.push_back({}), signs_.emplace_back();
        for (auto& answer : answers_)
            answer.words = listed_words(attribute, answer.spans.empty() ? rest : answer.spans);
    }

    // How often each answer comes where it is this cause: as its signs say; what they leave is shared evenly by the
    // answers that they do not name, and nothing said is even shares of all.
    std::vector<double> row(std::size_t cause, const std::vector<Sign>& signs) const {
        std::vector<double> row(answers_.size(), 0);
        std::vector<bool> spoken(answers_.size(), false);
        double sum = 0;
        for (std::size_t i = 0; i < signs.size(); ++i) {
            if (signs[i].cause != cause) continue;
            std::vector<std::size_t> covers;
            for (std::size_t answer = 0; answer < answers_.size(); ++answer)
                if (std::find(signs_[answer].begin(), signs_[answer].end(), i) != signs_[answer].end())
                    covers.push_back(answer);
            const double chance = signs[i].chance.value_or(1);
            sum += chance;
            for (const auto answer : covers)
                row[answer] += chance / static_cast<double>(covers.size()), spoken[answer] = true;
        }
        if (sum > 1 + 1e-9)
            throw Error(Exit::bad_data,
                        fmt::format("cause_signs: the chances of one cause come to {} by {}: of 1 they share what is "
                                    "found: correct them",
                                    plain_number(sum, 3), signs.front().source.title));
        const auto silent = std::count(spoken.begin(), spoken.end(), false);
        if (silent == 0)
            for (auto& chance : row) chance = sum > 0 ? chance / sum : 1.0 / static_cast<double>(row.size());
        else
            for (std::size_t answer = 0; answer < row.size(); ++answer)
                if (!spoken[answer]) row[answer] = (1 - sum) / static_cast<double>(silent);
        return row;
    }

    std::vector<SignAnswer> take() { return std::move(answers_); }
    std::size_t size() const { return answers_.size(); }

private:
    static std::string listed_words(const Attribute& attribute, const std::vector<Span>& spans) {
        if (spans.empty() || spans.size() > 4) return "anything else";
        std::string words;
        for (std::size_t i = 0; i < spans.size(); ++i)
            words += (i == 0 ? "" : i + 1 == spans.size() ? " or " : ", ") + words_of(attribute, spans[i]);
        return words;
    }

    std::vector<SignAnswer> answers_;
    std::vector<std::vector<std::size_t>> signs_;  // by answer: the signs that name it
};

// The causes that an attribute as told may have; those of the line, where it has any, else the general ones.
std::vector<const Row*> rows_for(const Situation& situation, const Catalog& catalog, const Told& told) {
    std::vector<const Row*> own, general;
    for (const auto& row : catalog.facts().rows("causes")) {
        if (row.stated("line") && row.text("line") != situation.line()) continue;
        const auto condition = parse_condition(row.text("finding"));
        const auto* term = only_term(condition);
        const auto* attribute = term ? catalog.vocabularies().attribute(term->attribute) : nullptr;
        if (!attribute || term->attribute != told.attribute || !told_as(*attribute, *term, told)) continue;
        (row.stated("line") ? own : general).push_back(&row);
    }
    return own.empty() ? general : own;
}

CauseOnRecord cause_of(const Row& row) {
    CauseOnRecord cause{std::string(row.text("cause")),
                        std::string(row.text("title")),
                        row.number("share"),
                        row.text("cure") == "unit",
                        std::string(row.text("job")),
                        {},
                        std::string(row.text("currency")),
                        row_source(row)};
    if (row.stated("cost_likely"))
        cause.cost = Estimate{row.need_number("cost_low"), row.need_number("cost_likely"), row.need_number("cost_high"),
                              fmt::format("{} [{}]", cause.source.title, evidence_words(cause.source.evidence))};
    return cause;
}

std::vector<SignQuestion> questions_of(const TroubleOnRecord& trouble, const Catalog& catalog) {
    std::map<std::string, std::vector<Sign>> by_attribute;
    std::vector<std::string> order;
    for (std::size_t cause = 0; cause < trouble.causes.size(); ++cause)
        for (const auto& row : catalog.facts().rows("cause_signs", "cause", trouble.causes[cause].key)) {
            const auto condition = parse_condition(row.text("finding"));
            const auto* term = only_term(condition);
            if (!term || term->negated || term->attribute == trouble.told.attribute ||
                !catalog.vocabularies().attribute(term->attribute))
                continue;
            auto& signs = by_attribute[term->attribute];
            if (signs.empty()) order.push_back(term->attribute);
            signs.push_back({cause, term->spans, row.number("chance"), std::string(row.text("ask")), row_source(row)});
        }
    std::vector<SignQuestion> questions;
    for (const auto& name : order) {
        const auto& signs = by_attribute[name];
        SignQuestion question{*catalog.vocabularies().attribute(name), "", {}, {}, signs.front().source};
        Answers answers(question.attribute, signs);
        if (answers.size() < 2) continue;
        for (const auto& sign : signs) {
            if (question.ask.empty()) question.ask = sign.ask;
            question.source = weaker(question.source, sign.source);
        }
        for (std::size_t cause = 0; cause < trouble.causes.size(); ++cause)
            question.chances.push_back(answers.row(cause, signs));
        question.answers = answers.take();
        questions.push_back(std::move(question));
    }
    return questions;
}

}  // namespace

std::vector<std::size_t> SignQuestion::meant(const Told& told) const {
    std::set<std::size_t> found;
    for (const auto& value : values_of(told)) {
        std::optional<std::size_t> rest, named;
        for (std::size_t i = 0; i < answers.size(); ++i) {
            if (answers[i].spans.empty()) rest = i;
            else if (!named && matches(attribute, Term{attribute.name, false, answers[i].spans, 0}, value)) named = i;
        }
        if (named || rest) found.insert(named ? *named : *rest);
    }
    return {found.begin(), found.end()};
}

std::vector<TroubleOnRecord> troubles_on_record(const Situation& situation, const Catalog& catalog) {
    std::vector<TroubleOnRecord> all;
    for (const auto& told : situation.told()) {
        const auto rows = rows_for(situation, catalog, told);
        if (rows.empty()) continue;
        TroubleOnRecord trouble{told, catalog.vocabularies().attribute(told.attribute)->title, {}, {}};
        for (const auto* row : rows) trouble.causes.push_back(cause_of(*row));
        trouble.questions = questions_of(trouble, catalog);
        all.push_back(std::move(trouble));
    }
    return all;
}

std::vector<std::string> findings_on_record(const Situation& situation, const Catalog& catalog) {
    std::vector<std::string> titles;
    for (const auto& row : catalog.facts().rows("causes")) {
        if (row.stated("line") && row.text("line") != situation.line()) continue;
        for (const auto& term : parse_condition(row.text("finding")).terms)
            if (const auto* attribute = catalog.vocabularies().attribute(term.attribute);
                attribute && std::find(titles.begin(), titles.end(), attribute->title) == titles.end())
                titles.push_back(attribute->title);
    }
    return titles;
}

}  // namespace casebound
