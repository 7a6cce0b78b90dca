#include "core/pack/condition_check.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "core/ground/utf8.h"
#include "core/pack/pack_words.h"

namespace casebound {

namespace {

constexpr std::size_t most_configurations = 100'000;  // of one line

std::string at_character(const ConditionFault& fault) {
    return fmt::format("at character {}: {}", fault.at + 1, fault.what());
}

std::uint64_t mixed(std::uint64_t axis, std::uint64_t value) {  // splitmix64's finish
    std::uint64_t x = (axis << 32 | value) + 0x9E3779B97F4A7C15ull;
    x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9ull;
    x = (x ^ (x >> 27)) * 0x94D049BB133111EBull;
    return x ^ (x >> 31);
}

}  // namespace

struct ConditionCheck::Axis {
    const Attribute* attribute;
    std::vector<Value> values;
    std::unordered_map<std::string, std::uint32_t> index;

    std::uint32_t value(const Value& value) {
        const auto [at, fresh] = index.try_emplace(value.text, static_cast<std::uint32_t>(values.size()));
        if (fresh) values.push_back(value);
        return at->second;
    }
};

struct ConditionCheck::Product {
    struct Slot {
        std::uint32_t axis{}, first{}, count{};
    };
    std::vector<Slot> slots;  // by axis
    std::vector<std::uint32_t> values;
    std::string fault;

