// May OFFERED stand in for WANTED? Groups are nodes, stand-ins one-way edges with conditions and a source.
// A path accumulates conditions, requirements and companions; one that crosses an `excludes` is void; a seller's
// claim never chains; two opposite statements are a disagreement. No path is "not recorded", never "no".
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/verdict/catalog.h"
#include "core/verdict/fits.h"

namespace casebound {

enum class Relation : std::uint8_t { supersedes, stands_in_if, bolts_up_but, excludes };

struct Edge {
    std::string offered, wanted;
    Relation relation = Relation::supersedes;
    std::string condition, requirement, also_requires, difference, withdrawn;
    Origin origin;
};

// What `swap` answers. `yes`: may stand in, with what follows. `differs`: goes on and works differently.
enum class SwapVerdict : std::uint8_t { yes, yes_if, differs, no, claimed_only, disagree, not_recorded, not_answered };

struct SwapAnswer {
    SwapVerdict verdict = SwapVerdict::not_recorded;
    std::string wanted, offered;  // as asked
    std::string wanted_group, offered_group;
    std::vector<Edge> path;                  // from the offered group to the wanted one
    std::vector<std::string> conditions;     // vehicle conditions not known to hold yet
    std::vector<std::string> requirements;   // in words
    std::vector<std::string> also_requires;  // groups to fit with it
    std::vector<std::string> differences;
    std::vector<std::string> reasons;
    std::vector<Caution> cautions;
    std::vector<Leaf> leaves, withdrawn;  // rows the answer rests on; statements that no longer count
    std::vector<std::string> equal_by;    // a proposal: computed from these columns, nobody has stated it
    Evidence weakest = Evidence::law;
    bool invented{};
};

std::string_view swap_words(SwapVerdict verdict);  // "may stand in", "not recorded", ...
std::string_view swap_name(SwapVerdict verdict);   // for JSON
std::string_view relation_words(Relation relation);
std::string_view relation_name(Relation relation);  // for JSON

class Interchange {
public:
    // `judge` may be null: then no vehicle is meant and conditions stay open.
    Interchange(const Catalog& catalog, const Plugins& plugins, const Reasoner& reasoner, const Judge* judge = nullptr);

    // Keys of groups or items. Throws Error(usage) with a near miss for one that is neither.
    SwapAnswer swap(const std::string& wanted, const std::string& offered) const;
    // Groups that may stand in for `wanted` outright or on conditions, best first; vetoes are left out.
    std::vector<SwapAnswer> stand_ins_for(const std::string& wanted_group, const std::string& role) const;
    // Every group reachable to `wanted` by edges that count, for checking against other searches.
    std::vector<std::string> reachable(const std::string& wanted_group) const;

private:
    struct End {
        std::string group;
        std::optional<Member> member;
    };
    const std::vector<Edge>& edges_to(const std::string& wanted) const;  // kept once read
    const std::vector<Edge>& edges_from(const std::string& offered) const;
    std::vector<End> ends(const std::string& key) const;
    bool excluded(const std::string& a, const std::string& b, std::vector<Edge>* statements) const;
    SwapAnswer between(const End& wanted, const End& offered, const std::string& role) const;
    void add_what_does_not_count(SwapAnswer& answer) const;
    void examine(SwapAnswer& answer, const End& wanted, const End& offered, const std::string& role) const;

    const Catalog& catalog_;
    const Plugins& plugins_;
    const Reasoner& reasoner_;
    const Judge* judge_;
    mutable std::map<std::string, std::vector<Edge>> to_, from_;
};

}  // namespace casebound
