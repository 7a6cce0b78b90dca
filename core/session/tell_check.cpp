#include "core/session/tell_check.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/model_year.h"
#include "core/ground/shown.h"
#include "core/ground/units.h"
#include "core/reason/condition.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

std::string number_words(const Attribute& attribute, double number) {
    return attribute.unit.empty() ? plain_number(number)
                                  : fmt::format("{} {}", plain_number(number), unit_words(attribute.unit));
}

std::string span_words(const Attribute& attribute, double least, double most) {
    const std::string words = attribute.words.empty() ? "" : fmt::format(", or {}", fmt::join(attribute.words, ", "));
    if (std::isinf(most)) return number_words(attribute, least) + " or more" + words;
    return fmt::format("{} to {}{}", plain_number(least), number_words(attribute, most), words);
}

// A pack's own attribute declares no extent; no length, resistance, volume or distance is below nothing.
Extent extent_of(const Attribute& attribute) {
    auto extent = attribute.extent;
    if (std::isinf(extent.least) && attribute.unit != "degC") extent.least = 0;
    return extent;
}

std::vector<double> numbers_in(const Attribute& attribute, const RightSide& right_side) {
    std::vector<double> numbers;
    for (const auto& span : right_side.spans())
        for (const auto& end : {span.low, span.high})
            if (end && *end != something_else)
                if (const auto value = typed_value(attribute, *end);
                    value.number && std::find(numbers.begin(), numbers.end(), *value.number) == numbers.end())
                    numbers.push_back(*value.number);
    return numbers;
}

// Requires: a value that its attribute can be typed as.
std::vector<std::string> out_of_extent(const Attribute& attribute, const RightSide& right_side) {
    std::vector<std::string> faults;
    const auto extent = extent_of(attribute);
    for (const double number : numbers_in(attribute, right_side)) {
        if (attribute.kind == ValueKind::number && !(number >= extent.least && number <= extent.most))
            faults.push_back(fmt::format("{} cannot be {}: valid is {}; measure or read it again", attribute.title,
                                         number_words(attribute, number),
                                         span_words(attribute, extent.least, extent.most)));
        else if (attribute.kind == ValueKind::number && extent.whole && number != std::floor(number))
            faults.push_back(fmt::format("{} cannot be {}: it is counted, in whole numbers", attribute.title,
                                         number_words(attribute, number)));
        else if (attribute.kind == ValueKind::month && attribute.finding &&
                 number > std::stoi(today().substr(0, 4)) * 12 + std::stoi(today().substr(5, 2)) - 1)
            faults.push_back(fmt::format("{}: that month has not come yet: read it again", attribute.title));
    }
    return faults;
}

class Check {
public:
    Check(Session& session, const Vehicle& vehicle)
        : session_(session), vehicle_(vehicle), words_(session.catalog().vocabularies()) {
        if (!session.catalog().line(vehicle.line))
            throw Error(Exit::no_input,
                        fmt::format("{}: its vehicle line {} is in no loaded pack: load the pack that has it",
                                    vehicle.name, vehicle.line));
        if (ShopVehicles(session.shop()).find(vehicle.name))
            standing_ = ShopTold(session.shop()).standing(vehicle.name);
    }

    std::vector<ToldFact> run(const std::vector<ToldFact>& typed) {
        std::vector<ToldFact> entries;
        for (const auto& entry : typed) join(entries, entry);
        const auto known = known_so_far(entries);
        for (auto& entry : entries) look_at(entry, *known);
        check_year_with_build(entries);
        if (!faults_.empty()) throw Error(exit_, faults_);
        const auto all = facts(entries, [](const ToldFact&) { return true; });
        narrow(*session_.catalog().line(vehicle_.line, all), words_, all);
        return entries;
    }

private:
    // A second value beside the first, where several may be seen.
    void join(std::vector<ToldFact>& entries, ToldFact entry) {
        const bool beside = !entry.attribute.empty() && entry.attribute.back() == '+';
        if (beside) entry.attribute.pop_back();
        const auto* attribute = words_.attribute(entry.attribute);
        const auto same = std::find_if(entries.begin(), entries.end(),
                                       [&](const ToldFact& one) { return one.attribute == entry.attribute; });
        const auto stands = std::find_if(standing_.begin(), standing_.end(),
                                         [&](const ToldFact& one) { return one.attribute == entry.attribute; });
        if (attribute && !attribute->several && (beside || same != entries.end())) {
            faults_.push_back(
                fmt::format("{} is told twice: it has one value: tell it once, alternatives as a|b", entry.attribute));
            return;
        }
        if (beside && same == entries.end() && stands != standing_.end() && attribute &&
            stands->text != attribute->alone)
            entry = seen_beside(*stands, std::move(entry));
        if (same == entries.end()) return entries.push_back(std::move(entry));
        same->text = joined_values(same->text, entry.text);
        same->right_side = RightSide(joined_values(same->right_side.text(), entry.right_side.text()));
    }

