#include "core/session/command.h"

namespace casebound {

std::vector<Command> commands(const std::vector<Command>& of_program) {
    std::vector<Command> all;
    for (auto part : {pack_commands(),   vehicle_commands(), fit_commands(),  ask_commands(),    triage_commands(),
                      decide_commands(), offer_commands(),   buy_commands(),  record_commands(), close_commands(),
                      due_commands(),    sheet_commands(),   of_program,      swap_commands(),   find_commands(),
                      table_commands(),  keep_commands(),    note_commands(), audit_commands(),  shop_commands()})
        all.insert(all.end(), part.begin(), part.end());
    return all;
}

}  // namespace casebound
