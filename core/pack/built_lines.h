// The configurations that the lines were built in, as sets of values: those of the pack that is checked and those of the
// packs already loaded. Configurations of a line agree in their attributes and none stands twice. Works on products of
// value sets, so it never spells out what it need not. Judges no condition.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"
#include "core/reason/condition.h"
#include "core/reason/vocabulary.h"

namespace casebound {

// An attribute and the values met so far.
struct Axis {
    const Attribute* attribute;
    std::vector<Value> values;
    std::unordered_map<std::string, std::uint32_t> index;

    std::uint32_t value(const Value& value);  // its number
};

// What one row of configurations stands for.
struct BuiltRow {
    struct Slot {
        std::uint32_t axis{}, first{}, count{};
    };
    std::vector<Slot> slots;  // by axis
    std::vector<std::uint32_t> values;
    std::string fault;

    const Slot* find(std::uint32_t axis) const;
    std::size_t combinations() const;
};

class BuiltLines {
public:
    BuiltLines(PackData& data, LoadedPacks& others, const Vocabularies& words, FaultList& faults);

    void check_configurations();
    void warn_of_empty_lines();
    // Every fault of the line's configurations, those of other packs too; nothing is reported.
    std::vector<std::string> faults_of_line(NameId line);

    bool readable() const { return readable_; }  // the pack's configurations
    std::vector<const BuiltRow*> rows(NameId line);
    // Of the configurations of `rows`, that attribute's values: "2.6, 3.0".
    std::string values_on(const std::vector<const BuiltRow*>& rows, std::uint32_t axis) const;
    std::string attributes_of(const BuiltRow& row) const;

    // The attribute that a term names. Throws ConditionFault for one that is not known, or that is a finding.
    const Attribute& attribute(const Term& term) const;
    // The same of a condition about findings. Throws ConditionFault for one that is not known, or is none.
    const Attribute& finding(const Term& term) const;
    std::uint32_t axis(const Attribute& attribute);
    const Axis& axis(std::uint32_t at) const { return *axes_[at]; }

private:
    struct LineRow {
        std::uint32_t built{};
        std::uint32_t file_line{};
        std::int64_t other{};  // its origin, 0 for this pack
    };
    struct Line {
        std::vector<LineRow> rows;
    };
    using Report = std::function<void(const LineRow&, std::string)>;

    const BuiltRow& built(NameId text);
    BuiltRow parse(std::string_view text);
    Line& line(NameId key);
    void add_other_rows(NameId key, Line& line);
    std::string place(const LineRow& row) const;  // "line 7", or where it stands in another pack
    void check_line(NameId key, const Report& report);
    void check_doubles(const Line& line, const Report& report);
    bool overlap(const BuiltRow& a, const BuiltRow& b) const;

    PackData& data_;
    LoadedPacks& others_;
    const Vocabularies& words_;
    FaultList& faults_;
    bool readable_;
    std::vector<Attribute> attributes_;
    std::vector<std::unique_ptr<Axis>> axes_;
    std::unordered_map<std::string_view, std::uint32_t> axis_of_;
    std::vector<BuiltRow> built_;
    std::unordered_map<NameId, std::uint32_t> built_of_;
    std::unordered_map<NameId, Line> lines_;
};

std::string at_character(const ConditionFault& fault);  // "at character 5: ..."

}  // namespace casebound
