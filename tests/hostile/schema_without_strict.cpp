// Its table takes any value.
#include "harmless.h"

namespace {
class Lawless : public Harmless {
    std::string_view schema() const override {
        return R"(CREATE TABLE schema_without_strict_a (
  origin INTEGER PRIMARY KEY,
  length_mm REAL,  -- length, mm
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
);)";
    }
};
}  // namespace

CASEBOUND_MANIFEST("schema_without_strict", instance_of<Lawless>)
