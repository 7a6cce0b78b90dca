#include "core/session/command.h"

#include <fmt/format.h>

#include "core/ground/outlet.h"
#include "core/ground/text_layout.h"

namespace casebound {

Result taken_back(const Session& session, Result result) {
    if (session.json()) print_message("casebound: --dry-run: nothing was written\n");
    else result.output += wrapped("NOTHING WAS WRITTEN: --dry-run took all of it back.");
    return result;
}

void refuse_dry_run(const Args& args, std::string_view what) {
    if (args.has(dry_run.name))
        throw Error(Exit::usage, fmt::format("--dry-run: {} would be written too, and could not be taken back: nothing "
                                             "was written",
                                             what));
}

}  // namespace casebound
