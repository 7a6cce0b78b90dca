// The words of `record` and `close` as typed values, checked against the catalog and the started jobs before
// anything is written. Writes nothing. Throws Error(usage) for a wrong word, Error(no_input) for a job not started.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_records.h"
#include "core/work/key_value_args.h"

namespace casebound {

bool holds(const std::vector<std::string>& words, const std::string& word);
std::string one_of(std::string_view key, std::string word,
                   const std::vector<std::string>& allowed);  // "left-over" as "left_over"
std::string date_if(const KeyValueArgs& words, std::string_view key);

// The started job that a word means: its key or its number; one not closed before one that is. No word: the newest open one.
std::optional<std::int64_t> job_of(Session& session, const std::string& vehicle, const std::string& word);

WorkRecord work_from(Session& session, const std::string& vehicle, const std::string& what, const KeyValueArgs& words);
LineEvent event_from(Session& session, const std::string& vehicle, const std::string& event, const KeyValueArgs& words);
MoneyEntry money_from(Session& session, const std::string& vehicle, const KeyValueArgs& words);

double hours_from(const KeyValueArgs& words);
// What a record leaves to be checked, a sentence each; with what was told and what the place takes.
std::vector<std::string> open_checks(Session& session, const std::string& vehicle, const WorkRecord& one);

const std::vector<std::string>& line_events();  // what may happen to a line of a job
const std::vector<std::string>& record_keys();

}  // namespace casebound