    const Slot* find(std::uint32_t axis) const {
        const auto at = std::lower_bound(slots.begin(), slots.end(), axis,
                                         [](const Slot& slot, std::uint32_t wanted) { return slot.axis < wanted; });
        return at != slots.end() && at->axis == axis ? &*at : nullptr;
    }
    std::size_t combinations() const {
        std::size_t n = 1;
        for (const auto& slot : slots) n *= slot.count;
        return n;
    }
};

struct ConditionCheck::Compiled {
    enum class Known : std::uint8_t { unasked, no, yes };
    struct SpanMatch {
        Matcher matcher;
        std::string text;
        std::vector<Known> known;  // by value of the axis
    };
    struct TermMatch {
        std::uint32_t axis{};
        bool negated{};
        std::vector<SpanMatch> spans;
    };
    std::string fault;
    std::vector<TermMatch> terms;
};

ConditionCheck::ConditionCheck(PackData& data, LoadedPacks& others, PackKeys& keys, const Vocabularies& words,
                               FaultList& faults)
    : data_(data), others_(others), keys_(keys), words_(words), faults_(faults),
      readable_(std::none_of(data.unreadable.begin(), data.unreadable.end(),
                             [](const TableShape* table) { return table->name == "configurations"; })) {
    for (const auto& [name, owned] : words.attributes()) attributes_.push_back(owned.word);
}

ConditionCheck::~ConditionCheck() = default;

std::uint32_t ConditionCheck::axis(const Attribute& attribute) {
    const auto [at, fresh] = axis_of_.try_emplace(attribute.name, static_cast<std::uint32_t>(axes_.size()));
    if (fresh) axes_.push_back(std::make_unique<Axis>(Axis{&attribute, {}, {}}));
    return at->second;
}

// ---------------------------------------------------------------- configurations

const ConditionCheck::Product& ConditionCheck::product(NameId text) {
    const auto [at, fresh] = product_of_.try_emplace(text, static_cast<std::uint32_t>(products_.size()));
    if (fresh) products_.push_back(parse_product(data_.names.text(text)));
    return products_[at->second];
}

ConditionCheck::Product ConditionCheck::parse_product(std::string_view text) {
    Product product;
    try {
        const auto condition = parse_condition(text);
        for (const auto& term : condition.terms) {
            const auto* attribute = words_.attribute(term.attribute);
            if (!attribute) throw ConditionFault(term.at, unknown_attribute(words_, term.attribute));
            if (attribute->finding)
                throw ConditionFault(
                    term.at,
                    fmt::format("{} is a finding about trouble, not something a vehicle was built with: take it out",
                                term.attribute));
        }
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

ConditionCheck::Line& ConditionCheck::line(NameId key) {
    const auto [at, fresh] = lines_.try_emplace(key);
    if (fresh) add_other_rows(key, at->second);
    return at->second;
}

void ConditionCheck::add_other_rows(NameId key, Line& line) {
    if (!others_.has_rows("configurations")) return;
    auto& rows = others_.prepared(
        "SELECT attribute_values, origin FROM configurations WHERE line = ?1 AND origin NOT BETWEEN ?8 AND ?9 ORDER BY "
        "origin");
    rows.bind(1, data_.names.text(key));
    while (rows.step()) {
        const auto text = data_.names.id(rows.text(0));
        product(text);
        line.rows.push_back({product_of_.at(text), 0, rows.integer(1)});
    }
    rows.reset();
}

void ConditionCheck::check_configurations() {
    const auto* table = data_.find("configurations");
    if (!table) return;
    const auto line_column = table->shape->find("line"), values_column = table->shape->find("attribute_values");
    std::vector<NameId> keys;
    for (std::size_t row = 0; row < table->rows(); ++row) {
        const auto key = table->name(row, line_column), text = table->name(row, values_column);
        if (text == 0) continue;
        const auto& product = this->product(text);
        if (!product.fault.empty()) faults_.at(*table->shape, table->lines[row], values_column, product.fault);
        if (key == 0) continue;
        if (!lines_.contains(key)) keys.push_back(key);
        line(key).rows.push_back({product_of_.at(text), table->lines[row], 0});
    }
    for (const auto key : keys)
        check_line(key, [&](const LineRow& row, std::string what) {
            if (row.other != 0) what = fmt::format("{}: {}", others_.place("configurations", row.other), what);
            faults_.at(*table->shape, row.file_line, values_column, std::move(what));
        });
}

std::string ConditionCheck::attributes_of(const Product& product) const {
    std::vector<std::string> names;
    for (const auto& slot : product.slots) names.push_back(axes_[slot.axis]->attribute->name);
    std::sort(names.begin(), names.end());
    return fmt::format("{}", fmt::join(names, ", "));
}

template <class Report> void ConditionCheck::check_line(NameId key, Report report) {
    const auto& line = this->line(key);
    const auto sound = [&](const LineRow& row) { return products_[row.product].fault.empty(); };
    const auto first = std::find_if(line.rows.begin(), line.rows.end(), sound);
    if (first == line.rows.end()) return;
    const auto& wanted = products_[first->product];
    std::size_t combinations = 0;
    bool alike = true;
    for (const auto& row : line.rows) {
        const auto& product = products_[row.product];
        if (!sound(row)) continue;
        combinations += product.combinations();
        const bool same = std::equal(product.slots.begin(), product.slots.end(), wanted.slots.begin(),
                                     wanted.slots.end(), [](const auto& a, const auto& b) { return a.axis == b.axis; });
        if (same) continue;
        alike = false;
        const auto where = first->other != 0 ? others_.place("configurations", first->other)
                                             : fmt::format("line {}", first->file_line);
        report(row, fmt::format("gives {}, but {} gives {}: every configuration of a line gives the same attributes "
                                "(none where it has none)",
                                attributes_of(product), where, attributes_of(wanted)));
    }
    if (combinations > most_configurations)
        report(line.rows.back(), fmt::format("{} has more than {} configurations: split the line",
                                             shown(data_.names.text(key)), most_configurations));
    else if (alike && line.rows.size() > 1) check_doubles(line, report);
}

// Two products share a combination exactly when their value sets meet on every axis.
bool ConditionCheck::overlap(const Product& a, const Product& b) const {
    for (const auto& slot : a.slots) {
        const auto* other = b.find(slot.axis);
        if (!other) return false;
        const auto from = a.values.begin() + slot.first, to = from + slot.count;
        const auto other_from = b.values.begin() + other->first, other_to = other_from + other->count;
        if (std::find_first_of(from, to, other_from, other_to) == to) return false;
    }
    return true;
}

template <class Report> void ConditionCheck::check_doubles(const Line& line, Report report) {
    std::vector<std::pair<std::uint64_t, std::uint32_t>> seen;  // hash of a combination, and its row
    std::vector<std::uint64_t> hashes;
    for (std::size_t at = 0; at < line.rows.size(); ++at) {
        const auto& product = products_[line.rows[at].product];
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
        if (!overlap(products_[line.rows[row].product], products_[other.product])) continue;
        told[row] = true;
        const auto where = other.other != 0 ? others_.place("configurations", other.other)
                                            : fmt::format("line {}", other.file_line);
        report(line.rows[row], fmt::format("a configuration of it stands on {} already: each is given once", where));
    }
}

std::vector<std::string> ConditionCheck::faults_of_line(NameId key) {
    std::vector<std::string> found;
    for (const auto& row : line(key).rows)
        if (const auto& fault = products_[row.product].fault; !fault.empty())
            found.push_back(row.other != 0 ? fmt::format("{}: {}", others_.place("configurations", row.other), fault)
                                           : fault);
    check_line(key, [&](const LineRow& row, const std::string& what) {
        found.push_back(row.other != 0 ? fmt::format("{}: {}", others_.place("configurations", row.other), what)
                                       : what);
    });
    return found;
}

void ConditionCheck::warn_of_empty_lines() {
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

// ---------------------------------------------------------------- conditions

ConditionCheck::Compiled& ConditionCheck::compiled(NameId condition) {
    auto& slot = compiled_[condition];
    if (!slot) {
        slot = std::make_unique<Compiled>();
        compile(data_.names.text(condition), *slot);
    }
    return *slot;
}

void ConditionCheck::compile(std::string_view text, Compiled& into) {
    try {
        for (const auto& term : parse_condition(text).terms) {
            const auto* attribute = words_.attribute(term.attribute);
            if (!attribute) throw ConditionFault(term.at, unknown_attribute(words_, term.attribute));
            if (attribute->finding)
                throw ConditionFault(
                    term.at,
                    fmt::format("{} is a finding about trouble, not something a vehicle was built with: take it out",
                                term.attribute));
            Compiled::TermMatch match{axis(*attribute), term.negated, {}};
            for (const auto& span : term.spans) {
                Term one{term.attribute, false, {span}, term.at};
                match.spans.push_back({Matcher(*attribute, one), to_text(Condition{{one}}), {}});
            }
            into.terms.push_back(std::move(match));
        }
    } catch (const ConditionFault& fault) { into.fault = at_character(fault); }
}

bool ConditionCheck::matches(Compiled& condition, std::size_t term, std::size_t span, std::uint32_t value) {
    auto& match = condition.terms[term].spans[span];
    const auto& values = axes_[condition.terms[term].axis]->values;
    if (value >= match.known.size()) match.known.resize(values.size(), Compiled::Known::unasked);
    auto& known = match.known[value];
    if (known == Compiled::Known::unasked)
        known = match.matcher.matches(values[value]) ? Compiled::Known::yes : Compiled::Known::no;
    return known == Compiled::Known::yes;
}

bool ConditionCheck::allows(Compiled& condition, std::size_t term, std::uint32_t value) {
    bool any = false;
    for (std::size_t span = 0; span < condition.terms[term].spans.size() && !any; ++span)
        any = matches(condition, term, span, value);
    return any != condition.terms[term].negated;
}

bool ConditionCheck::value_possible(Compiled& condition, std::size_t term, std::size_t span, const Line& line) {
    for (const auto& row : line.rows) {
        const auto& product = products_[row.product];
        const auto* slot = product.find(condition.terms[term].axis);
        for (std::uint32_t i = 0; slot && i < slot->count; ++i)
            if (matches(condition, term, span, product.values[slot->first + i])) return true;
    }
    return false;
}

bool ConditionCheck::met_by(Compiled& condition, const Product& product) {
    for (std::size_t term = 0; term < condition.terms.size(); ++term) {
        const auto axis = condition.terms[term].axis;
        const auto* slot = product.find(axis);
        bool any = false;
        for (std::uint32_t i = 0; slot && i < slot->count && !any; ++i) {
            any = true;
            for (std::size_t other = 0; other < condition.terms.size() && any; ++other)
                if (condition.terms[other].axis == axis)
                    any = allows(condition, other, product.values[slot->first + i]);
        }
        if (!any) return false;
    }
    return true;
}

std::string ConditionCheck::values_on(const Line& line, std::uint32_t axis) const {
    constexpr std::size_t most = 12;
    std::vector<std::uint32_t> found;
    for (const auto& row : line.rows) {
        const auto& product = products_[row.product];
        const auto* slot = product.find(axis);
        for (std::uint32_t i = 0; slot && i < slot->count; ++i)
            if (std::find(found.begin(), found.end(), product.values[slot->first + i]) == found.end())
                found.push_back(product.values[slot->first + i]);
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

std::string ConditionCheck::fault_anywhere(NameId condition) { return compiled(condition).fault; }

std::string ConditionCheck::fault_on(NameId key, NameId condition_name) {
    auto& condition = compiled(condition_name);
    if (!condition.fault.empty()) return condition.fault;
    if (!readable_ || !keys_.known("lines", "line", key)) return {};
    const auto& line = this->line(key);
    const auto name = shown(data_.names.text(key));
    const auto sound = std::find_if(line.rows.begin(), line.rows.end(),
                                    [&](const LineRow& row) { return products_[row.product].fault.empty(); });
    if (line.rows.empty()) return {};  // nobody has listed them: what conditions speak of is asked
    if (sound == line.rows.end()) return {};
    for (std::size_t term = 0; term < condition.terms.size(); ++term) {
        const auto axis = condition.terms[term].axis;
        const auto& attribute = axes_[axis]->attribute->name;
        if (!products_[sound->product].find(axis))
            return fmt::format("{} is not an attribute of {}: its configurations give {}", attribute, name,
                               attributes_of(products_[sound->product]));
        for (std::size_t span = 0; span < condition.terms[term].spans.size(); ++span)
            if (!value_possible(condition, term, span, line))
                return fmt::format("no configuration of {} has {}: there is {}", name,
                                   condition.terms[term].spans[span].text, values_on(line, axis));
    }
    if (std::any_of(line.rows.begin(), line.rows.end(),
                    [&](const LineRow& row) { return met_by(condition, products_[row.product]); }))
        return {};
    return fmt::format("no configuration of {} meets this: each value occurs, but never all together", name);
}

void ConditionCheck::check_conditions(const std::vector<TableView>& views) {
    for (const auto& view : views)
        for (std::size_t i = 0; i < view.shape->columns.size(); ++i)
            if (view.shape->columns[i].kind == CellKind::condition) check_condition_column(view, i);
}

void ConditionCheck::check_condition_column(const TableView& view, std::size_t column) {
    const auto& columns = view.shape->columns;
    const auto line_column = static_cast<std::size_t>(
        std::find_if(columns.begin(), columns.end(),
                     [](const Column& c) { return c.refers && c.refers->table == "lines"; }) -
        columns.begin());
    std::vector<NameId> met_on(data_.names.size());  // by condition: the line that it was last found sound on
    for (std::size_t row = 0; row < view.rows; ++row) {
        const NameId condition = view.names[column][row];
        const NameId key = line_column < columns.size() ? view.names[line_column][row] : 0;
        if (condition == 0 || (key != 0 && met_on[condition] == key)) continue;
        auto fault = key != 0 ? fault_on(key, condition) : fault_anywhere(condition);
        if (fault.empty()) met_on[condition] = key;
        else faults_.at(*view.shape, view.lines[row], column, std::move(fault));
    }
}

}  // namespace casebound
