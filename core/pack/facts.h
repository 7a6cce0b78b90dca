// Facts over a catalog: the rows a domain may see, its own tables and core's pack tables. Read-only.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "core/store/sqlite.h"

namespace casebound {

// What a row of a table is cited by: "applications.csv"; of a pack that was read from a workbook
// "mine.xlsx:applications", as its faults are. `pack`: the folder or the workbook.
std::string cited_file(std::string_view pack, std::string_view table);

class CatalogFacts final : public Facts {
public:
    // Core's tables and those of every domain, each row under what it is cited by; a domain sees the table's own file
    // instead, which its name comes from (Row::table). Keeps what it has read: for a database that nobody else changes
    // meanwhile and that outlives this.
    explicit CatalogFacts(const Database& database);
    // What `domain` may see, from what `shared` has read; `reads`: tables of other domains that it names; `schema`: the
    // SQL of its own. A table that it declares and that no load has made yet has no rows.
    CatalogFacts(const CatalogFacts& shared, std::string domain, std::vector<std::string> reads = {},
                 std::function<std::string()> schema = {});

    // Throws std::invalid_argument for a table that it may not see or a column that the table does not have.
    const std::vector<Row>& rows(std::string_view table, std::string_view column = {},
                                 std::string_view value = {}) const override;

private:
    struct Reader;
    struct Viewer {
        std::string domain;
        std::vector<std::string> reads;
        std::function<std::string()> schema;
    };
    std::shared_ptr<Reader> reader_;
    Viewer viewer_;
};

}  // namespace casebound
