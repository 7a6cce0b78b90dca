#include "core/shop/reminders.h"

#include <fmt/format.h>

#include "core/ground/units.h"

namespace casebound {

namespace {

constexpr double pound_kg = 0.45359237;   // exact, international pound
constexpr int federal_weight_lb = 16000;  // 49 CFR 580.17(a)(1)

// The age rule in figures, so that the person can check it.
std::string age_rule(int model_year) {
    const int years = model_year <= 2010 ? 10 : 20;
    return fmt::format("{} and {}: {} years after 1 January {}, so from {}-01-01", model_year <= 2010 ? 2010 : 2011,
                       model_year <= 2010 ? "older" : "newer", years, model_year, model_year + years);
}

std::string odometer(const SaleFacts& facts, std::string_view date) {
    const std::string what = "Odometer disclosure, 49 CFR 580: ";
    if (facts.gross_weight_kg && odometer_statement_exempt_by_weight(*facts.gross_weight_kg))
        return what + fmt::format(
                          "its gross weight rating of {} kg is above 16,000 lb: exempt by 580.17(a)(1); check your "
                          "state as well.",
                          plain_number(*facts.gross_weight_kg, 0));
    const std::string weight = facts.gross_weight_kg
                                   ? "its gross weight rating is not above 16,000 lb"
                                   : "unless its gross weight rating is above 16,000 lb, 7,257 kg (580.17(a)(1))";
    if (!facts.model_year)
        return what + fmt::format(
                          "the model year is not known; the seller signs a statement ({}), unless it is old enough: "
                          "model year 2010 and older after 10 years, 2011 and newer after 20 (580.17(a)(3), (4)).",
                          weight);
    if (odometer_statement_exempt(*facts.model_year, date))
        return what +
               fmt::format("model year {} is old enough to be exempt by 580.17(a) ({}); check your state as well.",
                           *facts.model_year, age_rule(*facts.model_year));
    return what +
           fmt::format("model year {} is not exempt by age (580.17(a)(4); {}): the seller signs a statement; {}.",
                       *facts.model_year, age_rule(*facts.model_year), weight);
}

std::vector<std::string> dealer(const SaleFacts& facts) {
    return {fmt::format("Dealer, 49 U.S.C. 32702(2): sold at least 5 vehicles in 12 months to buyers that did not buy "
                        "for resale. On record here: {}{}.",
                        facts.sold_12_months, facts.sold_12_months >= 5 ? ": that is a dealer by this rule" : ""),
            fmt::format("Used Car Rule, 16 CFR 455: it binds whoever offers a vehicle after having sold or offered "
                        "five or more in the 12 months before. On record here before this one: {}{}. "
                        "It is about vehicles below 8,500 lb gross weight rating.",
                        facts.sold_or_offered_12_months,
                        facts.sold_or_offered_12_months >= 5 ? ": the Buyers Guide is needed" : ""),
            "Maine and Wisconsin are outside the Used Car Rule and have rules of their own. State licence limits are "
            "often lower than five (from memory): check your state."};
}

}  // namespace

bool odometer_statement_exempt(int model_year, std::string_view date) {
    const int year = std::stoi(std::string(date.substr(0, 4)));
    return year - model_year >= (model_year <= 2010 ? 10 : 20);
}

bool odometer_statement_exempt_by_weight(double gross_weight_kg) {
    return gross_weight_kg > federal_weight_lb * pound_kg + 1e-6;
}

std::vector<std::string> reminders(std::string_view jurisdiction, const SaleFacts& facts, std::string_view date) {
    if (jurisdiction != "us-federal")
        return {fmt::format(
            "{}: ask locally what a seller must state, when selling counts as trade, and how waste oil is handed in.",
            jurisdiction.empty() ? "No jurisdiction is set (casebound shop set jurisdiction=us-federal or elsewhere)"
                                 : std::string(jurisdiction))};
    std::vector<std::string> all{odometer(facts, date)};
    for (auto& text : dealer(facts)) all.push_back(std::move(text));
    all.emplace_back(
        "Used oil, 40 CFR 279.22: containers in good condition, not leaking, marked \"Used Oil\"; household rules "
        "differ (from memory).");
    all.emplace_back("These are reminders, not legal advice.");
    return all;
}

}  // namespace casebound
