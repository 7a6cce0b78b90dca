#include "core/commands/confirmed.h"

#include <unistd.h>

#include <iostream>

#include "core/ground/outlet.h"

namespace casebound {

bool confirmed(const Session& session, const Args& args, const std::string& lost) {
    if (args.has("yes")) return true;
    if (session.json() || !isatty(STDIN_FILENO)) return false;
    print_message(lost + "Type yes to do it: ");
    std::string typed;
    std::getline(std::cin, typed);
    return typed == "yes";
}

}  // namespace casebound
