// What stands on a vehicle's papers, and its name: put right, or taken off the yard; and what every answer about one
// vehicle says of its number and of what is told. Told facts are written elsewhere.
#pragma once

#include <string>

#include "core/session/command.h"

namespace casebound {

// Throws Error(bad_data) for an identification number of a model year that the line was not made in: every order would
// be left to chance.
void check_number(Session& session, const Vehicle& vehicle);

std::string vin_notes(const Vehicle& vehicle);
// What is told and unusual, and what the evidence told so far lacks.
// `said`: cautions that were said before, which are counted and not repeated.
std::string cautions_text(Session& session, const Situation& situation, const std::vector<std::string>& said = {});
Result vehicle_json(Session& session, const Situation& situation);

Command correct_command();
Command forget_command();

}  // namespace casebound
