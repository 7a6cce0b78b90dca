// The money of a bid: its figures, and what mending a cause costs: typed, own closed jobs or the cheapest order of its
// job, else its row. What nobody has given is named, never filled.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/buy/deal_sources.h"
#include "core/buy/lacking.h"
#include "core/buy/triage_rows.h"
#include "core/deal/triage.h"
#include "core/session/session.h"
#include "core/work/key_value_args.h"

namespace casebound {

class BidMoney {
public:
    // `costs`: CAUSE=LOW/LIKELY/HIGH, as typed. Throws Error(usage) for a figure that cannot be.
    BidMoney(Session& session, const std::string& vehicle, const KeyValueArgs& words,
             const std::vector<std::string>& costs);

    std::optional<Estimate> cost_of(const CauseOnRecord& cause);

    TriageFigures figures{};
    std::optional<double> price;
    std::vector<Lacking> missing, left_out;  // without the first nothing is told; the other is counted as none
    std::vector<std::string> notes;
    std::vector<std::pair<std::string, std::string>> given;  // and where each comes from

private:
    std::optional<double> figure(const DealAsked& asked, const std::string& key, const Estimate& estimate);
    std::optional<Estimate> cost_of_job(const std::string& job);

    Session& session_;
    std::string vehicle_;
    const KeyValueArgs& words_;
    const std::vector<std::string>& costs_;
    std::map<std::string, std::optional<Estimate>> job_costs_;
};

// What was typed of a cause, CAUSE=VALUE; "" when nothing was.
std::string typed_of_cause(const std::vector<std::string>& all, const std::string& cause);

}  // namespace casebound
