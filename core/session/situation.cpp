#include "core/session/situation.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/reason/condition_words.h"
#include "core/verdict/open_line.h"

namespace casebound {

namespace {

const LineModel* line_of(const Catalog& catalog, const Vehicle& vehicle, const std::vector<ToldFact>& told) {
    const auto* line = catalog.line(vehicle.line, told);
    if (!line)
        throw Error(Exit::no_input,
                    fmt::format("{}: its vehicle line {} is in no loaded pack: load the pack that has it", vehicle.name,
                                vehicle.line));
    return line;
}

// The model years the identification number leaves, as one more fact; nothing when it does not narrow.
std::optional<ToldFact> fact_of_vin(const LineModel& line, const Vehicle& vehicle) {
    if (vehicle.vin.empty() || !line.set.column("year")) return std::nullopt;
    const auto reading = read_vin(vehicle.vin, vin_context(vehicle));
    if (reading.error() || reading.model_years.empty()) return std::nullopt;
    return told_fact("year", fmt::format("{}", fmt::join(reading.model_years, "|")), TellEvidence::read,
                     "off the identification number");
}

// What a configuration holds against what was told, a flag a fact.
std::vector<bool> against(const Narrowing& narrowing, std::size_t configuration) {
    std::vector<bool> flags;
    for (const auto& fact : narrowing.facts) flags.push_back(fact.applies && !fact.holding.test(configuration));
    return flags;
}

bool less_is_against(const std::vector<bool>& one, const std::vector<bool>& other) {
    bool less = false;
    for (std::size_t i = 0; i < one.size(); ++i) {
        if (one[i] && !other[i]) return false;
        less |= !one[i] && other[i];
    }
    return less;
}

// Of `on`, what would be true with no more of what was told wrong than must be; marks which facts those are.
Bits with_least_wrong(const Narrowing& narrowing, const Bits& on, std::vector<bool>& wrong) {
    std::map<std::vector<bool>, Bits> kinds;
    on.for_each([&](std::size_t i) { kinds.try_emplace(against(narrowing, i), Bits(on.size())).first->second.set(i); });
    Bits least(on.size());
    wrong.assign(narrowing.facts.size(), false);
    for (const auto& [flags, bits] : kinds) {
        if (std::any_of(kinds.begin(), kinds.end(),
                        [&, &kind = flags](const auto& other) { return less_is_against(other.first, kind); }))
            continue;
        least |= bits;
        for (std::size_t i = 0; i < flags.size(); ++i) wrong[i] = wrong[i] || flags[i];
    }
    return least;
}

constexpr std::string_view number_title = "the identification number";

// Which of the two is right stays open. Where no such model year is on record there is no part to hold an order by.
Doubt doubt_of_number(const LineModel& line, const Narrowing& narrowing, const ToldFact& vin) {
    Doubt doubt{"year", "", "", {Evidence::measured, std::string(number_title), {}}, narrowing.left};
    const auto says = fmt::format("{} says model year {}", number_title, vin.text);
    const auto on = line.set.where(Term{"year", false, vin.right_side.spans(), 0});
    if (on.none()) {
        doubt.reason = fmt::format("{}, of which nothing is on record for {}", says, line.title);
        doubt.until = "read it again, and correct it, or the line";
        return doubt;
    }
    std::vector<bool> wrong;
    doubt.worlds |= with_least_wrong(narrowing, on, wrong);
    std::vector<std::string> said;
    for (std::size_t i = 0; i < wrong.size(); ++i)
        if (wrong[i]) said.push_back(narrowing.facts[i].said()), doubt.attribute = narrowing.facts[i].attribute;
    if (said.size() > 1) doubt.attribute = "year";
    doubt.reason = fmt::format("{}, and told is {}", says, fmt::join(said, ", "));
    doubt.until = "read both again, and correct the one that is wrong";
    return doubt;
}

// A number that contradicts what was told, or the line, narrows nothing.
Narrowing narrowed(const Catalog& catalog, const LineModel& line, const Vehicle& vehicle,
                   const std::vector<ToldFact>& facts) {
    const auto vin = fact_of_vin(line, vehicle);
    if (!vin) return narrow(line, catalog.vocabularies(), facts);
    auto with_vin = facts;
    with_vin.push_back(*vin);
    try {
        return narrow(line, catalog.vocabularies(), std::move(with_vin));
    } catch (const Error&) {}
    auto narrowing = narrow(line, catalog.vocabularies(), facts);
    narrowing.doubts.push_back(doubt_of_number(line, narrowing, *vin));
    return narrowing;
}

}  // namespace

VinContext vin_context(const Vehicle& vehicle) {
    VinContext context;
    context.newest_model_year = std::stoi(today().substr(0, 4)) + 1;
    if (!vehicle.market.empty())
        context.market = vehicle.market == "north-america" ? VinMarket::north_america : VinMarket::elsewhere;
    return context;
}

Situation::Situation(const Catalog& catalog, const Plugins& plugins, Vehicle vehicle, const std::vector<ToldFact>& told,
                     const std::optional<Bits>& supposed)
    : vehicle_(std::move(vehicle)), words_(&catalog.vocabularies()), line_(line_of(catalog, vehicle_, told)),
      narrowing_(narrowed(catalog, *line_, vehicle_, told)), entries_(told) {
    if (supposed) narrowing_.left = *supposed;
    for (const auto& fact : told)  // as met with the line, without what only the identification number says
        told_.push_back(*std::find_if(narrowing_.facts.begin(), narrowing_.facts.end(),
                                      [&](const ToldFact& one) { return one.attribute == fact.attribute; }));
    judge_ = std::make_unique<Judge>(catalog, plugins, *line_, narrowing_, *this, engine_);
    interchange_ = std::make_unique<Interchange>(catalog, plugins, engine_, judge_.get());
    places_ = std::make_unique<Places>(*judge_, *interchange_);
}

namespace {

// Of two that looked only numbers clash, and not within what measuring allows.
bool agrees(const Vocabularies& words, const Attribute& attribute, const ToldFact& entry, const ToldFact& standing) {
    if (entry.id > standing.id) return false;
    return attribute.kind != ValueKind::number || !entry.right_side.single() || !standing.right_side.single() ||
           same_told(words, entry, standing);
}

// What the line may be where this is true. In a line that is not listed that is what nobody has mentioned, too.
Bits where_told(const LineModel& line, const Attribute& attribute, const ToldFact& entry) {
    const auto on = line.set.where(Term{entry.attribute, false, entry.right_side.spans(), 0}, attribute.tolerance);
    const bool mentioned = entry.right_side.single() != nullptr && on.any();
    return !line.open || mentioned ? on
                                   : on | line.set.where(Term{entry.attribute, false, parse_spans(something_else), 0});
}

}  // namespace

bool same_told(const Vocabularies& words, const ToldFact& one, const ToldFact& other) {
    if (one.right_side == other.right_side) return true;
    const auto* attribute = words.attribute(one.attribute);
    const auto* first = one.right_side.single();
    const auto* second = other.right_side.single();
    if (!attribute || attribute->kind != ValueKind::number || !first || !second) return false;
    const auto a = typed_value(*attribute, *first).number, b = typed_value(*attribute, *second).number;
    return a && b && std::abs(*a - *b) <= attribute->tolerance;
}

std::string joined_values(const std::string& seen, const std::string& more) {
    auto all = split_at(seen, '+');
    for (auto& one : split_at(more, '+'))
        if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(std::move(one));
    return fmt::format("{}", fmt::join(all, "+"));
}

// Hearsay of a finding beside what was seen: for a domain both are there, and neither is better known than it.
void Situation::see_beside(const ToldFact& entry) {
    const auto* attribute = words_->attribute(entry.attribute);
    if (!attribute || !attribute->several || entry.text == attribute->alone) return;
    for (auto& told : told_) {
        if (told.attribute != entry.attribute) continue;
        told.text = told.text == attribute->alone ? entry.text : joined_values(told.text, entry.text);
        told.evidence = std::max(told.evidence, entry.evidence);
    }
}

void Situation::doubt(const std::vector<ToldFact>& clashes) {
    for (const auto& entry : clashes) {
        const auto* attribute = words_->attribute(entry.attribute);
        if (attribute && attribute->finding && is_hearsay(entry.evidence)) see_beside(entry);
        if (!attribute || !line_->set.column(entry.attribute)) continue;
        std::vector<const ToldFact*> others;
        const ToldFact* stands = nullptr;
        for (const auto& fact : narrowing_.facts) {
            if (fact.attribute != entry.attribute) others.push_back(&fact);
            else if (!stands || fact.id != 0) stands = &fact;
        }
        if (!stands || agrees(*words_, *attribute, entry, *stands)) continue;
        narrowing_.doubts.push_back(
            {entry.attribute,
             fmt::format("{} is {} ({}), and {} was {} on {}", attribute->title, value_words(*attribute, stands->text),
                         tell_evidence_words(stands->evidence), value_words(*attribute, entry.text),
                         tell_evidence_words(entry.evidence), entry.date),
             entry.id < stands->id ? "count or measure once more, and tell it: what comes out twice stands"
                                   : "look again, and tell it anew with how you know it",
             {evidence_of(entry.evidence), std::string(tell_evidence_words(entry.evidence)), {}},
             narrowing_.left | (narrowing_.left_by(others) & where_told(*line_, *attribute, entry))});
    }
}

bool Situation::number_in_doubt() const {
    return std::any_of(narrowing_.doubts.begin(), narrowing_.doubts.end(),
                       [](const Doubt& doubt) { return doubt.source.title == number_title; });
}

std::optional<std::string> number_outside(const LineModel& line, const Vehicle& vehicle) {
    const auto vin = line.open ? std::nullopt : fact_of_vin(line, vehicle);
    if (!vin || line.set.where(Term{"year", false, vin->right_side.spans(), 0}).any()) return std::nullopt;
    std::vector<std::string> years;
    for (const auto& value : line.set.column("year")->values) years.push_back(value.text);
    return fmt::format(
        "identification number {}: it says model year {}, and {} is on record for {}: read it again; "
        "for a vehicle that was not made for North America say its market",
        vehicle.vin, vin->text, line.title, fmt::join(years, ", "));
}

void Situation::settle(const std::vector<std::string>& attributes) {
    settled_.insert(settled_.end(), attributes.begin(), attributes.end());
    // What is accepted is named, though something else, such as the identification number, says it as well.
    for (const auto& fact : narrowing_.facts)
        if (is_hearsay(fact.evidence) &&
            std::find(attributes.begin(), attributes.end(), fact.attribute) != attributes.end())
            narrowing_.ordered_as_if.push_back(fact.said());
    std::erase_if(narrowing_.doubts, [&](const Doubt& doubt) {
        return std::find(settled_.begin(), settled_.end(), doubt.attribute) != settled_.end();
    });
}

void Situation::ordered_as_if(const std::vector<Accepted>& accepted) {
    for (const auto& one : accepted)
        narrowing_.ordered_as_if.push_back(fmt::format("{}={} (accepted for {} on {}, not measured)", one.attribute,
                                                       one.text, one.job_key, one.entered));
}

std::vector<PossibleValue> Situation::possible(std::string_view attribute) const {
    std::vector<PossibleValue> values;
    if (const auto* column = line_->set.column(attribute))
        for (const auto& [value, share] : line_->set.values_left(*column, narrowing_.left))
            values.push_back({value->text, value->number, share});
    if (line_->set.column(attribute)) return values;
    const auto fact = std::find_if(narrowing_.facts.begin(), narrowing_.facts.end(),
                                   [&](const ToldFact& one) { return one.attribute == attribute; });
    const auto* known = words_->attribute(attribute);
    if (fact == narrowing_.facts.end() || !known || known->finding) return values;
    const auto& spans = fact->right_side.spans();
    for (const auto& span : spans) {
        if (!span.single()) return {};
        const auto value = typed_value(*known, *span.low);
        values.push_back({value.text, value.number, 1.0 / static_cast<double>(spans.size())});
    }
    return values;
}

Evidence Situation::left_rests_on() const { return judge_->left_rests_on(); }

Holds Situation::holds(std::string_view condition) const {
    if (const auto found = held_.find(condition); found != held_.end()) return found->second;
    const auto holds = holds_on(*line_, *words_, narrowing_, condition);
    held_.emplace(condition, holds);
    return holds;
}

std::vector<Told> Situation::told() const { return told_; }

std::string Situation::headline() const {
    const auto left = narrowing_.left.count(), all = line_->set.size();
    std::string text = line_->title;
    const ToldFact* said = nullptr;  // told, and read off the identification number: once
    for (const auto& fact : narrowing_.facts) {
        if (!fact.applies || (said && said->attribute == fact.attribute && said->text == fact.text)) continue;
        said = &fact;
        const auto& attribute = line_->set.column(fact.attribute)->attribute;
        text += fmt::format("; {} {}", named(attribute.title, attribute.name), value_words(attribute, fact.text));
    }
    for (const auto& one : narrowing_.ordered_as_if) text += fmt::format("; ordered as if {}", one);
    if (line_->open) return fmt::format("{}; what it can be is not listed", text);
    return fmt::format("{}; {}", text,
                       left == all ? fmt::format("{} versions, none ruled out", all)
                                   : fmt::format("{} of {} versions still possible", left, all));
}

std::vector<Photo> Situation::photos_of(const Leaf& leaf) const {
    if (!leaf.row() || statement_photos_.empty()) return leaf.photos;
    const auto found = statement_photos_.find(judge_->catalog().name_of(leaf.row()->source));
    return found == statement_photos_.end() ? std::vector<Photo>{} : found->second;
}

}  // namespace casebound
