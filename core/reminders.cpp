#include "reminders.h"

#include <fmt/format.h>

namespace casebound {

namespace {

std::string odometer(const SaleFacts& facts, std::string_view date) {
    const std::string what = "Odometer disclosure, 49 CFR 580: ";
    if (!facts.model_year) return what + "the model year is not known; the seller signs a statement unless an exemption of 580.17 applies.";
    if (odometer_statement_exempt(*facts.model_year, date))
        return what + fmt::format("model year {} is old enough to be exempt by 580.17(a); check your state as well.", *facts.model_year);
    return what + fmt::format("model year {} is not exempt by age (580.17(a)): the seller signs a statement, unless the gross weight rating is above 16,000 lb.", *facts.model_year);
}

}  // namespace

bool odometer_statement_exempt(int model_year, std::string_view date) {
    const int year = std::stoi(std::string(date.substr(0, 4)));
    return year - model_year >= (model_year <= 2010 ? 10 : 20);
}

std::vector<std::string> reminders(std::string_view jurisdiction, const SaleFacts& facts, std::string_view date) {
    if (jurisdiction != "us-federal")
        return {fmt::format("{}: ask locally what a seller must state, when selling counts as trade, and how waste oil is handed in.",
                            jurisdiction.empty() ? "No jurisdiction is set (casebound shop set jurisdiction=...)" : std::string(jurisdiction))};
    return {odometer(facts, date),
            fmt::format("Dealer, 49 U.S.C. 32702(2): sold at least 5 vehicles in 12 months. On record here: {}{}.", facts.sold_12_months, facts.sold_12_months >= 5 ? ": that is a dealer by this rule" : ""),
            fmt::format("Used Car Rule, 16 CFR 455: it binds whoever offers a vehicle after having sold or offered five or more in the 12 months before. On record here before this one: {}{}.",
                        facts.sold_or_offered_12_months, facts.sold_or_offered_12_months >= 5 ? ": the Buyers Guide is needed" : ""),
            "State licence limits are often lower: check your state.",
            "Used oil, 40 CFR 279.22: containers in good condition, not leaking, marked \"Used Oil\"; household rules differ (from memory).",
            "These are reminders, not legal advice."};
}

}  // namespace casebound
