#include "rows/plugs.h"

#include <map>
#include <string>

#include "core/contract/answer_words.h"

namespace casebound::service_fluids {
namespace {

std::string thread_of(const Row& row) {
    if (!row.stated("thread_mm")) return "";
    return " M" + cell(row, "thread_mm") + (row.stated("pitch_mm") ? "x" + cell(row, "pitch_mm") : "");
}

Fastener fastener_of(const HeldRow& row, const std::string& title) {
    auto text = row->stated("torque_nm") ? quantity_text(*row->number("torque_nm"), "N·m") : cell(*row, "words");
    return {title + thread_of(*row), text + row.where(), row_source(*row)};
}

}  // namespace

Tightening tightening(std::string_view role, const Services& services) {
    static const std::map<std::string_view, std::pair<std::string_view, const char*>> plugs{
        {"oil-plug-washer", {"engine_oil", "oil drain plug"}},
        {"coolant-plug-washer", {"coolant", "coolant drain plug"}},
        {"engine-oil-filter", {"oil_filter", "oil filter"}}};
    const auto found = plugs.find(role);
    if (found == plugs.end()) return {true, {}};
    Tightening tightening;
    for (const auto& row : rows_here(services, "service_fluids_plugs"))
        if (row->text("plug") == found->second.first)
            tightening.fasteners.push_back(fastener_of(row, found->second.second));
    return tightening;
}

}  // namespace casebound::service_fluids
