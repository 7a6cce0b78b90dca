// The sheets of a vehicle: which one, for which jobs, on which paper; and the sheet itself, a document of its own.
#include "core/page/page_form.h"
#include "core/page/page_routes.h"
#include "core/page/page_vehicle.h"
#include "core/sheets/sheet_html.h"

namespace casebound {

namespace {

void show_sheets(Visit& visit, Page& page) {
    const auto situation = vehicle_page(visit, page, "sheets to print");
    const auto begun = open_jobs(visit.session, situation->name());
    Field kind{"kind",
               "Which sheet",
               Field::Kind::one_of,
               "",
               "",
               begun.empty() ? "history" : "job",
               {{"job", "Job sheet: what to have beside the vehicle"},
                {"order", "Order sheet: what to buy, seller by seller"},
                {"bench-match", "Bench-match sheet: old part against new part"},
                {"history", "History: everything that was entered"},
                {"disclosure", "Disclosure: what a buyer is told"}},
               true};
    Form form{"sheet", "", "Show the sheet", {std::move(kind)}, {}, {}, vehicle_address(situation->name(), "/sheet")};
    for (const auto& job : jobs_for(*situation, visit.session)) {
        const bool open = std::find(begun.begin(), begun.end(), job.key) != begun.end();
        form.fields.push_back({"job",
                               job.title,
                               Field::Kind::check,
                               "",
                               "",
                               open ? job.key : "",
                               {{job.key, job.title + (open ? " (begun)" : "")}}});
    }
    form.fields.push_back({"photos", "The disclosure with its photos", Field::Kind::check});
    form.fields.push_back(
        {"paper", "Paper", Field::Kind::one_of, "", "", "a4", {{"a4", "A4"}, {"letter", "US Letter"}}, true});
    page.main.element("p",
                      "Tick the jobs that a job, order or bench-match sheet is about. Then print it from the browser: "
                      "the sheet brings its own paper size and page numbers.");
    write_form(page.main, visit, form);
    write_vehicle_links(page.main, visit, situation->name());
}

std::string print_sheet_page(Visit& visit) {
    const auto situation = visit.session.situation(visit.words.at(0));
    const auto paper = visit.asked("paper");
    return sheet_html(print_sheet(visit.session, *situation, visit.asked("kind"), visit.all_asked("job"), {},
                                  !visit.asked("photos").empty()),
                      paper_from(paper.empty() ? "a4" : paper), "/sheet.css");
}

}  // namespace

std::vector<Route> sheet_routes() {
    return {{"/vehicle/*/sheets", "", show_sheets}, {"/vehicle/*/sheet", "", nullptr, print_sheet_page}};
}

}  // namespace casebound
