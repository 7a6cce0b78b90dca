// One generated world: a vehicle line of its own, what packs say of its parts, what was told of one vehicle of it, who
// sells what, and what has been ordered. Plain rows, read by the oracle and written out for the program under test.
// Knows nothing of the program: nothing of core is included here.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace chain {

enum class Evidence { law, standard, maker, measured, common_practice, memory, invented };  // firmest first

struct Source {
    const char* key;
    Evidence evidence;
};
inline const std::vector<Source>& sources() {
    static const std::vector<Source> all{{"s-law", Evidence::law},           {"s-maker-a", Evidence::maker},
                                         {"s-maker-b", Evidence::maker},     {"s-maker-c", Evidence::maker},
                                         {"s-measured", Evidence::measured}, {"s-practice", Evidence::common_practice},
                                         {"s-memory", Evidence::memory},     {"s-memory-b", Evidence::memory}};
    return all;
}
inline bool from_memory(int source) { return sources()[static_cast<std::size_t>(source)].evidence == Evidence::memory; }

// The first three are of the line; colour is what no line records and a person may tell; noise is a finding.
enum Attribute { frame, made, depth, colour, noise };
inline constexpr int line_attributes = 3;
inline constexpr double depth_tolerance_mm = 3;
inline const std::vector<std::string>& values_of(int attribute) {
    static const std::vector<std::vector<std::string>> all{
        {"f1", "f2", "f3"},
        {"2006-10", "2006-11", "2006-12", "2007-01", "2007-02", "2007-03"},
        {"41", "46", "61"},
        {"red", "blue"},
        {"grinds", "quiet"}};
    return all[static_cast<std::size_t>(attribute)];
}

struct Term {  // one of these values
    int attribute{};
    std::set<int> values{};
};
using When = std::vector<Term>;  // all of them; none: always

struct Configuration {
    std::array<int, line_attributes> value{};
    int share = 1, source = 1;
};

enum Part { ring, cover, valve, oil, kit };                                        // kinds of item
enum Place { ring_left, ring_right, cover_place, valve_place, oil_fill, places };  // where they go
inline Part part_of(int place) {
    return place <= ring_right ? ring : place == cover_place ? cover : place == valve_place ? valve : oil;
}

struct Group {
    Part part = ring;
};
struct Item {
    Part part = ring;
    double pack = 1;  // pieces or litres in one
    bool withdrawn{};
};

enum class Basis { same, approved, meets, claimed };
struct Member {
    int group{}, item{};
    Basis basis = Basis::same;
    int source = 1;
};

enum class Says { fits, does_not_fit, none_needed };
struct Statement {
    int place{};
    Says says = Says::fits;
    int group = -1;
    When when{};
    double quantity{};  // 0: not stated
    bool withdrawn{};
    int source = 1;
};

enum class Relation { supersedes, stands_in_if, bolts_up_but, excludes };
struct StandIn {
    int offered{}, wanted{};
    Relation relation = Relation::supersedes;
    When when{};
    bool requirement{};
    int also = -1;  // a group to fit with it
    bool withdrawn{};
    int source = 1;
};

struct KitContent {
    int kit{}, group{}, quantity = 1, source = 1;
};

enum class Reach { needs, consumes, disturbs, look_first };  // strongest first
struct JobRow {
    int place{};
    Reach reach = Reach::needs;
    bool of_line{};
    When when{};  // of_line only
};

struct Objection {
    int group{};
    When when{};
    bool veto{};
};
struct Opinion {
    int offered{}, wanted{};
    bool veto{};
};
struct Beside {  // when the group goes in, the place beside it needs a new part
    int group{}, place{};
};
struct HeldBack {
    int place = -1;  // -1: the whole job
    int noise_heard{};
};

enum class Known { measured, read, said, assumed };
struct Tell {
    int attribute{};
    std::set<int> values{};  // one of these; of a depth: empty, and `mm` instead
    double mm{};
    Known known = Known::measured;
};

struct Seller {
    long carriage{}, free_from{}, minimum{};  // cents; free_from 0: never
};
struct Offer {
    int seller{}, item{};
    long cents{};
    int pack = 1, available = -1;  // pack: items in one; available -1: as many as wanted
};
struct OnShelf {
    int item{};
    double quantity{};
    int kept{};  // of it, for an open job of another vehicle
};
// What is on record for the open job of this vehicle. `content`: a group of a kit, with how many are fitted of it.
struct Bought {
    int item{}, place{};
    int ordered{}, received{}, returned{}, fitted{};
};

struct World {
    std::string key;
    std::vector<Configuration> configurations;
    std::vector<Group> groups;
    std::vector<Item> items;
    std::vector<Member> members;
    std::vector<Statement> statements;
    std::vector<StandIn> stand_ins;
    std::vector<KitContent> kit_contents;
    std::vector<JobRow> job;
    std::vector<Objection> objections;
    std::vector<Opinion> opinions;
    std::vector<HeldBack> held_back;
    std::vector<int> single_use;  // groups
    std::vector<Beside> beside;
    bool open{};  // nobody has listed the configurations: the rows that tell of the line are all there is
    std::vector<Tell> told;
    std::vector<Seller> sellers;
    std::vector<Offer> offers;
    std::vector<OnShelf> shelf;
    std::vector<Bought> bought;
    std::vector<std::pair<int, int>> swaps;  // wanted, offered: asked with --for
};

// What is compared: the same words from the oracle and from the program.
struct LineSays {
    std::string verdict;  // fits, none_needed, check_first, sources_disagree, not_recorded, does_not_fit
    bool blocks{}, needed{};
    Evidence firmest = Evidence::law, weakest = Evidence::law;  // of the firmest way to it; of all that speaks of it
    std::set<int> items;  // of a line that is settled: what may be ordered for it, kits aside
    std::set<std::pair<int, std::set<int>>> together;  // where that is nothing: parts with the groups that go with them
    std::set<int> stand_ins;                           // groups that are said to stand in outright
};
struct OrderLine {
    int item{};
    double pieces{};  // items, not packs
};
struct Spoken {
    std::map<int, LineSays> lines;
    bool ready{}, right_only_if{}, right_only_if_bought{};  // of the list; of the order
    Evidence weakest = Evidence::law;
    std::string buy;  // order, nothing, uncovered, refused
    long cents{};
    std::vector<OrderLine> order;
    std::map<std::pair<int, int>, std::string> swaps;
    std::map<int, std::set<int>> groups_right, items_right;  // by place: on all that is left, whatever the job says
    std::map<int, std::set<int>> items_recorded;  // by place: by a group recorded there, on all that may be true
    std::map<int, std::string> fits;              // of every place that anything is recorded of, in the job or not
    std::optional<long> known_cents;  // expected, when what is open has been found out; not said, or not to be had
    bool known_cents_said{};
};

}  // namespace chain
