// The program under test, asked in this process through its table of commands, in JSON: one pack holds the lines of
// hundreds of worlds, and one shop after another their vehicles. Judges nothing.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "tests/chain/elsewhere.h"
#include "tests/chain/world.h"

namespace chain {

// What `buy` would have ordered while something is open: right in every configuration left.
struct Unsure {
    bool order{};
    std::vector<OrderLine> right_in_every;
};
struct Asked {
    Spoken says;
    Unsure unsure;
    std::optional<Elsewhere> elsewhere;  // where that was asked for
    std::string fault;                   // it failed, and why
};

class Subject {
public:
    // Writes and loads the pack of all of them. Throws std::runtime_error with every fault of the pack.
    explicit Subject(const std::vector<World>& worlds);
    ~Subject();
    Subject(const Subject&) = delete;
    Subject& operator=(const Subject&) = delete;

    Asked ask(std::size_t world, bool everywhere = true);
    std::string told_in_text(std::size_t world);  // what `list` and `buy` print, for a person to read

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

// The rows of a world, a file after another, as they stand in the pack, and what was told and offered.
std::string rows_of(const World& world);

}  // namespace chain
