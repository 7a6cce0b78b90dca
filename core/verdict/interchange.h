// May OFFERED stand in for WANTED? Answered over the graph of stand-ins.
// A path accumulates conditions, requirements and companions; one that crosses an `excludes` is void; a seller's
// claim never chains; two opposite statements are a disagreement. No path is "not recorded", never "no".
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/verdict/catalog.h"
#include "core/verdict/fits.h"
#include "core/verdict/stand_in_graph.h"
#include "core/verdict/swap_answer.h"

namespace casebound {

class Interchange {
public:
    // `judge` may be null: then no vehicle is meant and conditions stay open.
    Interchange(const Catalog& catalog, const Plugins& plugins, const Reasoner& reasoner, const Judge* judge = nullptr);

    // Keys of groups or items. Throws Error(usage) with a near miss for one that is neither.
    SwapAnswer swap(const std::string& wanted, const std::string& offered) const;
    // Groups that may stand in for `wanted` outright or on conditions, best first; vetoes are left out.
    std::vector<SwapAnswer> stand_ins_for(const std::string& wanted_group, const std::string& role) const;
    // One group for another, in a role.
    SwapAnswer stand_in(const std::string& wanted_group, const std::string& offered_group,
                        const std::string& role) const;
    // Where on the line `offered` may take the place of `wanted`, which holds on `from`, by statements that ask nothing
    // but a condition of the vehicle; not through a group where it is ruled out. Requires: a judge.
    Bits reach(const std::string& wanted, const std::string& offered, const Bits& from,
               const std::function<Bits(const std::string& group)>& ruled_out) const;
    // The same by statements that may ask for other parts to be fitted as well.
    struct Together {
        Bits on;
        std::map<std::string, Bits> with;  // groups that any of its ways asks for, and where
        std::vector<Leaf> leaves;          // of the ways that ask for any
    };
    Together reach_together(const std::string& wanted, const std::string& offered, const Bits& from,
                            const std::function<Bits(const std::string& group)>& ruled_out) const;
    const StandInGraph& graph() const { return graph_; }

private:
    struct End {
        std::string group;
        std::optional<Member> member;
    };
    std::vector<End> ends(const std::string& key) const;
    SwapAnswer between(const End& wanted, const End& offered, const std::string& role) const;
    Bits passed(const Edge& edge, const std::string& wanted, const std::string& offered, Bits on) const;
    void add_what_does_not_count(SwapAnswer& answer) const;
    void examine(SwapAnswer& answer, const End& wanted, const End& offered, const std::string& role) const;

    const Catalog& catalog_;
    const Plugins& plugins_;
    const Reasoner& reasoner_;
    const Judge* judge_;
    StandInGraph graph_;
};

}  // namespace casebound
