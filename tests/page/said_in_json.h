// What a command says with --json in the shop of a page: the page must say the same.
#pragma once

#include <nlohmann/json.hpp>

#include "core/page/page_command.h"
#include "tests/page/page_shop.h"

namespace casebound::tests {

inline nlohmann::ordered_json said_in_json(const PageShop& shop, std::string_view command, const Args& args) {
    auto options = shop.session->options();
    options.json = true;
    Session other(options);
    return nlohmann::ordered_json::parse(run_command(other, command, args).output);
}

}  // namespace casebound::tests
