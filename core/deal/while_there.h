// "While you are in there": whether an extra item is worth doing now, because reaching it later costs more.
// Amounts in the shop's currency unit. Never decides for the person; a "no" is theirs to record.
#pragma once

#include <string>
#include <vector>

namespace casebound {

struct ExtraWork {
    std::string name;
    double chance{};             // that it is needed within the holding or warranty time, 0 to 1
    double item{};               // its price, now or later
    double labour_now{};         // the few minutes more
    double labour_later{};       // taking it all apart again
    double consumables_later{};  // fluid, gasket
    double comeback{};           // the customer, the transport
};

struct ExtraAdvice {
    ExtraWork work;
    double break_even{};  // do it now if it is likelier than this; above 1: never
    bool do_now{};
};

// Most worth asking about first: by chance less break-even, then by name. Throws Error(bad_data).
std::vector<ExtraAdvice> while_there(const std::vector<ExtraWork>& works);

}  // namespace casebound
