// The three sheets of a vehicle as data: what stands on each, and the same as text and JSON. What is not on record is a row
// that says so. Never promises anything.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/say/json_of.h"
#include "core/session/session.h"
#include "core/sheets/sheet_rows.h"

namespace casebound {

struct SheetHead {
    std::string vehicle, title, date;  // date: the day the sheet was made
    bool invented{};                   // rests on invented demo data
};

// What to have beside the vehicle while the work is done.
struct JobSheet {
    SheetHead head;
    SheetRows right_only_if, in_the_way;  // what it all hangs on; what keeps a line from being ordered
    SheetRows work, parts, torques, stays, cautions;
    SheetRows check_off;  // every role of the open jobs, what happened to it or that it is still to order
    SheetRows found;      // what the findings told speak of, and what the evidence lacks
};

// Everything that was entered, corrected entries too.
struct HistorySheet {
    SheetHead head;
    SheetRows found_out, work, parts, money, closed, photos;
};

// What a buyer is told; blanks are shown as "not known".
struct DisclosureSheet {
    SheetHead head;
    SheetRows identity, faults, work, fluids, looked_at, proof, odometer, found_out, unverified, photos, reminders,
        signatures;
};

// Empty `jobs`: those started and not closed. Throws Error(usage) when there is none.
JobSheet job_sheet(Session& session, const Situation& situation, const std::vector<std::string>& jobs);
HistorySheet history_sheet(Session& session, const Situation& situation);
// `gross_weight_kg`: gross vehicle weight rating, when known, for the reminders. Photos only when they are asked for.
DisclosureSheet disclosure_sheet(Session& session, const Situation& situation,
                                 std::optional<double> gross_weight_kg = {}, bool with_photos = false);

// What a sheet is right only if it is true, one a row.
std::string source_words(const SourceNote& source);  // "pack, file:2 (invented)"
SheetRows trouble_rows(Session& session, const Situation& situation);
SheetRows hearsay_rows(const std::vector<std::string>& hearsay);

// Any sheet as titled sections in the order they are read.
struct SheetSection {
    std::string name, title;  // name: as in JSON
    SheetRows rows;
    std::string if_empty = "not known";  // empty: then the section takes no room where it is read
    std::vector<std::string> columns{};  // of the rows' cells; empty: each row is one text
    bool takes_no_room() const { return rows.empty() && if_empty.empty(); }
};

struct Sheet {
    std::string kind;  // job, history, disclosure
    SheetHead head;
    std::vector<SheetSection> sections;
};

Sheet sheet_of(const JobSheet& sheet);
Sheet sheet_of(const HistorySheet& sheet);
Sheet sheet_of(const DisclosureSheet& sheet);

// The head of any sheet. `invented`: what it shows rests on invented data whatever the vehicle's line says.
Sheet without_empty(Sheet sheet,
                    const std::vector<std::string>& names);  // with nothing said where one of these is empty

SheetHead sheet_head(Session& session, const Situation& situation, bool invented = false);

// Keys of the jobs started on a vehicle and not closed, each once, in the order they were started.
std::vector<std::string> open_jobs(Session& session, const std::string& vehicle);

// `asked`, or the open jobs when none is named. Throws Error(usage) when there is none.
std::vector<std::string> named_or_open_jobs(Session& session, const Situation& situation,
                                            const std::vector<std::string>& asked);

// A sheet as text in 80 columns and as JSON.
std::string row_text(const SheetRow& row);  // "entry 3, 2026-11-25: pan-filter: fitted (no longer stands)"
std::string sheet_text(const Sheet& sheet);
Json json_of(const Sheet& sheet);

}  // namespace casebound
