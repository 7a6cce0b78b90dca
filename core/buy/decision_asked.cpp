#include "core/buy/decision_asked.h"

#include <cmath>

#include <fmt/format.h>

#include "core/ground/units.h"

namespace casebound {

Estimate DecisionAsked::shown(const DealFigure& figure) const {
    auto estimate = figure.estimate;
    if (figure.key == "works" && asked.deal.works.alpha > 0)
        estimate.low = std::round(decision.chance_low * 100) / 100,
        estimate.high = std::round(decision.chance_high * 100) / 100;
    return estimate;
}

std::string DecisionAsked::worst_words(const std::string& currency) const {
    const auto amount = [&](double value) {
        return plain_number(std::round(value), 0) + (currency.empty() ? "" : " " + currency);
    };
    const auto worst = amount(decision.worst);
    if (!asked.deal.fix_failed) {
        const auto at_likely = amount(decision.likely.worst);
        return fmt::format("Worst: {} if the cheap fix fails; then {}.{}", worst,
                           path_words(decision.expected.after_failure),
                           at_likely == worst ? "" : fmt::format(" At the likely figures: {}.", at_likely));
    }
    const auto end = amount(decision.expected.result(decision.recommended).whole);
    return fmt::format("The cheap fix has failed: best from here {}, ending at {}{}.", path_words(decision.recommended),
                       end, end == worst ? "" : ", at worst " + worst);
}

DecisionAsked decision_asked(Session& session, const Args& args) {
    DecisionAsked all;
    all.vehicle = session.vehicle(args.words.at(0)).name;
    const KeyValueArgs words(args.words, 1, deal_keys());
    all.asked = deal_from(session, all.vehicle, words,
                          {args.all("job"), args.all("unit-job"), args.all("without"), args.option("symptom"),
                           args.has("bought"), args.has("failed-fix")});
    all.decision = decide(all.asked.deal);
    return all;
}

}  // namespace casebound
