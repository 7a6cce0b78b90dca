// What the program says of a world outside of `list` and `buy`: `fits` and `why`, the job sheet and the order sheet,
// and the page's list and order. The same answer in other clothes; each is compared with the oracle's. Judges nothing.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "core/session/command.h"
#include "tests/chain/world.h"

namespace chain {

struct Elsewhere {
    std::map<int, std::string> fits;         // by place: the verdict of `fits`
    std::map<int, std::set<int>> groups;     // by place: groups that `fits` says fit
    std::map<int, std::map<int, bool>> why;  // of some items, by place: does it fit, as `why` says
    std::set<int> in_the_way;                // places, on the job sheet
    bool sheet_only_if{}, page_only_if{};    // RIGHT ONLY IF stands there
    bool order_sheet_not_ready{}, page_ready{};
    std::optional<long> sheet_cents, page_cents;  // of the order that stands there
    std::size_t page_blocks{};                    // lines that the page shows as blocking
};

using Run = std::function<casebound::Result(const std::string& command, casebound::Args)>;

Elsewhere ask_elsewhere(const World& world, casebound::Session& session, const Run& run);

int place_of(const std::string& role);
int number_in(const std::string& key);  // of a group or an item
std::string vehicle_of(const World& world);
std::string job_of(const World& world);

}  // namespace chain
