// Conditions against the configurations that were built: every attribute known to the line, every value possible
// on it, and at least one configuration that meets the whole. Configurations of a line agree in their attributes
// and none stands twice. Works on products of value sets, so it never spells out what it need not.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"
#include "core/pack/pack_keys.h"
#include "core/reason/condition.h"
#include "core/reason/vocabulary.h"

namespace casebound {

class ConditionCheck {
public:
    ConditionCheck(PackData& data, LoadedPacks& others, PackKeys& keys, const Vocabularies& words, FaultList& faults);
    ~ConditionCheck();
    ConditionCheck(const ConditionCheck&) = delete;
    ConditionCheck& operator=(const ConditionCheck&) = delete;

    void check_configurations();
    void check_conditions(const std::vector<TableView>& views);
    void warn_of_empty_lines();

    // "" when a configuration of the line meets it. For a line that does not exist, or whose configurations could
    // not be read, "": that is reported elsewhere.
    std::string fault_on(NameId line, NameId condition);
    // "" when every attribute is known and every value is one it can have.
    std::string fault_anywhere(NameId condition);

    // Every fault of the line's configurations, those of other packs too; nothing is reported.
    std::vector<std::string> faults_of_line(NameId line);

private:
    struct Axis;      // an attribute and the values met so far
    struct Product;   // what one row of configurations stands for
    struct Compiled;  // a condition, typed
    struct LineRow {
        std::uint32_t product{};
        std::uint32_t file_line{};
        std::int64_t other{};
    };  // other: its origin, 0 for this pack
    struct Line {
        std::vector<LineRow> rows;
    };

    std::uint32_t axis(const Attribute& attribute);
    const Product& product(NameId text);
    Product parse_product(std::string_view text);
    Compiled& compiled(NameId condition);
    void compile(std::string_view text, Compiled& into);
    Line& line(NameId key);
    void add_other_rows(NameId key, Line& line);

    template <class Report> void check_line(NameId key, Report report);
    template <class Report> void check_doubles(const Line& line, Report report);
    bool overlap(const Product& a, const Product& b) const;
    void check_condition_column(const TableView& view, std::size_t column);

    bool matches(Compiled& condition, std::size_t term, std::size_t span, std::uint32_t value);
    bool allows(Compiled& condition, std::size_t term, std::uint32_t value);
    bool value_possible(Compiled& condition, std::size_t term, std::size_t span, const Line& line);
    bool met_by(Compiled& condition, const Product& product);
    std::string values_on(const Line& line, std::uint32_t axis) const;
    std::string attributes_of(const Product& product) const;

    PackData& data_;
    LoadedPacks& others_;
    PackKeys& keys_;
    const Vocabularies& words_;
    FaultList& faults_;
    bool readable_;  // the configurations
    std::vector<Attribute> attributes_;
    std::vector<std::unique_ptr<Axis>> axes_;
    std::unordered_map<std::string_view, std::uint32_t> axis_of_;
    std::vector<Product> products_;
    std::unordered_map<NameId, std::uint32_t> product_of_;
    std::unordered_map<NameId, std::unique_ptr<Compiled>> compiled_;
    std::unordered_map<NameId, Line> lines_;
};

}  // namespace casebound