    // What is seen side by side is one entry, no better known than its worst known value. It stands, though one value was
    // looked at and another is hearsay; its note keeps how the better one is known.
    static ToldFact seen_beside(const ToldFact& stands, ToldFact entry) {
        const auto old = split_at(stands.text, '+'), fresh = split_at(entry.text, '+');
        const auto in = [](const std::vector<std::string>& all, const std::string& one) {
            return std::find(all.begin(), all.end(), one) != all.end();
        };
        const auto both = joined_values(stands.text, entry.text);
        auto worst = TellEvidence::measured;
        std::vector<std::string> better;
        for (const auto& value : split_at(both, '+'))
            worst = std::max(worst, std::min(in(old, value) ? stands.evidence : TellEvidence::assumed,
                                             in(fresh, value) ? entry.evidence : TellEvidence::assumed));
        for (const auto* one : {&stands, &std::as_const(entry)})
            if (one->evidence < worst)
                better.push_back(fmt::format("{} {}{}", shown_value(one->text), tell_evidence_words(one->evidence),
                                             one->date.empty() ? "" : " " + one->date));
        if (!entry.note.empty()) better.push_back(entry.note);
        entry.note = fmt::format("{}", fmt::join(better, "; "));
        entry.right_side = RightSide(joined_values(stands.right_side.text(), entry.right_side.text()));
        entry.text = both;
        entry.evidence = worst;
        if (is_hearsay(worst) && !is_hearsay(stands.evidence)) entry.corrects = stands.id;
        return entry;
    }

    template <class Which> std::vector<ToldFact> facts(const std::vector<ToldFact>& entries, Which which) const {
        std::vector<ToldFact> all;
        for (const auto& entry : standing_)
            if (std::none_of(entries.begin(), entries.end(),
                             [&](const ToldFact& anew) { return anew.attribute == entry.attribute; }))
                all.push_back(entry);
        for (const auto& entry : entries)
            if (which(entry)) all.push_back(fact(entry));
        return all;
    }

    static ToldFact fact(ToldFact entry) {
        if (entry.date.empty()) entry.date = "today";
        return entry;
    }

    // The vehicle as it would stand with what is told of its identity, for the domains to look at.
    std::unique_ptr<Situation> known_so_far(const std::vector<ToldFact>& entries) {
        std::vector<ToldFact> told = standing_;
        for (const auto& entry : entries) {
            const auto* attribute = words_.attribute(entry.attribute);
            if (!attribute || attribute->finding || !refusals(entry).empty()) continue;
            told.erase(std::remove_if(told.begin(), told.end(),
                                      [&](const ToldFact& one) { return one.attribute == entry.attribute; }),
                       told.end());
            told.push_back(entry);
        }
        try {
            return std::make_unique<Situation>(session_.catalog(), session_.plugins(), vehicle_, told);
        } catch (const Error&) {
            return std::make_unique<Situation>(session_.catalog(), session_.plugins(), vehicle_,
                                               std::vector<ToldFact>{});
        }
    }

    // What the line and the attribute say against one value by itself.
    std::vector<std::string> refusals(const ToldFact& entry) {
        try {
            narrow(*session_.catalog().line(vehicle_.line, {fact(entry)}), words_, {fact(entry)});
            return {};
        } catch (const Error& error) {
            if (error.exit() == Exit::usage) exit_ = Exit::usage;
            return error.all();
        } catch (const ConditionFault& fault) {
            return {fmt::format("{}={}: {}", entry.attribute, entry.text, fault.what())};
        }
    }

    std::vector<std::string> extent_faults(const ToldFact& entry) const {
        const auto* attribute = words_.attribute(entry.attribute);
        try {
            return attribute ? out_of_extent(*attribute, entry.right_side) : std::vector<std::string>{};
        } catch (const ConditionFault&) {
            return {};  // said by `refusals`
        }
    }

    // "131.800" of a distance in km is 131 800 to one person and 131.8 to another.
    static std::string two_readings(const Attribute& attribute, const std::string& text) {
        const auto point = text.find('.');
        const auto digits = [](std::string_view part) {
            return !part.empty() && part.find_first_not_of("0123456789") == std::string_view::npos;
        };
        const auto after = point == std::string::npos ? std::string()
                                                      : text.substr(point + 1, text.find(' ', point) - point - 1);
        const std::string number = after.substr(0, after.find_first_not_of("0123456789"));
        if (attribute.unit != "km" || point == 0 || point > 3 || number.size() != 3 || !digits(text.substr(0, point)))
            return "";
        const auto whole = text.substr(0, point);
        return fmt::format("{}.{} may be {}{} or {}: write it without the point, or with fewer figures behind it",
                           whole, number, whole, number, plain_number(std::stod(whole + "." + number)));
    }

    void check_year_with_build(const std::vector<ToldFact>& entries) {
        const auto value = [&](std::string_view attribute) {
            std::string text;
            for (const auto& entry : standing_)
                if (entry.attribute == attribute) text = entry.right_side.text();
            for (const auto& entry : entries)
                if (entry.attribute == attribute) text = entry.right_side.text();
            return text;
        };
        const auto year = value("year"), build = value("build");
        const bool single = year.size() == 4 && build.size() == 7 && build[4] == '-' &&
                            (year + build.substr(0, 4)).find_first_not_of("0123456789") == std::string::npos;
        if (!single) return;
        const int model = std::stoi(year), built = std::stoi(build.substr(0, 4));
        if (!may_be_built_in(model, built))
            faults_.push_back(fmt::format(
                "year={} with build={}: a model year {} is built from {}-01, and no later than {}-12: read both "
                "again, and tell the one that is right",
                year, build, year, first_built_year(model), last_built_year(model)));
    }

