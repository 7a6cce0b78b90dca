#include "core/verdict/audit.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/verdict/interchange.h"

namespace casebound {

namespace {

// A vehicle of the line of which nothing is known.
class Unknown : public VehicleView {
public:
    Unknown(const Catalog& catalog, const LineModel& line, const Narrowing& nothing)
        : catalog_(catalog), line_(line), nothing_(nothing) {}
    std::string name() const override { return "(any)"; }
    std::string line() const override { return line_.key; }
    std::vector<PossibleValue> possible(std::string_view attribute) const override {
        std::vector<PossibleValue> values;
        if (const auto* column = line_.set.column(attribute))
            for (const auto& [value, share] : line_.set.values_left(*column, line_.set.all()))
                values.push_back({value->text, value->number, share});
        return values;
    }
    std::vector<Told> told() const override { return {}; }
    Evidence left_rests_on() const override { return Evidence::law; }  // nothing was ruled out
    Holds holds(std::string_view condition) const override {
        return holds_on(line_, catalog_.vocabularies(), nothing_, condition);
    }

private:
    const Catalog& catalog_;
    const LineModel& line_;
    const Narrowing& nothing_;
};

std::vector<Origin> origins(const std::vector<Leaf>& leaves) {
    std::vector<Origin> rows;
    for (const auto& leaf : leaves) rows.push_back(leaf.origin());
    return rows;
}

std::string pieces(const LineModel& line, const Bits& part, const std::vector<std::string>& speaks_of) {
    const auto text = pieces_text(describe_in_pieces(line.set, part, line.set.all(), speaks_of));
    return text.empty() ? "every configuration" : text;
}

// How a role may be read as "gap": some configurations have a part on record, others none and no "none needed".
void audit_role(const LineModel& line, const RoleAnswer& role, std::vector<AuditFinding>& found) {
    for (const auto& group : role.groups)
        if (group.disagreed_line.any()) {
            auto rows = origins(group.leaves);
            for (const auto& row : origins(group.against)) rows.push_back(row);
            found.push_back({"contradiction",
                             fmt::format("{}: {}: sources disagree whether {} fits on {}", line.title, role.title,
                                         group.key, pieces(line, group.disagreed_line, role.speaks_of())),
                             rows});
        }
    bool any = role.none_line.any();
    for (const auto& group : role.groups) any |= group.on_line.any() || group.disagreed_line.any();
    Bits blank = role.blank;
    for (const auto& group : role.groups) blank -= group.disagreed_line;
    if (any && blank.any())
        found.push_back({"gap",
                         fmt::format("{}: {}: nothing on record on {}", line.title, role.title,
                                     pieces(line, blank, role.speaks_of())),
                         {}});
    for (const auto& group : role.groups) {
        if (group.leaves.empty() || group.on_line.none()) continue;
        const bool memory = std::all_of(group.leaves.begin(), group.leaves.end(),
                                        [](const Leaf& leaf) { return leaf.evidence() == Evidence::memory; });
        if (memory)
            found.push_back(
                {"from memory",
                 fmt::format("{}: {}: that {} fits rests on memory alone", line.title, role.title, group.key),
                 origins(group.leaves)});
    }
}

// Conditions that can never hold, and statements that an exclusion takes away whole: they say nothing.
void audit_conditions(const Catalog& catalog, const LineModel& line, std::vector<AuditFinding>& found) {
    const auto& rows = catalog.applications(line);
    const auto where = [&](const ApplicationRow& row) {
        return catalog.origin(row.origin, "applications", row.source);
    };
    for (const auto& row : rows) {
        if (!row.withdrawn.empty() || row.says != Says::fits) continue;
        const auto& on = catalog.condition_bits(line, row.condition);
        if (on.none())
            found.push_back(
                {"dead condition",
                 fmt::format("{}: {} can never hold", line.title, to_text(catalog.condition(row.condition))),
                 {where(row)}});
        for (const auto& other : rows) {
            if (other.says != Says::does_not_fit || other.role != row.role || other.group != row.group ||
                !other.withdrawn.empty() || other.source != row.source)
                continue;
            if (catalog.condition_bits(line, other.condition).contains(on))
                found.push_back({"conditions exclude each other",
                                 fmt::format("{}: {}: the exclusion takes away all that the application says",
                                             line.title, catalog.name_of(row.group)),
                                 {where(row), where(other)}});
        }
    }
}

void audit_groups(const Catalog& catalog, std::vector<AuditFinding>& found) {
    Statement rows(catalog.database(),
                   "SELECT n.text, g.origin, g.source FROM item_group g JOIN name n ON n.id = g.id "
                   "WHERE NOT EXISTS (SELECT 1 FROM member m JOIN item i ON i.id = m.item WHERE m.id BETWEEN g.id << "
                   "20 AND (g.id << 20) + 1048575 AND m.basis < 3 AND i.withdrawn IS NULL) ORDER BY n.text");
    while (rows.step())
        found.push_back({"empty group",
                         fmt::format("{}: nothing in it can be ordered", rows.text(0)),
                         {catalog.origin(rows.integer(1), "groups", rows.integer(2))}});
}

void audit_stand_ins(const Catalog& catalog, std::vector<AuditFinding>& found) {
    std::map<std::pair<std::string, std::string>, std::vector<const Row*>> positive;
    const auto rows = catalog.facts().rows("stand_ins");
    for (const auto& row : rows)
        if (row.text("relation") != "excludes" && row.text("withdrawn").empty())
            positive[{std::string(row.text("offered")), std::string(row.text("wanted"))}].push_back(&row);
    for (const auto& row : rows) {
        if (row.text("relation") != "excludes" || !row.text("withdrawn").empty()) continue;
        const std::pair<std::string, std::string> one{row.text("offered"), row.text("wanted")},
            other{one.second, one.first};
        for (const auto& key : {one, other})
            if (const auto at = positive.find(key); at != positive.end())
                for (const auto* yes : at->second)
                    found.push_back(
                        {"contradiction",
                         fmt::format("{} for {}: one source allows it, another excludes it", key.first, key.second),
                         {yes->origin, row.origin}});
    }
}

}  // namespace

std::vector<AuditFinding> audit(const Catalog& catalog, const Plugins& plugins, const Reasoner& reasoner) {
    std::vector<AuditFinding> found;
    for (const auto& key : catalog.line_keys()) {
        const auto& line = *catalog.line(key);
        const Narrowing nothing{{}, line.set.all()};
        const Unknown view(catalog, line, nothing);
        const Judge judge(catalog, plugins, line, nothing, view, reasoner);
        for (const auto& role : judge.roles()) audit_role(line, role, found);
        audit_conditions(catalog, line, found);
    }
    audit_groups(catalog, found);
    audit_stand_ins(catalog, found);
    std::stable_sort(found.begin(), found.end(),
                     [](const AuditFinding& a, const AuditFinding& b) { return a.kind < b.kind; });
    return found;
}

}  // namespace casebound
