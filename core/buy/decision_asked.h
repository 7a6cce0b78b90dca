// What `decide` is asked and answers, for the command and the page.
#pragma once

#include <string>

#include "core/buy/deal_sources.h"

namespace casebound {

struct DecisionAsked {
    std::string vehicle;
    DealAsked asked;
    Decision decision;

    // Every figure is this vehicle's, and nothing stops a cure.
    bool to_go_by() const { return asked.defaults.empty() && asked.held.empty(); }
    // As it is shown: a chance from counted jobs has its 5 % and 95 % points, which are drawn, to a whole percent.
    Estimate shown(const DealFigure& figure) const;
    // What it comes to at worst, a sentence; amounts in `currency`, "": as numbers alone.
    std::string worst_words(const std::string& currency) const;
};

// As the words and options of `decide` say. Throws Error.
DecisionAsked decision_asked(Session& session, const Args& args);

}  // namespace casebound
