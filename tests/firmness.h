// What is not told never makes an answer firm. From one answer of every inquiry, each input that is not required is
// left out in turn. An answer that is still firm must not hinge on it: with another value of that input the verdict
// must be the same, unless the program says "assumed" (a fallback, shown as taken) or the input asks a question of its
// own that nobody has to ask.
#pragma once

#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <set>

#include "tests/fakes.h"

namespace casebound::tests {

using Told = std::vector<std::pair<std::string, std::string>>;

struct Asked {
    std::string inquiry;
    Told inputs;
};

struct FirmnessOf {
    const Domain& domain;
    const Facts& facts;
    const VehicleView* vehicle = nullptr;
    std::map<std::string, std::string>
        own_question{};        // "coil joint": why it may be left out and the answer still be firm
    bool figures_too = false;  // an answer that only computes, and lacks nothing, counts as firm
    std::vector<std::string> faults{};
    std::set<std::string> inquiries{}, once_firm{}, hinged{}, too_wide{};

    bool firm(const Answer& answer) const {
        if (!answer.verdict) return figures_too;
        return answer.verdict == Verdict::fits || answer.verdict == Verdict::does_not_fit;
    }

    static std::size_t letters(const std::string& text) {
        return static_cast<std::size_t>(std::count_if(
            text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
    }

    // On a page of 80 columns all but the last column stand whole; the last one is wrapped, to 16 at the least.
    static bool fits_a_page(const Grid& grid) {
        std::size_t taken = 2;
        for (std::size_t column = 0; column + 1 < grid.columns.size(); ++column) {
            std::size_t width = letters(grid.columns[column]);
            for (const auto& row : grid.rows) width = std::max(width, letters(row[column]));
            taken += width + 2;
        }
        std::size_t last = letters(grid.columns.back());
        for (const auto& row : grid.rows) last = std::max(last, letters(row.back()) + 3);  // " <<"
        return taken + std::min<std::size_t>(last, 16) <= 80;
    }

    const Inquiry& inquiry(const std::string& name) const {
        static std::map<std::string, Inquiry> all;
        for (const auto& one : domain.inquiries()) all.emplace(one.name, one);
        return all.at(name);
    }

    std::optional<Answer> answer(const std::string& name, const Told& inputs) const {
        try {
            return ask(domain, name, inputs, facts, vehicle);
        } catch (const std::exception&) {
            return std::nullopt;  // refused: no answer, firm or not
        }
    }

    static Told without(Told inputs, const std::string& name) {
        std::erase_if(inputs, [&](const auto& one) { return one.first == name; });
        return inputs;
    }

    static Told with(Told inputs, const std::string& name, const std::string& value) {
        inputs = without(std::move(inputs), name);
        inputs.emplace_back(name, value);
        return inputs;
    }

    // Other values a person might have told: every choice, yes and no, numbers around the one given and at both ends.
    static std::vector<std::string> others(const Input& input, const std::string& given) {
        if (input.kind == Input::Kind::choice) return input.choices;
        if (input.kind == Input::Kind::yes_no) return {"yes", "no"};
        if (input.kind != Input::Kind::number) return {};
        std::vector<std::string> all;
        const double value = std::strtod(given.c_str(), nullptr);
        for (const double one :
             {input.min, input.max, value * 0.5, value * 0.9, value * 1.1, value * 2, value + 1, value - 1})
            if (std::isfinite(one) && one >= input.min && one <= input.max) all.push_back(std::to_string(one));
        return all;
    }

    void leave_out(const Asked& asked, const Input& input, const std::string& value) {
        const auto less = answer(asked.inquiry, without(asked.inputs, input.name));
        if (!less || !firm(*less) || !input.fallback.empty()) return;
        for (const auto& other : others(input, value)) {
            const auto told = answer(asked.inquiry, with(asked.inputs, input.name, other));
            if (!told || told->verdict == less->verdict) continue;
            const auto who = asked.inquiry + " " + input.name;
            if (own_question.count(who) != 0) hinged.insert(who);
            else
                faults.push_back(who + " left out gives \"" + less->headline + "\", " + other + " gives \"" +
                                 told->headline + "\"");
            return;
        }
    }

    void run(const std::vector<Asked>& questions) {
        for (const auto& asked : questions) {
            inquiries.insert(asked.inquiry);
            const auto whole = answer(asked.inquiry, asked.inputs);
            if (whole && !std::all_of(whole->grids.begin(), whole->grids.end(), fits_a_page))
                too_wide.insert(asked.inquiry);
            if (!whole) faults.push_back(asked.inquiry + " refuses the inputs of this test");
            else if (firm(*whole)) once_firm.insert(asked.inquiry);
            for (const auto& input : inquiry(asked.inquiry).inputs)
                for (const auto& [name, value] : asked.inputs)
                    if (name == input.name && !input.required) leave_out(asked, input, value);
        }
    }

    std::set<std::string> never_firm() const {
        std::set<std::string> names;
        for (const auto& name : inquiries)
            if (once_firm.count(name) == 0) names.insert(name);
        return names;
    }

    // Inquiries with something to leave out that no question here asks.
    std::set<std::string> not_asked() const {
        std::set<std::string> names;
        for (const auto& one : domain.inquiries())
            if (inquiries.count(one.name) == 0 &&
                std::any_of(one.inputs.begin(), one.inputs.end(), [](const Input& input) { return !input.required; }))
                names.insert(one.name);
        return names;
    }
};

}  // namespace casebound::tests
