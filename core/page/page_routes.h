// The one table of pages: what is dispatched is what the navigation lists. And the one table of what a form may do,
// each through the command of the same name.
#pragma once

#include "core/page/page_visit.h"

namespace casebound {

struct Route {
    std::string path;   // "/vehicle/*/list": `*` is one word
    std::string title;  // in the navigation; empty: reached from another page
    void (*show)(Visit& visit, Page& page) = nullptr;
    std::string (*print)(Visit& visit) = nullptr;  // instead of `show`: a whole document of its own
};

struct Action {
    std::string form;  // the form's key, up to its "/"
    // Writes in one transaction, and says where to go on: "" is the page the form stood on.
    std::string (*act)(Visit& visit) = nullptr;
};

std::vector<Route> page_routes();
std::vector<Action> page_actions();

// Parts of the tables, one a file.
std::vector<Route> yard_routes();
std::vector<Route> vehicle_routes();
std::vector<Route> list_routes();
std::vector<Route> why_routes();
std::vector<Route> order_routes();
std::vector<Route> triage_routes();
std::vector<Route> decide_routes();
std::vector<Route> record_routes();
std::vector<Route> cause_routes();
std::vector<Route> offer_routes();
std::vector<Route> swap_routes();
std::vector<Route> inquiry_routes();
std::vector<Route> note_routes();
std::vector<Route> catalog_routes();
std::vector<Route> table_routes();
std::vector<Route> sheet_routes();
std::vector<Route> supplier_routes();
std::vector<Route> keep_routes();
std::vector<Route> settings_routes();

std::vector<Action> yard_actions();
std::vector<Action> vehicle_actions();
std::vector<Action> record_actions();
std::vector<Action> offer_actions();
std::vector<Action> order_actions();
std::vector<Action> note_actions();
std::vector<Action> supplier_actions();
std::vector<Action> keep_actions();
std::vector<Action> settings_actions();

}  // namespace casebound