    void look_at(ToldFact& entry, const Situation& known) {
        const auto* attribute = words_.attribute(entry.attribute);
        auto faults = domain_faults(entry, known);
        if (attribute)
            if (auto readings = two_readings(*attribute, entry.text); !readings.empty())
                faults.push_back(std::move(readings));
        if (faults.empty() && (attribute && attribute->finding)) faults = extent_faults(entry);
        if (!faults.empty()) {
            for (const auto& fault : faults)
                faults_.push_back(fmt::format("{}={}: {}", entry.attribute, entry.text, fault));
            return;
        }
        const auto refused = refusals(entry);
        faults_.insert(faults_.end(), refused.begin(), refused.end());
        if (refused.empty())  // what a line was built with is said by the line, which knows better
            for (const auto& fault : extent_faults(entry))
                faults_.push_back(fmt::format("{}={}: {}", entry.attribute, entry.text, fault));
    }

    std::vector<std::string> domain_faults(ToldFact& entry, const Situation& known);

    Session& session_;
    const Vehicle& vehicle_;
    const Vocabularies& words_;
    std::vector<ToldFact> standing_;
    std::vector<std::string> faults_;
    Exit exit_ = Exit::bad_data;
};

// The domain whose attribute it is; nothing when it is core's, a pack's, or not loaded.
std::optional<Telling> asked(Session& session, const std::string& attribute, const std::string& value,
                             const Situation& situation) {
    const auto& attributes = session.catalog().vocabularies().attributes();
    const auto found = attributes.find(attribute);
    const auto* domain = found == attributes.end() ? nullptr : session.plugins().find(found->second.owner);
    if (!domain || value == "none") return std::nullopt;
    auto said = domain->telling(attribute, value, {session.catalog().facts_for(*domain), session.engine(), &situation});
    if (said) return std::move(*said);
    return Telling{{}, {}, {fmt::format("not checked: {}", said.failure)}};  // taken as typed
}

// The alternatives of a right side that holds no range; nothing otherwise.
std::vector<std::string> alternatives(const RightSide& right_side) {
    std::vector<std::string> all;
    try {
        for (const auto& span : right_side.spans()) {
            if (!span.single()) return {};
            all.push_back(*span.low);
        }
    } catch (const ConditionFault&) { return {}; }
    return all;
}

// Puts the value in the form that the domain keeps.
std::vector<std::string> Check::domain_faults(ToldFact& entry, const Situation& known) {
    std::vector<std::string> faults, kept;
    bool changed = false;
    for (const auto& value : alternatives(entry.right_side)) {
        const auto telling = asked(session_, entry.attribute, value, known);
        if (telling) faults.insert(faults.end(), telling->faults.begin(), telling->faults.end());
        changed |= telling && !telling->text.empty() && telling->text != value;
        kept.push_back(telling && !telling->text.empty() ? telling->text : value);
    }
    if (!changed || !faults.empty()) return faults;
    entry.text = fmt::format("{}", fmt::join(kept, "|"));
    entry.right_side = RightSide(entry.text);
    return faults;
}

}  // namespace

std::vector<ToldFact> checked_tellings(Session& session, const Vehicle& vehicle, const std::vector<ToldFact>& entries) {
    return Check(session, vehicle).run(entries);
}

bool could_be_told(Session& session, const Situation& situation, const Attribute& attribute) {
    auto values = attribute.choices;
    values.insert(values.end(), attribute.words.begin(), attribute.words.end());
    if (values.empty()) return true;  // any text, or a number that only its extent bounds
    return std::any_of(values.begin(), values.end(), [&](const std::string& value) {
        const auto telling = asked(session, attribute.name, value, situation);
        return !telling || telling->faults.empty();
    });
}

std::vector<std::string> unusual_told(Session& session, const Situation& situation) {
    std::vector<std::string> all;
    for (const auto& told : situation.told()) {
        const auto* attribute = session.catalog().vocabularies().attribute(told.attribute);
        if (!attribute) continue;
        const auto& extent = attribute->extent;
        if (told.number && attribute->kind == ValueKind::number &&
            (*told.number < extent.usual_least || *told.number > extent.usual_most))
            all.push_back(fmt::format("{}={} is unusual: {} is mostly {}. Measure again before anything rests on it.",
                                      told.attribute, told.text, attribute->title,
                                      span_words(*attribute, extent.usual_least, extent.usual_most)));
        for (const auto& value : alternatives(RightSide(told.text)))
            if (const auto telling = asked(session, told.attribute, value, situation))
                for (const auto& said : telling->unusual)
                    all.push_back(fmt::format("{}={}: {}.", told.attribute, told.text, said));
    }
    return all;
}

}  // namespace casebound
