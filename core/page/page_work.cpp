#include "core/page/page_work.h"

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_frame.h"
#include "core/page/page_photos.h"
#include "core/shop/shop_records.h"

namespace casebound {

namespace {

std::string work_text(const WorkRecord& one, const Vocabularies& words) {
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : "; ") + part; };
    const auto* role = words.role(one.role);
    for (const auto& part : {role ? role->title : one.role, one.item, spaced(one.made), one.label})
        if (!part.empty()) add(part);
    if (one.torque_nm) add("torque " + shown_quantity(*one.torque_nm, "N m", 1));
    if (one.out_l) add(shown_quantity(*one.out_l, "L") + " out");
    if (one.in_l) add(shown_quantity(*one.in_l, "L") + " in");
    if (!one.gears.empty()) add("gears " + one.gears);
    if (!one.codes.empty()) add("codes " + one.codes);
    if (!one.leaks.empty()) add("leaks " + one.leaks);
    if (one.odometer_km) add(fmt::format("odometer {} km", plain_number(*one.odometer_km, 0)));
    if (!one.note.empty()) add(one.note);
    return text;
}

}  // namespace

void write_work(Html& html, Session& session, const std::string& vehicle) {
    const auto records = ShopRecords(session.shop()).records(vehicle);
    if (records.empty()) return;
    html.element("h2", "Written down");
    constexpr std::size_t most = 200;
    HtmlTable table(html, {"entry", "date", "what", "of it"}, "Newest first", false);
    for (std::size_t i = 0; i < records.size() && i < most; ++i) {
        const auto& one = records[records.size() - 1 - i];
        table.begin_row();
        for (const auto& text : {std::to_string(one.id), one.date, spaced(one.what)}) table.cell(text);
        {
            const auto cell = table.open_cell();
            const auto text = work_text(one, session.catalog().vocabularies());
            html.text(text + (one.stands ? "" : " (no longer stands)"));
            write_photos(html, one.photos, text);
        }
        table.end_row();
    }
}

}  // namespace casebound
