// What `buy` is asked and answers, for the command and the page.
#pragma once

#include <memory>

#include "core/buy/order_report.h"

namespace casebound {

struct BuyAsked {
    std::unique_ptr<Situation> situation;
    BuyWish wish;
    Buying buying;
    BuyAnswer answer;

    // There is an order, or nothing needs to be ordered.
    bool settled() const;
};

// As the words and options of `buy` say: nothing is written. Throws Error(usage) for a job, place or figure that is none.
BuyAsked buy_asked(Session& session, const Args& args);

}  // namespace casebound
