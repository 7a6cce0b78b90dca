// What fills a role, and why: the answer about one place, its groups, and the reasons for and against each. Plain data;
// decides nothing.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/ground/photo.h"
#include "core/host/plugin_host.h"
#include "core/verdict/catalog.h"

namespace casebound {

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
    const ApplicationRow* row() const { return row_; }  // null when it is in words
    Evidence evidence() const { return row_ ? row_->evidence : said_->origin.evidence; }

    std::vector<Photo> photos{};  // of what is told
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

// What has to go in together with a group, in its own place.
struct GoesWith {
    std::string group, role;
    double quantity = 1;
};

struct GroupAnswer {
    std::int64_t id{};
    std::string key, title;
    Verdict verdict = Verdict::not_recorded;
    Bits on;                                                               // within what is left
    Bits on_line, disagreed_line, denied_line, doubted_line, vetoed_line;  // over the whole line, whatever was told
    Bits out_line;  // where a statement or its domain rules it out, whether it is recorded there or not
    Bits no_line;   // where any statement that counts says no, whoever else says yes
    double quantity_low = 0, quantity_high = 0;  // 0: nobody says how much of what is poured or cut to length
    bool amount_open{};                          // nor on all that may be true
    std::vector<Leaf> leaves;                    // rows that say it fits, a minimal cover of `on`
    std::vector<Leaf> against;                   // rows and computations that exclude, or contradict
    std::vector<Caution> cautions;
    std::vector<std::string> notes, questions;
    std::vector<std::string> stands_in_for;  // groups; empty: it is recorded for the place itself
    std::string only_part;                   // of the group this part alone; empty: every part of it
    std::vector<std::string> by_groups;      // the groups that this part is in
    std::vector<GoesWith> goes_with;         // it stands in only together with these
    std::vector<Companion> companions;
    std::optional<SourceNote> never_again;  // the old one never goes back, whatever a job says

    Bits sure() const { return on_line - doubted_line; }
    void want_as_much(const GroupAnswer& other);  // the quantity of each of the two is enough

    // Of what speaks against it where its sources disagree on any of what is left: the firmest; null where they do not.
    const Leaf* firmest_against(const Bits& left) const;
};

struct RoleAnswer {
    std::int64_t id{};
    std::string role, title, unit, domain;
    bool exact_only{};
    Verdict verdict = Verdict::not_recorded;
    std::string failure;  // not answered: why
    std::vector<GroupAnswer>
        groups;  // those that fit some configuration left, most probable first; then the rest that are on record
    std::vector<GroupAnswer>
        parts;  // of one part alone each, that is right on all that may be true by one of its groups
                // here and by another there
    std::vector<GroupAnswer> with_others;  // right on all that is left, once what goes with it goes in, too
    Bits none_line;                        // configurations of the line with no such place
    Bits blank;                            // what is left and has nothing recorded
    std::vector<Leaf> none_leaves;
    std::vector<Leaf> told;             // told facts the verdict rests on
    std::vector<std::string> deciding;  // a smallest set of attributes that settles it; empty when settled
    std::vector<Leaf> withdrawn;        // deprecated statements that would have mattered
    Evidence weakest = Evidence::law;
    bool invented{};                           // rests on invented demo data
    std::vector<const Condition*> conditions;  // of its statements

    bool by_the_piece() const { return unit.empty() || unit == "each"; }  // else poured, or cut to length

    std::vector<std::string> speaks_of() const;  // attributes that its statements name, for describing in their words

    // The first that fits, else the first part, else the first that goes in with others; null when none does.
    const GroupAnswer* best() const;
    const GroupAnswer* group(std::string_view key) const;  // of `groups`; null when it is not one
    bool plain() const;                                    // something fits that asks for nothing beside it
    Verdict verdict_on(const Bits& cell) const;            // what the verdict would be if only `cell` were left
    bool settled_on(const Bits& cell) const { return verdict_on(cell) != Verdict::check_first; }
};

}  // namespace casebound
