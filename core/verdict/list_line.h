// A parts list as it stands: its lines, what stays behind, kits, what is open and what it rests on. Made by
// parts_list.h; orders nothing and knows no price.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/reason/question.h"
#include "core/verdict/fits.h"
#include "core/verdict/places.h"
#include "core/verdict/whole_containers.h"

namespace casebound {

enum class Reach : std::uint8_t { needs, consumes, disturbs, look_first };  // strongest first

// A group that may be ordered for a line, with what it comes as.
struct Option {
    std::string group, title;
    std::string only_part;            // of the group this part alone; empty: every part of it
    std::vector<GoesWith> goes_with;  // may be ordered only together with these
    std::vector<Member> members;      // may be ordered
    std::vector<Member> claimed;      // only their seller says so; never ordered from a list
    std::string where;                // on which of the configurations left; empty: all of them
    double share = 1;                 // of the configurations left, by weight
    std::vector<Container>
        containers;  // for quantities: whole containers that give at least the need with least left over
};

struct ListLine {
    RoleAnswer answer;
    std::vector<std::string> jobs, notes;
    Reach reach = Reach::needs;
    std::string reuse;                    // never, if_undamaged, by_design, not_applicable
    std::string only_where;               // needed on only some of the configurations left
    std::string none_where, blank_where;  // check first: where there is no such place, where nothing is recorded
    Bits applies;                         // over the whole line
    double quantity_low = 0, quantity_high = 0;
    bool amount_open{};  // of what is poured or cut to length: how much it takes is not recorded everywhere
    double reserve = 0;  // of a fluid, beside the quantity: what is spilt and stays in the jug
    std::vector<Option> options;
    std::vector<SwapAnswer> stand_ins;  // for the group that fits
    std::vector<std::string> kits;      // kits of the list that already cover it
    std::vector<HeldOrder> held;        // what a domain holds of it: nothing may be ordered
    std::vector<Doubt> doubts;          // of what was told, where another part might be right: neither
    std::string companion_of;           // why a domain or a stand-in added the line; empty when a job names it
    bool must_order() const { return reach == Reach::needs || reach == Reach::consumes; }
    bool waits() const { return !held.empty() || !doubts.empty(); }
    bool blocks() const;  // would ordering now be a guess?
};

// Why a line waits that no question about the vehicle settles: what is held or in doubt, or what its domain says
// against every candidate. "" when nothing does.
std::string held_back(const ListLine& line);

// The same, a sentence each: "the fluid is milky: test the cooler".
std::vector<std::string> in_the_way(const ListLine& line);

struct Stay {
    std::string role, title, place, see, remove, where;  // where: on which configurations left; empty: on all
    std::int64_t count{};  // pieces, as many in as come out; 0: not counted, as of a liquid
    Bits on;               // over the whole line
    Origin origin;
};

struct Kit {
    std::string item, title;
    std::vector<std::string> covers;   // titles of roles it serves
    std::vector<std::string> lacks;    // titles of roles of the list it does not contain
    std::vector<std::string> surplus;  // groups nothing here needs
    Origin origin;
};

struct PartsList {
    std::vector<std::string> jobs, titles;
    std::vector<ListLine> lines;
    std::vector<Stay> stays;
    std::vector<Kit> kits;
    std::vector<Caution> cautions;
    std::vector<std::string> domain_questions;  // attributes a domain wants found out before ordering
    std::optional<Question> next;
    std::size_t open = 0;  // lines the next questions are about
    std::size_t to_check = 0, unrecorded = 0, disagreed = 0, unanswered = 0, unfit = 0, held = 0;
    Evidence weakest = Evidence::law;
    std::vector<std::string> hearsay;  // told facts that lines rest on and that nobody here has measured or read
    bool invented{};
    bool nothing_to_order() const;  // no line of it has a place on this vehicle
    bool ready() const { return to_check + unrecorded + disagreed + unanswered + unfit + held == 0; }
};

// The open lines of a list, or of plain role answers, for asking what to find out next.
std::vector<OpenLine> open_lines(const PartsList& list);
OpenLine open_line(const RoleAnswer& answer);

// 3 % and 0.3 L for what is spilt and stays in the jug (common practice, no source).
double spill_reserve_l(double need_l);

}  // namespace casebound
