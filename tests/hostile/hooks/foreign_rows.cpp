// Reads rows of another domain that it has not named.
#include "wipers.h"

namespace {
class Spoilt : public Wipers {
    Findings findings(const Services& services) const override {
        return services.facts.rows("mounts_loads").empty() ? Findings{} : Findings{};
    }
};
}  // namespace

CASEBOUND_MANIFEST("wipers", instance_of<Spoilt>)
