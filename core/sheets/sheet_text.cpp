#include "core/sheets/sheet_text.h"

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/say/report.h"

namespace casebound {

std::string row_text(const SheetRow& row) {
    std::string text = row.entry ? fmt::format("entry {}", *row.entry) : "";
    if (!row.date.empty()) text += (text.empty() ? "" : ", ") + row.date;
    if (!text.empty()) text += ": ";
    if (!row.subject.empty()) text += row.subject + ": ";
    text += row.text;
    if (row.corrects) text += fmt::format("; corrects entry {}", *row.corrects);
    if (!row.source.empty()) text += fmt::format(" [{}]", row.source);
    return text + (row.stands ? "" : " (no longer stands)");
}

std::string sheet_text(const Sheet& sheet) {
    std::string out = spread(fmt::format("{} sheet, {}, {}", sheet.kind, sheet.head.vehicle, sheet.head.date),
                             invented_label(sheet.head.invented)) +
                      wrapped(sheet.head.title);
    for (const auto& section : sheet.sections) {
        out += "\n" + section.title + "\n";
        for (const auto& row : section.rows) out += wrapped(row_text(row), 2, 2);
        if (section.rows.empty()) out += wrapped(section.if_empty, 2);
    }
    return out;
}

Json json_of(const Sheet& sheet) {
    Json json{{"kind", sheet.kind},
              {"vehicle", sheet.head.vehicle},
              {"title", sheet.head.title},
              {"date", sheet.head.date},
              {"invented", sheet.head.invented}};
    json["sections"] = Json::array();
    for (const auto& section : sheet.sections) {
        Json rows = Json::array();
        for (const auto& row : section.rows)
            rows.push_back({{"entry", row.entry ? Json(*row.entry) : Json(nullptr)},
                            {"date", row.date},
                            {"subject", row.subject},
                            {"text", row.text},
                            {"source", row.source},
                            {"corrects", row.corrects ? Json(*row.corrects) : Json(nullptr)},
                            {"stands", row.stands}});
        json["sections"].push_back(
            {{"name", section.name}, {"title", section.title}, {"rows", rows}, {"if_empty", section.if_empty}});
    }
    return json;
}

}  // namespace casebound
