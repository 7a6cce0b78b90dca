// Says which domain was running when the program ends before it has answered: a plugin that calls exit(), crashes, or
// does not come back. Whatever status it wanted, the program ends with 70, never with an answer that was not given.
// Mends nothing, and does nothing in a child process.
#pragma once

#include <cstdint>
#include <string>

namespace casebound {

// For the length of one call of a plugin's code, innermost first. What it names must outlive it.
class RunningHook {
public:
    enum class Pace : std::uint8_t { answer, whole_pack };  // how long it may take: 20 s, 600 s
    RunningHook(const std::string& domain, const std::string& hook, Pace pace = Pace::answer);
    ~RunningHook();
    RunningHook(const RunningHook&) = delete;
    RunningHook& operator=(const RunningHook&) = delete;

private:
    friend struct DomainWatch;
    const char *domain_, *hook_;
    const RunningHook* outer_;
    std::uint64_t number_;
    int most_s_;
};

// From now on, and until answered(). CASEBOUND_HOOK_SECONDS replaces both times.
void watch_domains();
void answered();  // the program may end with the status it chose

}  // namespace casebound
