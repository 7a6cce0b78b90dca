#include "rows/check.h"

#include <stdexcept>
#include <string>

#include "core/contract/domain_words.h"
#include "rows/findings.h"
#include "rows/mount_record.h"
#include "rows/vocabulary.h"
#include "science/stages.h"

namespace casebound::mounts {
namespace {

struct Faults {
    std::string_view pack;
    std::vector<RowFault> all{};
    void add(const Row& row, const char* column, std::string what) {
        if (row.origin.pack == pack) all.push_back({row.origin, column, std::move(what)});
    }
};

std::string group_of(const Row& row) { return std::string(row.text("group_key")); }

void check_connection(const Row& row, const Mount& mount, Faults& faults) {
    const auto stated = connection_from(row.text("connection"));
    if (stated != Connection::unknown && shown_kind(mount) == Kind::unknown)
        faults.add(row, "connection",
                   group_of(row) + ": a " + kind_key(mount.kind) + " mount with connection " +
                       std::string(row.text("connection")) + ": one of the two is wrong; look at the part");
    if (mount.kind == Kind::hydraulic && (stated == Connection::hose || stated == Connection::plug))
        faults.add(row, "kind",
                   group_of(row) + ": hydraulic with a " + std::string(row.text("connection")) +
                       " is a switched mount: write switched_vacuum or switched_electric");
    if (mount.hose_mm && stated != Connection::hose && mount.kind != Kind::switched_vacuum)
        faults.add(row, "hose_mm",
                   group_of(row) + ": a hose size on a mount without a hose: clear it or state the connection");
    if (mount.pins && stated != Connection::plug && mount.kind != Kind::switched_electric && mount.kind != Kind::active)
        faults.add(row, "pins", group_of(row) + ": pins on a mount without a plug: clear them or state the connection");
}

void check_position(const Facts& facts, const Row& row, const Mount& mount, Faults& faults) {
    for (const auto& application : facts.rows("applications", "group_key", group_of(row))) {
        const auto position = position_of_role(application.text("role"));
        const bool positive = application.text("says") == "fits" && application.text("withdrawn").empty();
        if (!positive || position == Position::unknown || position == mount.position) continue;
        const std::string what = group_of(row) + " is recorded as the " + std::string(word(mount.position)) +
                                 " mount and here fills " + std::string(application.text("role")) +
                                 ": correct one of them";
        faults.add(application, "role", what);
    }
}

// What `stand_ins` may say at most of two mounts, whatever it says.
void check_stand_in(const Facts& facts, const Row& edge, Faults& faults) {
    const auto relation = edge.text("relation");
    if (!edge.text("withdrawn").empty() || relation == "excludes") return;
    const auto wanted = mount_of_group(facts, edge.text("wanted")),
               offered = mount_of_group(facts, edge.text("offered"));
    if (!wanted || !offered) return;
    const auto answer = may_replace(wanted->mount, offered->mount);
    const std::string pair = std::string(edge.text("offered")) + " for " + std::string(edge.text("wanted")) + ": ";
    if (answer.verdict == Replacement::no)
        faults.add(edge, "relation", pair + answer.reasons.front() + ": remove the row, or write excludes");
    if (answer.verdict == Replacement::bolts_up_but && relation != "bolts_up_but")
        faults.add(edge, "relation", pair + answer.reasons.front() + ": write bolts_up_but and say what differs");
}

void check_tightening(const Row& row, Faults& faults) {
    const auto text = row.text("tightening");
    if (text.empty()) return;
    try {
        if (!read_stages(text))
            faults.add(row, "tightening", "not a list of stages: write \"45 N m\" or \"40 N m + 60 deg + 30 deg\"");
    } catch (const std::domain_error& refusal) { faults.add(row, "tightening", refusal.what()); }
}

bool about_the_same(const Row& a, const Row& b, std::string_view column) {
    return a.text("line") == b.text("line") && a.text("condition") == b.text("condition") &&
           a.text(column) == b.text(column);
}

// Two sources may disagree and stay side by side; one source that says both is a slip of the pen.
void check_lifting(const std::vector<Row>& rows, Faults& faults) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (about_the_same(rows[i], rows[j], "point") && rows[i].text("source") == rows[j].text("source") &&
                rows[i].text("says") != rows[j].text("says"))
                faults.add(rows[i], "says",
                           std::string(rows[i].text("point")) + ": the same source says the opposite in line " +
                               std::to_string(rows[j].origin.line) +
                               ": keep what it says, or state on which configurations");
}

bool reversed(const Row& a, const Row& b) {
    return a.text("line") == b.text("line") && a.text("condition") == b.text("condition") &&
           a.text("source") == b.text("source") && a.text("position") == b.text("with_position") &&
           a.text("with_position") == b.text("position");
}

void check_pairs(const std::vector<Row>& rows, Faults& faults) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (reversed(rows[i], rows[j]) && rows[i].text("rule") != rows[j].text("rule"))
                faults.add(rows[i], "rule",
                           "the same source has another rule for the pair the other way round in line " +
                               std::to_string(rows[j].origin.line) + ": a pair is a pair from both sides");
}

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    Faults faults{pack};
    for (const auto& row : facts.rows("mounts_mounts")) {
        const auto record = mount_of_row(row);
        check_connection(row, record.mount, faults);
        check_position(facts, row, record.mount, faults);
    }
    for (const auto& edge : facts.rows("stand_ins")) check_stand_in(facts, edge, faults);
    for (const auto& row : facts.rows("mounts_fasteners")) check_tightening(row, faults);
    check_lifting(facts.rows("mounts_lifting"), faults);
    check_pairs(facts.rows("mounts_pairs"), faults);
    return faults.all;
}

}  // namespace casebound::mounts
