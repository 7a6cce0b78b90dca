// What a call throws as an Error; `exit` is Exit::yes when it throws nothing.
#pragma once

#include <string>

#include "core/ground/error.h"

struct Refusal {
    casebound::Exit exit = casebound::Exit::yes;
    std::string text;
};

template <class Call> Refusal refusal(Call call) {
    try {
        call();
    } catch (const casebound::Error& error) { return {error.exit(), error.what()}; }
    return {};
}
