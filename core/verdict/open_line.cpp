#include "core/verdict/open_line.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/reason/condition.h"

namespace casebound {

namespace {

constexpr std::size_t most_configurations = 100'000;  // as of a line that is listed

struct Axis {
    Attribute attribute;
    std::vector<Value> values;

    void add(const std::optional<std::string>& end, double tolerance) {
        if (!end || *end == something_else) return;
        auto value = typed_value(attribute, *end);
        const bool known = std::any_of(values.begin(), values.end(), [&](const Value& one) {
            return one == value || (one.number && value.number && std::abs(*one.number - *value.number) <= tolerance);
        });
        if (!known) values.push_back(std::move(value));
    }
};

class Axes {
public:
    explicit Axes(const Vocabularies& words) : words_(words) {}

    void add(std::string_view name, const std::vector<Span>& spans, bool told) {
        const auto* known = words_.attribute(name);
        if (!known || known->finding || (told && !axes_.contains(std::string(name)))) return;
        auto& axis = axes_.try_emplace(std::string(name), Axis{*known, {}}).first->second;
        for (const auto& span : spans) {
            const double tolerance = told ? known->tolerance : 0;
            axis.add(span.low, tolerance);
            axis.add(span.high, tolerance);
        }
    }

    std::vector<Axis> done() && {
        std::vector<Axis> all;
        for (auto& [name, axis] : axes_) {
            axis.attribute.words.emplace_back(something_else);
            axis.values.push_back({something_else, std::nullopt});
            all.push_back(std::move(axis));
        }
        return all;
    }

private:
    const Vocabularies& words_;
    std::map<std::string, Axis> axes_;
};

std::size_t combinations(const std::vector<Axis>& axes, const std::string& line) {
    std::size_t count = 1;
    for (const auto& axis : axes) {
        count *= axis.values.size();
        if (count > most_configurations)
            throw Error(Exit::bad_data,
                        fmt::format("{}: its statements tell more than {} kinds of it apart: withdraw the conditions "
                                    "that do not matter, or write its configurations down in a pack",
                                    line, most_configurations));
    }
    return count;
}

}  // namespace

Possibilities open_set(const Vocabularies& words, const std::string& line, const std::vector<const Condition*>& said,
                       const std::vector<ToldFact>& told) {
    Axes building(words);
    for (const auto* condition : said)
        for (const auto& term : condition->terms) building.add(term.attribute, term.spans, false);
    for (const auto& fact : told) building.add(fact.attribute, fact.right_side.spans(), true);
    const auto axes = std::move(building).done();
    const auto count = combinations(axes, line);
    std::vector<Attribute> attributes;
    for (const auto& axis : axes) attributes.push_back(axis.attribute);
    std::vector<std::vector<Value>> cells(count);
    for (std::size_t n = 0; n < count; ++n) {
        std::size_t rest = n;
        for (const auto& axis : axes) {
            cells[n].push_back(axis.values[rest % axis.values.size()]);
            rest /= axis.values.size();
        }
    }
    return {std::move(attributes), cells, std::vector<double>(count, 1.0)};
}

}  // namespace casebound
