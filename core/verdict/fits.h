// Which groups fill a role on a partly known vehicle, and why. The proof is recorded while deciding and is
// minimal: without any one of its leaves the answer would be another, or the leaf says that it is redundant.
// A domain may lower what is found here; nothing raises it.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/host/plugin_host.h"
#include "core/verdict/catalog.h"
#include "core/verdict/narrowing.h"
#include "core/verdict/role_answer.h"
#include "core/verdict/statements.h"

namespace casebound {

struct Objected;  // laid_out.h

// A domain's word that no order may be placed for some roles or jobs until something is done. What core itself doubts of
// what was told is a Doubt (narrowing.h).
struct HeldOrder {
    std::string domain;
    Hold hold;
    // `of_cure`: the role is asked for by a job that mends something.
    bool concerns(std::string_view role, const std::vector<std::string>& jobs, bool of_cure) const;
};

class Judge {
public:
    // `told_view` is what domains see of the vehicle. Plugins may be empty: then roles are not answered.
    Judge(const Catalog& catalog, const Plugins& plugins, const LineModel& line, const Narrowing& narrowing,
          const VehicleView& view, const Reasoner& reasoner);

    RoleAnswer role(std::string_view role) const;  // throws Error(usage) with a near miss for an unknown role
    std::vector<RoleAnswer> roles() const;         // every role the line has applications for, by name
    std::vector<std::string> roles_on_record() const;
    // Those of them in which a statement that counts names the group.
    std::vector<std::string> roles_naming(std::int64_t group) const;
    // The statements on a role that count, in file order.
    std::vector<Claim> claims(const RoleAnswer& answer) const;
    // A group that no statement names for the place, with what its domain says of it there; on nothing yet.
    GroupAnswer candidate(RoleAnswer& answer, const std::string& group) const;
    void grade(RoleAnswer& answer) const;  // the weakest evidence on the path that decided
    // What the loaded domains hold, by domain. One that cannot say holds every role of its own.
    const std::vector<HeldOrder>& holds() const;
    Evidence left_rests_on() const;  // configurations left, and told facts that ruled others out
    const Narrowing& narrowing() const { return narrowing_; }
    const LineModel& line() const { return line_; }
    const Catalog& catalog() const { return catalog_; }
    const Plugins& plugins() const { return plugins_; }
    const VehicleView& view() const { return view_; }
    const Reasoner& reasoner() const { return reasoner_; }

private:
    using Rows = std::vector<const ApplicationRow*>;
    RoleAnswer named(std::string_view role) const;
    std::vector<std::string> roles_where(const std::function<bool(const ApplicationRow&)>& counts) const;
    RoleAnswer decide(RoleAnswer answer, const Rows& rows) const;
    std::vector<Claim> collect(RoleAnswer& answer, const Rows& rows) const;
    std::vector<Objected> examine(RoleAnswer& answer, const GuardedDomain& domain) const;
    bool examine(RoleAnswer& answer, GroupAnswer& group, const GuardedDomain& domain,
                 std::vector<Objected>& objections) const;
    void prove(RoleAnswer& answer, const std::vector<Claim>& claims, const std::vector<Objected>& objections) const;
    void prove_group(GroupAnswer& group, const RoleAnswer& place, const std::vector<Claim>& claims,
                     const std::vector<bool>& cited) const;
    void prove_told(RoleAnswer& answer, const RoleAnswer& cited) const;

    const Catalog& catalog_;
    const Plugins& plugins_;
    const LineModel& line_;
    const Narrowing& narrowing_;
    const VehicleView& view_;
    const Reasoner& reasoner_;
    std::vector<const ToldFact*> telling_;            // told facts that exclude something of the line
    Evidence weakest_configuration_ = Evidence::law;  // of what is left
    bool invented_configuration_{};
    mutable std::optional<std::vector<HeldOrder>> holds_;
};

}  // namespace casebound
