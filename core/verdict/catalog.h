// Reading the catalog: what packs say, ready to be reasoned about. Read-only; never checks a pack.
// Ids are the catalog's own and never shown to a person. Rows come in pack and file order.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/contract/plugin.h"
#include "core/host/guarded_domain.h"
#include "core/reason/possibilities.h"
#include "core/reason/vocabulary.h"
#include "core/store/sqlite.h"
#include "core/verdict/open_line.h"

namespace casebound {

struct LineModel {
    std::int64_t id{};   // of this reading of it
    std::int64_t row{};  // in the catalog
    std::string key, title, note;
    bool open{};                        // nobody has listed its configurations
    Possibilities set;                  // one alternative a configuration
    std::vector<std::int64_t> origins;  // of each configuration
    std::vector<std::int64_t> sources;
};

enum class Says : std::uint8_t { fits, does_not_fit, none_needed };

struct ApplicationRow {
    std::int64_t role{}, group{}, condition{}, source{}, origin{};  // group, condition: 0 when absent
    Says says = Says::fits;
    double quantity = 1;
    bool quantity_stated{};
    std::string note, withdrawn;
    Evidence evidence = Evidence::invented;
    const Condition* when = nullptr;  // never null once read from a catalog; the catalog keeps it
    const Bits* on = nullptr;         // where the condition holds, over the whole line; the catalog keeps it
};

enum class Basis : std::uint8_t { same, approved, meets, claimed };

struct Member {
    std::string item, title, withdrawn;
    double pack_quantity = 1;
    Basis basis = Basis::same;
    Origin origin;
    bool in_several{};  // it is in more than one group
};

struct Group {
    std::int64_t id{};
    std::string key, kind, title;
    Origin origin;
};
struct Item {
    std::string key, kind, title, withdrawn;
    double pack_quantity = 1;
    Origin origin;
};

struct PackInfo {
    std::string name, title, version;
    bool invented{};
};

class Catalog {
public:
    // Throws Error(no_input) with what to run when there is none.
    explicit Catalog(const std::string& path);
    explicit Catalog(Database open);  // Requires: holds schema/core.sql and schema/catalog.sql
    ~Catalog();
    Catalog(const Catalog&) = delete;
    Catalog& operator=(const Catalog&) = delete;

    const Vocabularies& vocabularies() const { return vocabularies_; }
    const std::map<std::int64_t, PackInfo>& packs() const { return packs_; }
    const Facts& facts() const;                                 // core's tables and every domain's
    const Facts& facts_for(const GuardedDomain& domain) const;  // core's tables, its own, and those it reads

    std::vector<std::string> line_keys() const;
    // Null when there is none; kept once read. `told`: of a vehicle of it, for a line that is open.
    const LineModel* line(std::string_view key, const std::vector<ToldFact>& told = {}) const;
    const std::vector<ApplicationRow>& applications(const LineModel& line) const;  // kept once read
    const Condition& condition(std::int64_t id) const;                             // 0: always
    const Bits& condition_bits(const LineModel& line, std::int64_t id) const;      // over the whole line

    std::optional<std::int64_t> id_of(std::string_view name) const;
    const std::string& name_of(std::int64_t id) const;
    std::optional<Group> group(std::string_view key) const;
    const Group* group(std::int64_t id) const;
    std::optional<Item> item(std::string_view key) const;
    const std::vector<Member>& members(std::int64_t group) const;
    std::vector<std::string> groups_of(std::string_view item) const;
    std::vector<std::string> near(std::string_view word, std::string_view table) const;  // for "did you mean"

    Evidence evidence(std::int64_t source) const;
    Origin origin(std::int64_t origin, std::string_view table, std::int64_t source) const;
    bool invented(std::int64_t origin) const;  // is the row's pack invented demo data?
    Database& database() const { return database_; }

private:
    void read_vocabularies();
    std::unique_ptr<LineModel> read_line(std::string_view key) const;
    void read_configurations(LineModel& line) const;
    void leave_open(LineModel& line,
                    const std::vector<ToldFact>& told) const;  // Requires: no configuration of it is listed

    mutable Database database_;
    Vocabularies vocabularies_;
    std::map<std::int64_t, PackInfo> packs_;
    struct Reader;
    std::unique_ptr<Reader> reader_;
};

}  // namespace casebound
