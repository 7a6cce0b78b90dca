// Keys of a pack: unique inside it and against other packs, and every reference met, here or there.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"

namespace casebound {

class PackKeys {
public:
    PackKeys(const PackShape& shape, PackData& data, LoadedPacks& others, FaultList& faults);

    void check_unique(const std::vector<TableView>& views);
    void check_references(const std::vector<TableView>& views);

    bool here(std::string_view table, std::string_view column, NameId key) const;  // a row of this pack
    bool known(std::string_view table, std::string_view column, NameId key);       // here or in another pack
    // "`x` is not ...: did you mean y?"
    std::string unknown(std::string_view table, std::string_view column, NameId key);

    // Columns with a reference that only another pack meets: "table.column".
    const std::set<std::string>& met_outside() const { return met_outside_; }

private:
    enum class Elsewhere : std::uint8_t { unasked, yes, no };
    struct KeySet {
        std::string table, column;
        bool readable = true;
        LargeVector<std::uint32_t> line_of;  // by name; 0: not here
        std::vector<Elsewhere> elsewhere;    // by name
        std::vector<std::string> words;      // for near misses, gathered when first needed
    };

    KeySet* find(std::string_view table, std::string_view column);
    const KeySet* find(std::string_view table, std::string_view column) const;
    void define(const TableView& view, std::size_t column, KeySet& set);
    void check_together(const TableView& view, const std::vector<std::size_t>& columns);
    void check_together_elsewhere(const TableView& view, const std::vector<std::size_t>& columns);
    bool known(KeySet& set, NameId key);
    const std::vector<std::string>& words(KeySet& set);

    const PackShape& shape_;
    PackData& data_;
    LoadedPacks& others_;
    FaultList& faults_;
    std::vector<KeySet> sets_;
    std::set<std::string> met_outside_;
    int suggestions_left_ = 100;  // near misses are costly in large packs
};

}  // namespace casebound
