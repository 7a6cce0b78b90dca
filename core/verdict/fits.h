// Which groups fill a role on a partly known vehicle, and why. The proof is recorded while deciding and is
// minimal: without any one of its leaves the answer would be another, or the leaf says that it is redundant.
// A domain may lower what is found here; nothing raises it.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/host/plugin_host.h"
#include "core/verdict/catalog.h"
#include "core/verdict/narrowing.h"
#include "core/verdict/statements.h"

namespace casebound {

struct Objected;  // an objection met with the line

// A reason: a row of the catalog, or in words a told fact or a domain's computation. A row is put into words
// when it is shown, not while it decides. Lives no longer than the catalog that it cites.
class Leaf {
public:
    Leaf(const Catalog& catalog, const ApplicationRow& row) : catalog_(&catalog), row_(&row) {}
    Leaf(std::string text, const SourceNote& source)
        : Leaf(std::move(text),
               source.row.pack.empty() ? Origin{"", "", 0, source.title, source.evidence} : source.row) {}
    Leaf(std::string text, Origin origin)
        : said_(std::make_shared<const Said>(Said{std::move(text), std::move(origin)})) {}

    std::string text() const;  // what the row or the told fact says
    Origin origin() const;     // a row; empty pack when it is a told fact or a domain's computation
    Evidence evidence() const { return row_ ? row_->evidence : said_->origin.evidence; }

    bool told{};
    bool redundant{};  // shown for completeness; the verdict does not rest on it

private:
    struct Said {
        std::string text;
        Origin origin;
    };
    const Catalog* catalog_ = nullptr;
    const ApplicationRow* row_ = nullptr;
    std::shared_ptr<const Said> said_;
};

struct GroupAnswer {
    std::int64_t id{};
    std::string key, title;
    Verdict verdict = Verdict::not_recorded;
    Bits on;                                                               // within what is left
    Bits on_line, disagreed_line, denied_line, doubted_line, vetoed_line;  // over the whole line, whatever was told
    double quantity_low = 0, quantity_high = 0;
    std::vector<Leaf> leaves;   // rows that say it fits, a minimal cover of `on`
    std::vector<Leaf> against;  // rows and computations that exclude, or contradict
    std::vector<Caution> cautions;
    std::vector<std::string> notes, questions;
    std::vector<std::string> stands_in_for;  // groups; empty: it is recorded for the place itself
    std::vector<Companion> companions;
    std::optional<SourceNote> never_again;  // the old one never goes back, whatever a job says
};

struct RoleAnswer {
    std::int64_t id{};
    std::string role, title, unit, domain;
    bool exact_only{};
    Verdict verdict = Verdict::not_recorded;
    std::string failure;  // not answered: why
    std::vector<GroupAnswer>
        groups;      // those that fit some configuration left, most probable first; then the rest that are on record
    Bits none_line;  // configurations of the line with no such place
    Bits blank;      // what is left and has nothing recorded
    std::vector<Leaf> none_leaves;
    std::vector<Leaf> told;             // told facts the verdict rests on
    std::vector<std::string> deciding;  // a smallest set of attributes that settles it; empty when settled
    std::vector<Leaf> withdrawn;        // deprecated statements that would have mattered
    Evidence weakest = Evidence::law;
    bool invented{};                           // rests on invented demo data
    std::vector<const Condition*> conditions;  // of its statements

    std::vector<std::string> speaks_of() const;  // attributes that its statements name, for describing in their words

    const GroupAnswer* best() const;             // the first that fits; null when none does
    Verdict verdict_on(const Bits& cell) const;  // what the verdict would be if only `cell` were left
    bool settled_on(const Bits& cell) const { return verdict_on(cell) != Verdict::check_first; }
};

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
    RoleAnswer decide(RoleAnswer answer, const Rows& rows) const;
    std::vector<Claim> collect(RoleAnswer& answer, const Rows& rows) const;
    std::vector<Objected> examine(RoleAnswer& answer, const GuardedDomain& domain) const;
    bool examine(RoleAnswer& answer, GroupAnswer& group, const GuardedDomain& domain,
                 std::vector<Objected>& objections) const;
    void prove(RoleAnswer& answer, const std::vector<Claim>& claims, const std::vector<Objected>& objections) const;
    void prove_group(GroupAnswer& group, Verdict role_verdict, const std::vector<Claim>& claims,
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
