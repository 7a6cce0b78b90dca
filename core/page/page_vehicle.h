// What the pages of one vehicle share: which vehicle it is, where its other pages are, whether it is of the demo.
#pragma once

#include "core/page/page_frame.h"
#include "core/page/page_visit.h"
#include "core/session/situation.h"
#include "core/shop/shop_records.h"

namespace casebound {

// Begins a page of the vehicle that the path names: title, trail, label. Throws Error(no_input) with a near miss.
std::unique_ptr<Situation> vehicle_page(Visit& visit, Page& page, const std::string& title);

std::string vehicle_of(const Visit& visit);  // that a form is sent about; throws Error(usage) on another page

bool invented_line(Session& session, const Situation& situation);

// Links to the vehicle's other pages.
void write_vehicle_links(Html& html, const Visit& visit, const std::string& vehicle);

// A link to the form that writes down what goes in a place; nothing to one who may only look.
void write_note_link(Html& html, const Visit& visit, const std::string& vehicle, const std::string& role,
                     const std::string& title);

// What was told and is in doubt, and what settles it; nothing where nothing is.
void write_doubts(Html& html, const std::vector<Doubt>& doubts);

struct JobWords {
    std::string key, title;
};

// Jobs that a place of this vehicle needs something for, by title.
void write_jobs(Html& html, const Visit& visit,
                const Situation& situation);  // a form: the parts list of the jobs ticked
std::vector<JobWords> jobs_for(const Situation& situation, Session& session);  // that need a part or fluid here
std::string job_title(Session& session, const std::string& job);               // its key where no loaded pack has it

std::vector<StartedJob> jobs_begun(Session& session, const std::string& vehicle);  // and not closed, oldest first

// What is begun and not ended, what is to order, on its way and due, what waits, and what it has cost; nothing where
// nothing was recorded. Each a sentence.
std::vector<std::string> state_of_work(Session& session, const std::string& vehicle);
void write_open_work(Html& html, Session& session, const Situation& situation);  // nothing without an open job

}  // namespace casebound
