// Goes deeper and deeper when it is asked what was found.
#include "wipers.h"

namespace {
// NOLINTNEXTLINE(misc-no-recursion)
int deeper(int depth) {
    volatile char room[4096] = {};
    room[depth % 4096] = static_cast<char>(depth);
    return depth < 0 ? 0 : deeper(depth + 1) + room[1];
}

class Spoilt : public Wipers {
    Findings findings(const Services&) const override {
        Findings found;
        if (deeper(1) == 0) found.cautions.clear();
        return found;
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
