// A domain that declares nothing and does no harm, for each hostile plugin to spoil in one way.
#pragma once

#include "core/contract/plugin.h"

namespace {

class Harmless : public casebound::Domain {
public:
    std::string_view title() const override { return "harmless"; }
    casebound::Vocabulary vocabulary() const override { return {}; }
    std::string_view schema() const override { return ""; }
};

using casebound::instance_of;

}  // namespace
