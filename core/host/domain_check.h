// Asks a domain for everything it declares and checks the form of it. Run once, in the probe's child, when the
// plugin is new; at start-up it costs nothing. Never compares with other domains: the host does.
#pragma once

#include <string_view>

#include "core/contract/plugin.h"
#include "core/host/plugin_probe.h"

namespace casebound {

bool is_snake_case(std::string_view name);  // a letter, then letters and digits, parts joined by one `_`; lower case
bool is_kebab_case(std::string_view name);  // the same, joined by `-`

// Names and words, units, kinds, the laws of the schema (core/store/domain_schema_laws.h), and where inputs are recorded.
// Throws Error (refused) that lists every fault. `step` is told before each call into the domain.
void check_domain(const Domain& domain, std::string_view name, const ProbeSteps& step);

}  // namespace casebound
