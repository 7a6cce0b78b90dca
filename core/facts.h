// Facts over a catalog: the rows a domain may see, its own tables and core's pack tables. Read-only.
#pragma once

#include <memory>
#include <string>

#include "plugin.h"
#include "sqlite.h"

namespace casebound {

class CatalogFacts final : public Facts {
public:
    // Keeps what it has read: for a database that nobody else changes meanwhile. `domain` empty: core's tables and those of every domain. `database` must outlive this.
    explicit CatalogFacts(const Database& database, std::string domain = {});
    ~CatalogFacts() override;
    CatalogFacts(const CatalogFacts&) = delete;
    CatalogFacts& operator=(const CatalogFacts&) = delete;

    // Throws std::invalid_argument for a table that it may not see or a column that the table does not have.
    std::vector<Row> rows(std::string_view table, std::string_view column = {}, std::string_view value = {}) const override;

private:
    struct Reader;
    std::unique_ptr<Reader> reader_;
};

}  // namespace casebound
