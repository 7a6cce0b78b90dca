#include "core/page/page_routes.h"

namespace casebound {

namespace {

template <class T> void join(std::vector<T>& all, std::vector<T> more) {
    for (auto& one : more) all.push_back(std::move(one));
}

}  // namespace

std::vector<Route> page_routes() {
    std::vector<Route> all;
    for (auto* part : {yard_routes, vehicle_routes, list_routes, why_routes, order_routes, triage_routes, decide_routes,
                       record_routes, cause_routes, offer_routes, supplier_routes, swap_routes, inquiry_routes,
                       sheet_routes, note_routes, catalog_routes, table_routes, keep_routes, settings_routes})
        join(all, part());
    return all;
}

std::vector<Action> page_actions() {
    std::vector<Action> all;
    for (auto* part : {yard_actions, vehicle_actions, record_actions, offer_actions, order_actions, note_actions,
                       supplier_actions, keep_actions, settings_actions})
        join(all, part());
    return all;
}

}  // namespace casebound
