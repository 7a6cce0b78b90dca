// What a search for the cause ends in: which part, or where to look first; part of the contract, and nothing but
// shorthand. Rests on what was given, and on the weakest of it.
#pragma once

#include <initializer_list>
#include <string>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/plugin.h"

namespace casebound {

struct Advice {
    Verdict verdict;
    const char *headline, *next;
};

// The inputs that have a value, a line each, and what they come to in `source`.
struct Advised {
    Answer answer;
    SourceNote source = practice();

    Advised(const Advice& advice, const Given& given, std::initializer_list<const char*> inputs)
        : answer(Answer::judging(advice.verdict)) {
        answer.headline = advice.headline;
        answer.next = {advice.next};
        for (const auto* input : inputs)
            if (given.has(input)) {
                answer.lines.push_back(text_line(input, given.text(input), given.source(input)));
                rests_on(given.source(input));
            }
    }
    void rests_on(const SourceNote& more) { source = weaker(std::move(source), more); }
    void say_what_it_points_at() { answer.lines.push_back(text_line("it points at", answer.headline, source)); }
};

}  // namespace casebound
