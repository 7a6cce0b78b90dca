// The shop's own pack: what was measured and fitted on one vehicle, or what somebody says of it, becomes rows that any
// pack load reads, with the kind of its source, the day and the vehicle. What is withdrawn stays in the pack's
// history. The pack is made anew beside the old one, checked and sealed there, and put in its place in one step: a fault,
// or a kill or power cut at any moment, leaves it as before or as after. Contradictions stay visible: nothing in other
// packs is changed.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/ground/replacement.h"
#include "core/pack/pack_report.h"
#include "core/work/own_pack.h"

namespace casebound {

struct OwnFact {
    // Table and cells, in the order they are written; the source is filled in.
    std::vector<std::pair<std::string, OwnCells>> rows;
    std::string vehicle, date, note;
    std::string kind = "measured", title{};  // of the source; no title: measured here, on the vehicle, that day
};

using OwnRows = std::vector<std::pair<std::string, std::string>>;  // file name and row

// The rows as they would stand in the files.
OwnRows rows_of(Session& session, const OwnFact& fact, const std::string& folder);

// Whether a table takes facts with a source, and whether it has a column. Throws Error(usage) with a near miss.
bool own_table_has(Session& session, const std::string& table, std::string_view column);

// One change of the pack: what is added and withdrawn goes in together or not at all. One process at a time works on a
// folder. Nothing may refer to the session's catalog when it is finished.
class OwnPackChange {
public:
    OwnPackChange(Session& session, const std::string& folder);

    std::string add(const OwnFact& fact);  // the key of its source
    // Every row that has this source: marked withdrawn where its table can say so, else taken out; the history keeps
    // what it was. An item, a group or a vehicle line that a statement brought stays. Throws Error(usage) when there is
    // nothing to withdraw.
    void withdraw(const std::string& source, const std::string& why);
    // A cell of an item that a statement brought: its title, or what one pack holds.
    void reword_item(const std::string& source, const std::string& column, const std::string& text);
    // Checks, seals and loads. On a fault nothing is changed and Error(bad_data) names every one; of a row that was
    // added by its column alone.
    OwnRows finish();

private:
    void remember(const std::string& what, const std::string& table, const OwnCells& row, const std::string& source,
                  const std::string& why);
    std::vector<std::string> faults_of(const std::vector<PackFault>& faults) const;

    Session& session_;
    std::string folder_;
    PackShape shape_;
    NewFolder made_;
    OwnRows added_;
    std::vector<std::pair<std::string, unsigned long>> added_at_;  // file and line
};

// Writes the rows, loads the pack and returns what was written; one process at a time works on a folder. On a fault
// nothing is changed and Error(bad_data) names every fault.
OwnRows keep_fact(Session& session, const OwnFact& fact, const std::string& folder);

}  // namespace casebound
