// How far jobs reach for one place, configuration by configuration: what a job says of this line outranks, where it
// holds, what the job says of every line; of two jobs the stronger counts. Decides nothing of what fits.
#pragma once

#include <array>
#include <map>
#include <string>

#include "core/verdict/list_line.h"

namespace casebound {

class JobReach {
public:
    void add(const std::string& job, bool of_line, Reach reach, const Bits& on);
    // The old one never goes back there: what would only be disturbed is used up.
    void never_again(const Bits& on);

    Bits must() const;  // needed or used up, so that it is ordered
    Bits all() const;   // reached in any way
    Reach strongest(const Bits& on) const;

private:
    using ByReach = std::array<Bits, 4>;
    ByReach reached() const;

    struct Said {
        ByReach general, of_line;
    };
    std::map<std::string, Said> said_;
    std::size_t size_ = 0;
    Bits never_;
};

}  // namespace casebound
