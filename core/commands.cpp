#include "command.h"

namespace casebound {

std::vector<Command> commands() {
    std::vector<Command> all;
    for (auto part : {pack_commands(), vehicle_commands(), fit_commands(), decide_commands(), buy_commands(),
                      record_commands(), close_commands(), due_commands(), sheet_commands(), page_commands(),
                      swap_commands(), keep_commands(), audit_commands(), shop_commands()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

}  // namespace casebound
