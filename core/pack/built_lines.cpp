#include "core/pack/built_lines.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/model_year.h"
#include "core/ground/utf8.h"
#include "core/pack/pack_words.h"

namespace casebound {

namespace {

constexpr std::size_t most_configurations = 100'000;  // of one line

int built_year(const Value& month) { return static_cast<int>(month.number.value_or(0)) / 12; }

// A model year that goes with no month of its row, or a month with no model year, cannot have been built.
std::string built_at_no_time(const std::vector<Value>& years, const std::vector<Value>& months) {
    const auto together = [](const Value& year, const Value& month) {
        return !year.number || !month.number || may_be_built_in(static_cast<int>(*year.number), built_year(month));
    };
    const auto lonely = [](const std::vector<Value>& some, const auto& with_any) {
        const auto at = std::find_if_not(some.begin(), some.end(), with_any);
        return at == some.end() ? std::string() : at->text;
    };
    if (years.empty() || months.empty()) return "";
    const auto year = lonely(years, [&](const Value& one) {
        return std::any_of(months.begin(), months.end(), [&](const Value& month) { return together(one, month); });
    });
    if (!year.empty())
        return fmt::format(
            "year={0} goes with no build month of it: a model year {0} is built from {1}-01, and no later "
            "than {2}-12: give the months of each year in a row of their own",
            year, first_built_year(std::stoi(year)), last_built_year(std::stoi(year)));
    const auto month = lonely(months, [&](const Value& one) {
        return std::any_of(years.begin(), years.end(), [&](const Value& other) { return together(other, one); });
    });
    return month.empty() ? "" : fmt::format("build={} goes with no model year of it", month);
}

std::uint64_t mixed(std::uint64_t axis, std::uint64_t value) {  // splitmix64's finish
    std::uint64_t x = (axis << 32 | value) + 0x9E3779B97F4A7C15ull;
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9ull;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBull;
    return x ^ (x >> 31);
}

}  // namespace

std::string at_character(const ConditionFault& fault) {
    return fmt::format("at character {}: {}", fault.at + 1, fault.what());
}

std::uint32_t Axis::value(const Value& value) {
    const auto [at, fresh] = index.try_emplace(value.text, static_cast<std::uint32_t>(values.size()));
    if (fresh) values.push_back(value);
    return at->second;
}

const BuiltRow::Slot* BuiltRow::find(std::uint32_t axis) const {
    const auto at = std::lower_bound(slots.begin(), slots.end(), axis,
                                     [](const Slot& slot, std::uint32_t wanted) { return slot.axis < wanted; });
    return at != slots.end() && at->axis == axis ? &*at : nullptr;
}

std::size_t BuiltRow::combinations() const {
    std::size_t n = 1;
    for (const auto& slot : slots) n *= slot.count;
    return n;
}

BuiltLines::BuiltLines(PackData& data, LoadedPacks& others, const Vocabularies& words, FaultList& faults)
    : data_(data), others_(others), words_(words), faults_(faults),
      readable_(std::none_of(data.unreadable.begin(), data.unreadable.end(),
                             [](const TableShape* table) { return table->name == "configurations"; })) {
    for (const auto& [name, owned] : words.attributes()) attributes_.push_back(owned.word);
}

std::uint32_t BuiltLines::axis(const Attribute& attribute) {
    const auto [at, fresh] = axis_of_.try_emplace(attribute.name, static_cast<std::uint32_t>(axes_.size()));
    if (fresh) axes_.push_back(std::make_unique<Axis>(Axis{&attribute, {}, {}}));
    return at->second;
}

const Attribute& BuiltLines::attribute(const Term& term) const {
    const auto* attribute = words_.attribute(term.attribute);
    if (!attribute) throw ConditionFault(term.at, unknown_attribute(words_, term.attribute));
    if (attribute->finding)
        throw ConditionFault(
            term.at, fmt::format("{} is a finding about trouble, not something a vehicle was built with: take it out",
                                 term.attribute));
    return *attribute;
}

const Attribute& BuiltLines::finding(const Term& term) const {
    const auto* attribute = words_.attribute(term.attribute);
    if (!attribute) throw ConditionFault(term.at, unknown_attribute(words_, term.attribute));
    if (!attribute->finding)
        throw ConditionFault(
            term.at, fmt::format("{} is what a vehicle was built with, not a finding: name a finding", term.attribute));
    return *attribute;
}

std::vector<const BuiltRow*> BuiltLines::rows(NameId key) {
    std::vector<const BuiltRow*> all;
    for (const auto& row : line(key).rows) all.push_back(&built_[row.built]);
    return all;
}

std::string BuiltLines::place(const LineRow& row) const {
    return row.other != 0 ? others_.place("configurations", row.other) : fmt::format("line {}", row.file_line);
}

const BuiltRow& BuiltLines::built(NameId text) {
    const auto [at, fresh] = built_of_.try_emplace(text, static_cast<std::uint32_t>(built_.size()));
    if (fresh) built_.push_back(parse(data_.names.text(text)));
    return built_[at->second];
}

BuiltRow BuiltLines::parse(std::string_view text) {
    BuiltRow product;
    try {
        const auto condition = parse_condition(text);
        for (const auto& term : condition.terms) attribute(term);
        for (auto& [name, values] : spelled_out(condition, attributes_)) {
            const auto at = axis(*words_.attribute(name));
            product.slots.push_back(
                {at, static_cast<std::uint32_t>(product.values.size()), static_cast<std::uint32_t>(values.size())});
            for (const auto& value : values) product.values.push_back(axes_[at]->value(value));
        }
        std::sort(product.slots.begin(), product.slots.end(),
                  [](const auto& a, const auto& b) { return a.axis < b.axis; });
    } catch (const ConditionFault& fault) { product.fault = at_character(fault); }
    return product;
}

BuiltLines::Line& BuiltLines::line(NameId key) {
    const auto [at, fresh] = lines_.try_emplace(key);
    if (fresh) add_other_rows(key, at->second);
    return at->second;
}

void BuiltLines::add_other_rows(NameId key, Line& line) {
    if (!others_.has_rows("configurations")) return;
    auto& rows = others_.prepared(
        "SELECT attribute_values, origin FROM configurations WHERE line = ?1 AND origin NOT BETWEEN ?8 AND ?9 ORDER BY "
        "origin");
    rows.bind(1, data_.names.text(key));
    while (rows.step()) {
        const auto text = data_.names.id(rows.text(0));
        built(text);
        line.rows.push_back({built_of_.at(text), 0, rows.integer(1)});
    }
    rows.reset();
}

void BuiltLines::check_configurations() {
    const auto* table = data_.find("configurations");
    if (!table) return;
    const auto values_of = [&](const BuiltRow& product, std::string_view attribute) {
        std::vector<Value> values;
        for (const auto& slot : product.slots)
            for (std::uint32_t i = 0; axes_[slot.axis]->attribute->name == attribute && i < slot.count; ++i)
                values.push_back(axes_[slot.axis]->values[product.values[slot.first + i]]);
        return values;
    };
    const auto line_column = table->shape->find("line"), values_column = table->shape->find("attribute_values");
    std::vector<NameId> keys;
    for (std::size_t row = 0; row < table->rows(); ++row) {
        const auto key = table->name(row, line_column), text = table->name(row, values_column);
        if (text == 0) continue;
        const auto& product = built(text);
        if (!product.fault.empty()) faults_.at(*table->shape, table->lines[row], values_column, product.fault);
        else if (auto why = built_at_no_time(values_of(product, "year"), values_of(product, "build")); !why.empty())
            faults_.at(*table->shape, table->lines[row], values_column, std::move(why));
        if (key == 0) continue;
        if (!lines_.contains(key)) keys.push_back(key);
        line(key).rows.push_back({built_of_.at(text), table->lines[row], 0});
    }
    for (const auto key : keys)
        check_line(key, [&](const LineRow& row, std::string what) {
            if (row.other != 0) what = fmt::format("{}: {}", others_.place("configurations", row.other), what);
            faults_.at(*table->shape, row.file_line, values_column, std::move(what));
        });
}

std::string BuiltLines::attributes_of(const BuiltRow& product) const {
    std::vector<std::string> names;
    for (const auto& slot : product.slots) names.push_back(axes_[slot.axis]->attribute->name);
    std::sort(names.begin(), names.end());
    return fmt::format("{}", fmt::join(names, ", "));
}

void BuiltLines::check_line(NameId key, const Report& report) {
    const auto& line = this->line(key);
    const auto sound = [&](const LineRow& row) { return built_[row.built].fault.empty(); };
    const auto first = std::find_if(line.rows.begin(), line.rows.end(), sound);
    if (first == line.rows.end()) return;
    const auto& wanted = built_[first->built];
    std::size_t combinations = 0;
    bool alike = true;
    for (const auto& row : line.rows) {
        const auto& product = built_[row.built];
        if (!sound(row)) continue;
        combinations += product.combinations();
        const bool same = std::equal(product.slots.begin(), product.slots.end(), wanted.slots.begin(),
                                     wanted.slots.end(), [](const auto& a, const auto& b) { return a.axis == b.axis; });
        if (same) continue;
        alike = false;
        report(row, fmt::format("gives {}, but {} gives {}: every configuration of a line gives the same attributes "
                                "(none where it has none)",
                                attributes_of(product), place(*first), attributes_of(wanted)));
    }
    if (combinations > most_configurations)
        report(line.rows.back(), fmt::format("{} has more than {} configurations: split the line",
                                             shown(data_.names.text(key)), most_configurations));
    else if (alike && line.rows.size() > 1) check_doubles(line, report);
}

// Two products share a combination exactly when their value sets meet on every axis.
bool BuiltLines::overlap(const BuiltRow& a, const BuiltRow& b) const {
    for (const auto& slot : a.slots) {
        const auto* other = b.find(slot.axis);
        if (!other) return false;
        const auto from = a.values.begin() + slot.first, to = from + slot.count;
        const auto other_from = b.values.begin() + other->first, other_to = other_from + other->count;
        if (std::find_first_of(from, to, other_from, other_to) == to) return false;
    }
    return true;
}

void BuiltLines::check_doubles(const Line& line, const Report& report) {
    std::vector<std::pair<std::uint64_t, std::uint32_t>> seen;  // hash of a combination, and its row
    std::vector<std::uint64_t> hashes;
    for (std::size_t at = 0; at < line.rows.size(); ++at) {
        const auto& product = built_[line.rows[at].built];
        if (!product.fault.empty()) continue;
        hashes.assign(1, 0);
        for (const auto& slot : product.slots) {
            const auto before = hashes.size();
            for (std::uint32_t v = 1; v < slot.count; ++v)
                for (std::size_t i = 0; i < before; ++i)
                    hashes.push_back(hashes[i] + mixed(slot.axis, product.values[slot.first + v]));
            for (std::size_t i = 0; i < before; ++i) hashes[i] += mixed(slot.axis, product.values[slot.first]);
        }
        for (const auto hash : hashes) seen.emplace_back(hash, static_cast<std::uint32_t>(at));
    }
    std::sort(seen.begin(), seen.end());
    std::vector<bool> told(line.rows.size());
    for (std::size_t i = 1; i < seen.size(); ++i) {
        const auto [hash, row] = seen[i];
        const auto& other = line.rows[seen[i - 1].second];
        if (hash != seen[i - 1].first || row == seen[i - 1].second || told[row]) continue;
        if (!overlap(built_[line.rows[row].built], built_[other.built])) continue;
        told[row] = true;
        report(line.rows[row],
               fmt::format("a configuration of it stands on {} already: each is given once", place(other)));
    }
}

std::vector<std::string> BuiltLines::faults_of_line(NameId key) {
    std::vector<std::string> found;
    for (const auto& row : line(key).rows)
        if (const auto& fault = built_[row.built].fault; !fault.empty())
            found.push_back(row.other != 0 ? fmt::format("{}: {}", others_.place("configurations", row.other), fault)
                                           : fault);
    check_line(key, [&](const LineRow& row, const std::string& what) {
        found.push_back(row.other != 0 ? fmt::format("{}: {}", others_.place("configurations", row.other), what)
                                       : what);
    });
    return found;
}

void BuiltLines::warn_of_empty_lines() {
    const auto* table = data_.find("lines");
    if (!table || !readable_) return;
    const auto column = table->shape->find("line");
    for (std::size_t row = 0; row < table->rows(); ++row) {
        const auto key = table->name(row, column);
        if (key != 0 && line(key).rows.empty())
            faults_.warn_at(*table->shape, table->lines[row], column,
                            fmt::format("{} has no configurations: what its statements speak of is asked, and "
                                        "something else stays possible",
                                        shown(data_.names.text(key))));
    }
}

std::string BuiltLines::values_on(const std::vector<const BuiltRow*>& rows, std::uint32_t axis) const {
    constexpr std::size_t most = 12;
    std::vector<std::uint32_t> found;
    for (const auto* row : rows) {
        const auto* slot = row->find(axis);
        for (std::uint32_t i = 0; slot && i < slot->count; ++i)
            if (std::find(found.begin(), found.end(), row->values[slot->first + i]) == found.end())
                found.push_back(row->values[slot->first + i]);
    }
    const auto& values = axes_[axis]->values;
    std::sort(found.begin(), found.end(), [&](auto a, auto b) {
        return std::pair(values[a].number.value_or(0), values[a].text) <
               std::pair(values[b].number.value_or(0), values[b].text);
    });
    std::string text;
    for (std::size_t i = 0; i < std::min(found.size(), most); ++i) text += (i ? ", " : "") + values[found[i]].text;
    return text + (found.size() > most ? ", ..." : "");
}

}  // namespace casebound
