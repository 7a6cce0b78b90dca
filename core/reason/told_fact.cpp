#include "core/reason/told_fact.h"

#include <fmt/format.h>

namespace casebound {

RightSide::RightSide(std::string text) : text_(std::move(text)) {
    try {
        spans_ = parse_spans(text_);
    } catch (const ConditionFault& fault) { fault_ = fault; }
}

const std::vector<Span>& RightSide::spans() const {
    if (fault_) throw ConditionFault(*fault_);
    return spans_;
}

const std::string* RightSide::single() const {
    return spans().size() == 1 && spans_[0].single() ? &*spans_[0].low : nullptr;
}

std::string ToldFact::said() const {
    return fmt::format("{}={} ({} {})", attribute, text, tell_evidence_words(evidence), date);
}

ToldFact told_fact(std::string attribute, const std::string& text, TellEvidence evidence, std::string date) {
    ToldFact fact;
    fact.attribute = std::move(attribute);
    fact.text = text;
    fact.right_side = RightSide(text);
    fact.evidence = evidence;
    fact.date = std::move(date);
    return fact;
}

}  // namespace casebound
