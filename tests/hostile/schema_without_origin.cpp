// Its table does not say which row is which.
#include "harmless.h"

namespace {
class Lawless : public Harmless {
    std::string_view schema() const override {
        return R"(CREATE TABLE schema_without_origin_a (
  length_mm REAL,  -- length, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;)";
    }
};
}  // namespace

CASEBOUND_MANIFEST("schema_without_origin", instance_of<Lawless>)
