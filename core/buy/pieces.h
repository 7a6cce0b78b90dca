// The ledger by piece: what is on order or here for a vehicle, what is fitted in its open jobs, and what of the own shelf
// is kept for whom. Each piece is counted once, a kit by what is in it. Reads the records; decides and writes nothing.
#pragma once

#include <map>
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
    bool came{};                     // all of it; else some is still on its way
    std::string last;                // day of what was written down
    std::vector<std::string> roles;  // and what it was for
    std::string key() const;         // how it is offered: "H-KIT-1 (carter-ring-10)"
};

struct Fitted {
    std::string item, date;
    double quantity{};  // 0: all of it
};

struct Pieces {
    std::vector<Piece> here;                            // neither fitted nor gone
    std::map<std::string, std::vector<Fitted>> fitted;  // by role, in jobs that are open
};

// `needs`: of every possibility; they say which thing in a kit serves which role.
Pieces pieces_of(Session& session, const std::string& vehicle, const std::vector<Need>& needs);

struct KeptOnShelf {
    std::string vehicle, job;
    double quantity{};
};

// By item: what orders of open jobs are to take from the own shelf and have not taken yet.
std::map<std::string, std::vector<KeptOnShelf>> kept_on_shelf(Session& session);

}  // namespace casebound
