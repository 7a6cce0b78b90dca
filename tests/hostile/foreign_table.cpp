// Makes a table in another domain's name.
#include "harmless.h"

namespace {
class Intruder : public Harmless {
    std::string_view schema() const override {
        return "CREATE TABLE foreign_table_own (origin INTEGER PRIMARY KEY) STRICT;\n"
               "CREATE TABLE plain_secrets (origin INTEGER PRIMARY KEY) STRICT;\n";
    }
};
}  // namespace

CASEBOUND_MANIFEST("foreign_table", instance_of<Intruder>)
