// Its table does not say where its rows come from.
#include "harmless.h"

namespace {
class Lawless : public Harmless {
    std::string_view schema() const override {
        return R"(CREATE TABLE schema_without_source_a (
  origin INTEGER PRIMARY KEY,
  length_mm REAL  -- length, mm
) STRICT;)";
    }
};
}  // namespace

CASEBOUND_MANIFEST("schema_without_source", instance_of<Lawless>)
