// The ledger by piece: what is on order or here for a vehicle, what is fitted in its open jobs, and what of the own shelf
// is kept for whom. Each piece is counted once, a kit by what is in it. Reads the records; decides and writes nothing.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/cover/market.h"
#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

inline constexpr const char* own_shelf_name = "own shelf";
inline constexpr const char* here_name = "on order or here";

struct Piece {
    std::string item, content;       // content: the group of a thing in a kit; empty: the item itself
    double quantity{};               // of the item or content
    double awaited{};                // of these: still on their way
    std::string arrives;             // day by which those are here; empty: not known
    std::string last;                // day of what was written down
    std::vector<std::string> roles;  // and what it was for
    bool came() const { return awaited == 0; }
    std::string key() const;  // how it is offered: "H-KIT-1 (carter-ring-10)"
};

struct Fitted {
    std::string item, date;
    double quantity{};    // 0: all of it
    bool out_of_a_kit{};  // item is the kit, and something in it serves the role
};

struct Pieces {
    std::vector<Piece> here;                            // neither fitted nor gone
    std::map<std::string, std::vector<Fitted>> fitted;  // by role, in jobs that are open
};

std::set<std::int64_t> open_jobs_of(Session& session, const std::string& vehicle);  // started, and not closed

// `possible`: the needs of each possibility; they say which thing in a kit serves which role, where all of them agree.
Pieces pieces_of(Session& session, const std::string& vehicle, const std::vector<std::vector<Need>>& possible);

struct KeptOnShelf {
    std::string vehicle, job;
    double quantity{};
};

// How many of a kit some of its things are, told role by role: one of it is told once, or once for every role it serves.
class KitCount {
public:
    KitCount(const Catalog& catalog, const std::string& kit) : catalog_(&catalog), kit_(kit) {}
    void add(const std::string& role,
             std::optional<double> quantity);  // of the things for the role; none: those of one kit
    double kits() const;

private:
    const Catalog* catalog_;
    std::string kit_;
    std::map<std::string, double> by_kind_;  // of the things for the role
};
bool is_kit(const Catalog& catalog, const std::string& item);

// Does a thing in a kit that is here serve one of the needs, whatever else is in the kit? Not where another of its kind in
// it is for none of them: who has the box in his hands could take that one. Nor where the kit is withdrawn.
bool serves_out_of_kit(const Catalog& catalog, const std::vector<Need>& needs, const Need& need, const std::string& kit,
                       const std::string& content);

// By item: what orders of open jobs are to take from the own shelf and have not taken yet.
std::map<std::string, std::vector<KeptOnShelf>> kept_on_shelf(Session& session);

}  // namespace casebound
