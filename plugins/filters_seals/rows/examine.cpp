#include "rows/examine.h"

#include "rows/pack_words.h"

namespace casebound::filters_seals {
namespace {

// What lies in the pan decides whether to order at all.
void weigh_what_was_found(Case& one) {
    for (const auto& seen : one.told_seen("pan_debris")) {
        const auto debris = debris_from(seen);
        if (!debris || !debris_row(*debris).stop_and_decide) continue;
        const auto& row = debris_row(*debris);
        one.caution("In the pan: " + std::string(row.found) + ", which reads as " + std::string(row.reads_as) +
                    ". Decide again before ordering.");
    }
}

std::string kind_of(const Facts& facts, std::string_view group) {
    const auto& rows = facts.rows("groups", "group_key", group);
    return rows.empty() ? "" : std::string(rows.front().text("kind"));
}

bool is_seal(std::string_view kind) {
    return kind == "neck-seal" || kind == "shaft-seal" || kind == "connector-seal" || kind == "tube-seal" ||
           kind == "plug-washer";
}

}  // namespace

std::string Case::told(std::string_view attribute) const {
    for (const auto& told : vehicle().told())
        if (told.attribute == attribute) return told.text;
    return "";
}

std::vector<std::string> Case::told_seen(std::string_view attribute) const {
    for (const auto& told : vehicle().told())
        if (told.attribute == attribute) return told.seen();
    return {};
}

void Case::object(std::string condition, Verdict at_most, std::string reason, SourceNote source) {
    if (at_most == Verdict::does_not_fit && source.evidence == Evidence::memory) at_most = Verdict::check_first;
    result.objections.push_back({std::move(condition), at_most, std::move(reason), std::move(source)});
}

void Case::object_to_other_number(std::string_view attribute, const std::optional<double>& recorded_value,
                                  std::string_view what, const Row& row) {
    if (!recorded_value) return;
    for (const auto& value : vehicle().possible(attribute))
        if (value.number && *value.number != *recorded_value)
            object(condition_for(attribute, value), Verdict::does_not_fit,
                   std::string(what) + " " + shown(*recorded_value) + ", this vehicle has " + value.text,
                   row_note(row));
}

std::string condition_for(std::string_view attribute, const PossibleValue& value) {
    return std::string(attribute) + "=" + value.text;
}

std::string both(std::string_view a, std::string_view b) {
    if (a.empty() || b.empty()) return std::string(a.empty() ? b : a);
    return std::string(a) + "; " + std::string(b);
}

Examination examine_candidate(const Candidate& candidate, const Services& services) {
    if (!services.vehicle) return {};
    Case one{candidate, services};
    const std::string kind = kind_of(services.facts, candidate.group);
    if (kind == "pan-filter") examine_filter(one);
    else if (kind == "pan") examine_pan(one);
    else if (kind == "pan-gasket") examine_gasket(one);
    else if (kind == "pan-bolt") examine_pan_bolts(one);
    else if (is_seal(kind)) examine_seal(one);
    if (kind == "pan-filter" || kind == "pan") weigh_what_was_found(one);
    return std::move(one.result);
}

}  // namespace casebound::filters_seals
