// Conditions against the configurations that were built: every attribute known to the line, every value possible
// on it, and at least one configuration that meets the whole.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/pack/built_lines.h"
#include "core/pack/pack_keys.h"

namespace casebound {

class ConditionCheck {
public:
    ConditionCheck(PackData& data, LoadedPacks& others, PackKeys& keys, const Vocabularies& words, FaultList& faults);
    ~ConditionCheck();
    ConditionCheck(const ConditionCheck&) = delete;
    ConditionCheck& operator=(const ConditionCheck&) = delete;

    void check_configurations() { built_.check_configurations(); }
    void check_conditions(const std::vector<TableView>& views);
    void warn_of_empty_lines() { built_.warn_of_empty_lines(); }

    // "" when a configuration of the line meets it. For a line that does not exist, or whose configurations could
    // not be read, "": that is reported elsewhere.
    std::string fault_on(NameId line, NameId condition);
    // "" when every attribute is known and every value is one it can have.
    std::string fault_anywhere(NameId condition);
    // The same of a condition about what is told of a vehicle, never of configurations.
    std::string fault_of_findings(std::string_view text) const;

    // Every fault of the line's configurations, those of other packs too; nothing is reported.
    std::vector<std::string> faults_of_line(NameId line) { return built_.faults_of_line(line); }

private:
    struct Compiled;  // a condition, typed
    using Rows = std::vector<const BuiltRow*>;

    Compiled& compiled(NameId condition);
    void compile(std::string_view text, Compiled& into);
    void check_condition_column(const TableView& view, std::size_t column);
    void check_findings_column(const TableView& view, std::size_t column);

    bool matches(Compiled& condition, std::size_t term, std::size_t span, std::uint32_t value);
    bool allows(Compiled& condition, std::size_t term, std::uint32_t value);
    bool value_possible(Compiled& condition, std::size_t term, std::size_t span, const Rows& rows);
    bool met_by(Compiled& condition, const BuiltRow& row);

    PackData& data_;
    PackKeys& keys_;
    FaultList& faults_;
    BuiltLines built_;
    std::unordered_map<NameId, std::unique_ptr<Compiled>> compiled_;
};

}  // namespace casebound
