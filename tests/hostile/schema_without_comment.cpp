// Its table does not say what a column is.
#include "harmless.h"

namespace {
class Lawless : public Harmless {
    std::string_view schema() const override {
        return R"(CREATE TABLE schema_without_comment_a (
  origin INTEGER PRIMARY KEY,
  length_mm REAL,
  source TEXT NOT NULL REFERENCES sources (source)  -- where this comes from
) STRICT;)";
    }
};
}  // namespace

CASEBOUND_MANIFEST("schema_without_comment", instance_of<Lawless>)
