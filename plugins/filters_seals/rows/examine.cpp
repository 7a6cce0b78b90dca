#include "rows/examine.h"

#include <algorithm>

#include "rows/hooks.h"
#include "rows/reading.h"

namespace casebound::filters_seals {
namespace {

// What lies in the pan decides whether to order at all.
void weigh_what_was_found(Case& one) {
    for (const auto& found : stop_findings(one.services))
        one.caution("In the pan: " + std::string(found.row.found) + ", which reads as " +
                        std::string(found.row.reads_as) + ". Decide again before ordering.",
                    found.source);
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

std::vector<std::string> Case::told_seen(std::string_view attribute) const {
    const auto found = told(attribute);
    return found ? found->seen() : std::vector<std::string>{};
}

void Case::object(std::string condition, Verdict at_most, std::string reason, SourceNote source) {
    if (at_most == Verdict::does_not_fit && source.evidence == Evidence::memory) at_most = Verdict::check_first;
    result.objections.push_back({std::move(condition), at_most, std::move(reason), std::move(source)});
}

void Case::object_if(std::string_view attribute, std::string condition, Verdict at_most, std::string reason,
                     SourceNote source) {
    if (const auto said = told(attribute)) {
        source = with_told(std::move(source), *said);
        if (is_hearsay(said->evidence)) at_most = std::min(at_most, Verdict::check_first);
    }
    object(std::move(condition), at_most, std::move(reason), std::move(source));
}

void Case::object_where(std::string_view attribute, const PossibleValue& value, Verdict at_most, std::string reason,
                        SourceNote source) {
    object_if(attribute, std::string(attribute) + "=" + value.text, at_most, std::move(reason), std::move(source));
}

std::optional<Told> Case::told_as_range(std::string_view attribute) const {
    return vehicle().possible(attribute).empty() ? told(attribute) : std::nullopt;
}

void Case::object_to_other_count(std::string_view attribute, const std::optional<double>& recorded_count,
                                 std::string_view what, const Row& row) {
    if (!recorded_count) return;
    const std::string is = std::string(what) + " " + shown(*recorded_count);
    for (const auto& value : vehicle().possible(attribute))
        if (value.number && *value.number != *recorded_count)
            object_where(attribute, value, Verdict::does_not_fit, is + ", this vehicle has " + value.text,
                         row_source(row));
    if (const auto said = told_as_range(attribute))
        object_if(attribute, "not " + std::string(attribute) + "=" + shown(*recorded_count), Verdict::does_not_fit,
                  is + ", this vehicle has " + said->text, row_source(row));
}

Examination examine(const Candidate& candidate, const Services& services) {
    if (!services.vehicle) return {};
    Case one{candidate, services};
    const std::string kind = kind_of(services.facts, candidate.group);
    if (kind == "pan-filter") examine_filter(one);
    else if (kind == "in-line-filter") examine_in_line_filter(one);
    else if (kind == "pan") examine_pan(one);
    else if (kind == "pan-gasket") examine_gasket(one);
    else if (kind == "pan-bolt") examine_pan_bolts(one);
    else if (is_seal(kind)) examine_seal(one);
    if (kind == "pan-filter" || kind == "pan") weigh_what_was_found(one);
    return std::move(one.result);
}

}  // namespace casebound::filters_seals
