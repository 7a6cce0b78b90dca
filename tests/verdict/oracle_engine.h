// Core's engine on a plain catalog: a domain that objects as the catalog says, a view, and the mapping between
// core's order of configurations and the plain one.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <unordered_map>
#include <vector>

#include "core/ground/error.h"
#include "core/reason/reasoner.h"
#include "core/verdict/fits.h"
#include "core/verdict/narrowing.h"
#include "tests/verdict/oracle_generate.h"

namespace casebound::tests {

// Objects to what the plain catalog says; owns the first two roles.
class ToyDomain : public Domain {
public:
    const PlainCatalog* plain = nullptr;
    std::string_view title() const override { return "toy"; }
    Vocabulary vocabulary() const override { return {}; }
    std::string_view schema() const override { return ""; }
    Examination examine(const Candidate& candidate, const Services&) const override {
        Examination examination;
        for (const auto& objection : plain->objections)
            if (objection.role == candidate.role && objection.group == candidate.group)
                examination.objections.push_back(
                    {objection.condition, objection.at_most, "the toy domain objects", {}});
        return examination;
    }
};

class NoVehicle : public VehicleView {
public:
    std::string name() const override { return "yardvan"; }
    std::string line() const override { return "oracle-line"; }
    std::vector<PossibleValue> possible(std::string_view) const override { return {}; }
    std::vector<Told> told() const override { return {}; }
    Evidence left_rests_on() const override { return Evidence::invented; }
    Holds holds(std::string_view) const override { return Holds::open; }
};

inline std::vector<ToldFact> told_facts(const std::vector<PlainFact>& facts) {
    std::vector<ToldFact> told;
    for (const auto& fact : facts)
        told.push_back(told_fact(fact.attribute, fact.right_side, fact.evidence, "2026-11-25"));
    return told;
}

// Of each alternative of core's line model, which of the plain configurations it is.
inline std::vector<std::size_t> plain_order(const PlainCatalog& plain, const LineModel& line) {
    const auto key_of = [&](std::size_t alternative) {
        std::string key;
        for (const auto* a : plain.attributes) {
            const auto* column = line.set.column(a->name);
            const auto& value = column->values[column->at[alternative]];
            key += fmt::format("{}={};", a->name,
                               value_key(value.text == "none", a->ordered(), value.number.value_or(0), value.text));
        }
        return key;
    };
    std::unordered_map<std::string, std::size_t> at;
    for (std::size_t c = 0; c < plain.configurations.size(); ++c) at[configuration_key(plain, c)] = c;
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < line.set.size(); ++i) order.push_back(at.at(key_of(i)));
    return order;
}

// One plain catalog in the bench, open, with core's line model.
class Opened {
public:
    Opened(Bench& bench, const PlainCatalog& plain, const std::vector<std::size_t>& order = {})
        : bench_(bench), plain_(plain) {
        bench_.put_catalog(plain, order);
        catalog_ = bench_.open();
        toy_.plain = &plain;
        plugins_.domains.emplace_back("toy", "", toy_, Vocabulary{});
        line_ = catalog_->line("oracle-line");
        if (line_ == nullptr) throw std::logic_error("the line was put in and is not there");
        plain_of_ = plain_order(plain, *line_);
    }
    ~Opened() { bench_.close(std::move(catalog_)); }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;

    const Catalog& catalog() const { return *catalog_; }
    const LineModel& line() const { return *line_; }
    const Plugins& plugins() const { return plugins_; }
    const Reasoner& reasoner() const { return engine_; }
    std::size_t plain_of(std::size_t alternative) const { return plain_of_[alternative]; }

    Where where(const Bits& bits) const {
        Where on(plain_of_.size());
        for (std::size_t i = 0; i < plain_of_.size(); ++i) on[plain_of_[i]] = bits.test(i);
        return on;
    }
    Bits bits(const Where& on) const {
        Bits result(plain_of_.size());
        for (std::size_t i = 0; i < plain_of_.size(); ++i)
            if (on[plain_of_[i]]) result.set(i);
        return result;
    }

    Narrowing narrowed(const std::vector<PlainFact>& facts) const {
        return narrow(*line_, catalog_->vocabularies(), told_facts(facts));
    }
    Judge judge(const Narrowing& narrowing) const { return {*catalog_, plugins_, *line_, narrowing, view_, engine_}; }

private:
    Bench& bench_;
    const PlainCatalog& plain_;
    std::unique_ptr<Catalog> catalog_;
    ToyDomain toy_;
    Plugins plugins_;
    NoVehicle view_;
    Engine engine_;
    const LineModel* line_ = nullptr;
    std::vector<std::size_t> plain_of_;
};

// What `narrow` refuses, or "" when it narrows.
inline std::string refusal_of(const Opened& opened, const std::vector<PlainFact>& facts) {
    try {
        opened.narrowed(facts);
        return "";
    } catch (const Error& error) { return error.what(); }
}

}  // namespace casebound::tests
